"""The README's commands run, and print what it says; its two first commands are whole and on one line each."""

from __future__ import annotations

import re
from pathlib import Path

from benchlore.cli import COMMANDS
from tests.documents.readme import README, examples, refreshed, scratch_base

TEXT = README.read_text(encoding="utf-8")


def test_output_is_as_shown(tmp_path: Path) -> None:
    """Write it anew with: python -m tests.documents.readme"""
    assert refreshed(TEXT, scratch_base(tmp_path / "base")) == TEXT


def test_every_command_is_shown() -> None:
    used = {example.command.split()[1] for example in examples(TEXT)}
    mentioned = used | set(re.findall(r"`benchlore ([a-z-]+)", TEXT)) | set(re.findall(r"/benchlore ([a-z-]+)", TEXT))
    assert set(COMMANDS) <= mentioned
    assert mentioned <= set(COMMANDS)


def test_two_commands_do_everything() -> None:
    lines = [line.strip() for line in TEXT.splitlines() if line.startswith("    python3 -m venv ")]
    assert len(lines) == 2
    assert lines[0].endswith("benchlore try")
    assert "pytest" in lines[1]


def test_pictures_are_there() -> None:
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", TEXT)
    assert pictures
    assert all((README.parent / picture).is_file() for picture in pictures)
