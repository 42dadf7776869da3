"""``benchlore lint`` and ``benchlore explain`` as they are typed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from benchlore.check.registry import RULES
from benchlore.cli.explain import command as explain
from benchlore.cli.lint import command as lint
from tests.check.examples import new_base, write_example


def run_lint(folder: Path, *arguments: str) -> Result:
    return CliRunner().invoke(lint, ["--base", str(folder), *arguments])


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_example(new_base(tmp_path), "date: 2026-01-03\noutcome: not-repaired\nhazards: [mians]\n")
    return tmp_path


def test_lint_prints_findings_and_leaves_with_one(folder: Path) -> None:
    result = run_lint(folder)
    assert result.exit_code == 1
    assert "entries/dehumidifier/example-entry.yaml:3:10: warning CAU002 not-repaired-without-reason:" in result.output
    assert "Did you mean mains?" in result.output


@pytest.mark.parametrize("option", [["--json"], ["--format", "json"]])
def test_lint_as_json(folder: Path, option: list[str]) -> None:
    found = json.loads(run_lint(folder, *option).output)["findings"]
    assert {f["name"] for f in found} == {"unknown-term", "not-repaired-without-reason", "mains-hazard-missing"}


def test_select_and_ignore(folder: Path) -> None:
    def names(*arguments: str) -> set[str]:
        return {f["name"] for f in json.loads(run_lint(folder, "--json", *arguments).output)["findings"]}

    assert names("--select", "unknown-term") == {"unknown-term"}
    assert names("--select", "TRM001", "--select", "cau") == {"unknown-term", "not-repaired-without-reason"}
    assert names("--ignore", "TRM", "--ignore", "saf001") == {"not-repaired-without-reason"}
    assert run_lint(folder, "--select", "no-proof").exit_code == 0


def test_an_unknown_rule_is_answered_with_the_one_meant(folder: Path) -> None:
    result = run_lint(folder, "--select", "unknown-trm")
    assert result.exit_code == 2
    assert "Did you mean unknown-term?" in result.output


def test_strict_makes_notes_count(tmp_path: Path) -> None:
    write_example(new_base(tmp_path), "date: 2026-01-03\nsymptoms: [{note: a smell of old fish}]\n")
    assert run_lint(tmp_path).exit_code == 0
    assert run_lint(tmp_path, "--strict").exit_code == 1


def test_explain_shows_a_rule_by_code_and_by_name() -> None:
    by_code = CliRunner().invoke(explain, ["trm001"])
    by_name = CliRunner().invoke(explain, ["unknown-term"])
    assert by_code.exit_code == 0
    assert by_code.output == by_name.output
    for heading in ("What", "Why", "Bad", "Good", "How to mend"):
        assert f"\n{heading}\n" in by_code.output


def test_explain_lists_every_rule() -> None:
    lines = CliRunner().invoke(explain, ["--list"]).output.splitlines()
    assert [line.split()[1] for line in lines] == [rule.name for rule in RULES]
    listed = json.loads(CliRunner().invoke(explain, ["--list", "--json"]).output)["rules"]
    assert [rule["code"] for rule in listed] == [rule.code for rule in RULES]


def test_explain_as_json() -> None:
    page = json.loads(CliRunner().invoke(explain, ["SYM001", "--json"]).output)
    assert page["name"] == "symptom-both-seen-and-not-seen"
    assert {"what", "why", "bad", "good", "how_to_mend", "severity", "scope", "ignorable"} <= page.keys()


@pytest.mark.parametrize("arguments", [[], ["TRM001", "--list"], ["unknown-trm"]])
def test_explain_refuses_what_it_cannot_answer(arguments: list[str]) -> None:
    assert CliRunner().invoke(explain, arguments).exit_code == 2


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_page_can_be_shown(rule: type) -> None:
    result = CliRunner().invoke(explain, [rule.code])
    assert result.exit_code == 0
    assert "\x1b" not in result.output
