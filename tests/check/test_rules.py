"""The rules as a whole: the registry, their documents, and the examples in them, which are run."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from benchlore import check
from benchlore.check.registry import BY_NAME, RULES
from benchlore.check.rule import HEADINGS, ReadingRule, Rule, read_page
from benchlore.read.problem import PROBLEM_KINDS
from tests.check.examples import lint_example

RULES_FOLDER = Path(check.__file__).parent / "rules"
SHOWN = [rule for rule in RULES if rule.shown_by_files]


def family(rule: type[Rule]) -> str:
    return rule.__module__.split(".")[-2]


def test_codes_and_names_are_unique() -> None:
    assert len(BY_NAME) == 2 * len(RULES)


def test_the_registry_is_in_order_of_code() -> None:
    assert [rule.code for rule in RULES] == sorted(rule.code for rule in RULES)


def test_every_rule_file_is_registered_and_every_rule_has_its_file() -> None:
    files = {f"{p.parent.name}/{p.stem}" for p in RULES_FOLDER.glob("*/*.py") if p.stem != "__init__"}
    assert files == {f"{family(rule)}/{rule.name.replace('-', '_')}" for rule in RULES}


def test_codes_once_given_stay() -> None:
    """The list is only ever added to: a code that has gone is not given to another rule."""
    given = dict(line.split() for line in (Path(__file__).parent / "codes.txt").read_text().splitlines())
    assert {rule.code: rule.name for rule in RULES}.items() <= given.items()


def test_a_code_is_three_letters_of_the_family_and_three_digits() -> None:
    letters = {}
    for rule in RULES:
        assert re.fullmatch(r"[A-Z]{3}\d{3}", rule.code), rule.code
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", rule.name), rule.name
        letters.setdefault(rule.code[:3], set()).add(family(rule))
    assert {code: len(families) for code, families in letters.items()} == dict.fromkeys(letters, 1)


def test_every_kind_of_reading_problem_has_exactly_one_rule() -> None:
    kinds = [kind for rule in RULES if issubclass(rule, ReadingRule) for kind in rule.kinds]
    assert sorted(kinds) == sorted(PROBLEM_KINDS)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_a_rule_documents_itself(rule: type[Rule]) -> None:
    page = rule.page()
    assert page.title.endswith(".")
    assert all(page.sections[heading] for heading in HEADINGS)


def test_a_document_without_a_heading_is_refused() -> None:
    with pytest.raises(ValueError, match="headings"):
        read_page("A title.\n\nWhat\n    Something.\nWhy\n    So.\n")


@pytest.mark.parametrize("rule", SHOWN, ids=lambda rule: rule.name)
def test_the_bad_example_raises_the_rule(rule: type[Rule], tmp_path: Path) -> None:
    report = lint_example(tmp_path, rule.page().sections["Bad"])
    assert rule.name in {finding.name for finding in report.findings}


@pytest.mark.parametrize("rule", SHOWN, ids=lambda rule: rule.name)
def test_the_good_example_raises_nothing_at_all(rule: type[Rule], tmp_path: Path) -> None:
    report = lint_example(tmp_path, rule.page().sections["Good"])
    assert [(finding.name, finding.message) for finding in report.findings] == []
