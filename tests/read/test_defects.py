"""Defects as data (defects.yaml): what is reported, where, and in which words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from benchlore.read.parse import parse_entry
from benchlore.read.problem import PROBLEM_KINDS, Problem
from benchlore.read.span import locate
from benchlore.read.yaml_nodes import COMPOSERS, read_yaml

HERE = Path(__file__).parent
ENTRY = (HERE / "entry.yaml").read_text(encoding="utf-8")
CASES: list[dict[str, Any]] = yaml.safe_load((HERE / "defects.yaml").read_text(encoding="utf-8"))
ON_DISK = {"unreadable-file", "not-a-file", "link-outside", "bad-file-name", "not-utf8"}
"""Kinds that need a file; test_base.py raises them."""
LARGE = {"too-large", "too-deep", "too-many-values", "too-long", "too-many-problems"}
"""Kinds that need a large text; test_yaml_nodes.py and test_parse.py raise them."""


def text_of(case: dict[str, Any]) -> str:
    if "text" in case:
        return str(case["text"])
    old, new = case["swap"]
    assert ENTRY.count(old) >= 1, f"the example entry has no {old!r}"
    return ENTRY.replace(old, new, 1)


def reported(text: str, problems: tuple[Problem, ...]) -> list[str]:
    spans = locate(text, problems)
    return [f"{span.line}:{span.column} {problem.kind}" for span, problem in zip(spans, problems, strict=True)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_defect(case: dict[str, Any]) -> None:
    text = text_of(case)
    parsed = parse_entry(text)
    assert parsed.model is None
    assert reported(text, parsed.problems) == case["expect"]
    said = " ".join(f"{problem.message} {problem.hint}" for problem in parsed.problems)
    assert [words for words in case.get("words", ()) if words not in said] == [], said


@pytest.mark.parametrize("case", [case for case in CASES if case.get("yaml")], ids=lambda case: case["name"])
@pytest.mark.parametrize("composer", sorted(COMPOSERS))
def test_both_composers_report_the_same(case: dict[str, Any], composer: str) -> None:
    text = text_of(case)
    assert reported(text, read_yaml(text, composer=composer).problems) == case["expect"]


def test_every_kind_has_a_case() -> None:
    shown = {line.split()[1] for case in CASES for line in case["expect"]}
    assert shown | ON_DISK | LARGE == set(PROBLEM_KINDS)
    assert not shown & (ON_DISK | LARGE)


def test_the_messages_are_ours() -> None:
    """No words of pydantic's or of Python's reach a technician."""
    for case in CASES:
        for problem in parse_entry(text_of(case)).problems:
            said = f"{problem.message} {problem.hint}".lower()
            assert not any(
                word in said for word in ("value error", "input should", "traceback", "nonetype", "'none'", "dict")
            )
