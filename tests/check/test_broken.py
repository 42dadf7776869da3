"""One defect a file: every file in tests/broken raises exactly its rule, at its line and column, and nothing else.

A file is named for its rule (``rule.yaml``, ``rule--variant.yaml``); a folder holds the entries that a collection rule
needs. Beside each stands ``.expected.json``: the places, and for a folder the files too. Comments in the first lines
(``# file:``, ``# photo:``) say where the entry goes and what lies beside it, as in :mod:`tests.check.examples`.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from benchlore.check.finding import Finding
from benchlore.check.registry import RULES
from benchlore.check.runner import lint
from tests.check.examples import TODAY, new_base

BROKEN = Path(__file__).parents[1] / "broken"
CASES = sorted(path for path in BROKEN.iterdir() if path.suffix in ("", ".yaml"))
IN_A_TEMPORARY_FOLDER = {"unreadable-file", "link-outside", "not-utf8", "too-many-problems", "photo-with-position"}
"""What no repository can hold, or what comes with other findings by its nature: tested in ``test_files.py``."""
ELSEWHERE = {"rule-crashed", "retired-term"}
"""What needs a rule that crashes, or another vocabulary: tested in ``test_runner.py``."""


def findings_in(case: Path, folder: Path) -> list[Finding]:
    base = new_base(folder)
    if case.is_dir():
        for path in case.rglob("*.yaml"):
            target = base.entries_folder / path.relative_to(case)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(path.read_bytes())
    else:
        text = case.read_text(encoding="utf-8")
        kind = re.search(r"\bclass: ([a-z-]+)", text)
        named = re.search(r"^# file: (.*)", text)
        target = base.root / (named[1] if named else f"entries/{kind[1] if kind else 'dehumidifier'}/broken-entry.yaml")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(case.read_bytes())
        for photo in re.findall(r"^# photo: (.*)", text, flags=re.MULTILINE):
            (target.parent / photo).write_bytes(b"picture")
    return list(lint(base, today=TODAY).findings)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_a_broken_entry_raises_exactly_its_rule_in_its_place(case: Path, tmp_path: Path) -> None:
    rule = case.stem.split("--")[0]
    expected = json.loads(case.with_suffix(".expected.json").read_text(encoding="utf-8"))
    assert {place["rule"] for place in expected} == {rule}
    found = []
    for finding in findings_in(case, tmp_path):
        place: dict[str, object] = {"rule": finding.name, "line": finding.line, "column": finding.column}
        if case.is_dir():
            place["file"] = finding.file.removeprefix("entries/")
        found.append(place)
    assert found == expected


def test_every_rule_has_a_broken_entry() -> None:
    shown = {case.stem.split("--")[0] for case in CASES}
    assert shown | IN_A_TEMPORARY_FOLDER | ELSEWHERE == {rule.name for rule in RULES}
    assert not shown & (IN_A_TEMPORARY_FOLDER | ELSEWHERE)
