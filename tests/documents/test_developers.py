"""What DEVELOPERS.md names is there: files, folders, commands; and every stage of the package is in its table."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from benchlore.cli import COMMANDS

REPOSITORY = Path(__file__).parents[2]
TEXT = (REPOSITORY / "DEVELOPERS.md").read_text(encoding="utf-8")
_NAMED = set(re.findall(r"`([A-Za-z_./]+(?:\.py|\.md|\.json|\.yaml|\.js|/))`", TEXT))
_ROOTS = (REPOSITORY, REPOSITORY / "src" / "benchlore", *sorted((REPOSITORY / "src" / "benchlore").iterdir()))


@pytest.mark.parametrize("name", sorted(_NAMED))
def test_a_file_that_is_named_is_there(name: str) -> None:
    pattern = re.sub(r"<[^>]+>", "*", name)
    assert any((root / pattern).exists() for root in _ROOTS), name


def test_commands_that_are_named_exist() -> None:
    named = set(re.findall(r"benchlore ([a-z][a-z-]+)", TEXT)) - {"and"}
    assert named <= set(COMMANDS)


def test_every_stage_has_its_row() -> None:
    stages = {path.parent.name for path in (REPOSITORY / "src" / "benchlore").glob("*/__init__.py")}
    rows = set(re.findall(r"^\| `([a-z_]+)/` \|", TEXT, re.MULTILINE))
    assert stages <= rows
