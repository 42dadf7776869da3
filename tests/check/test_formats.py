"""Output formats for other programs, held against what those formats demand."""

from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest

from benchlore.check.finding import Finding
from benchlore.check.reports import render
from benchlore.check.runner import Report
from benchlore.cli.lint import FORMATS
from tests.check.examples import lint_example
from tests.check.test_reports import EXAMPLE

HERE = Path(__file__).parent
NASTY = "a: b, c%\r\n::error::x <b> @someone [x](http://e.example) `q` \x1b[31m"


def nasty() -> Report:
    place = (NASTY + "/b.yaml", 3, 7, 4, 2)
    return Report((Finding("TRM001", "unknown-term", "error", *place, NASTY, NASTY, NASTY, ("hazards", 0)),), 1, 1)


@pytest.fixture(params=["example", "nasty", "clean"])
def report(request: pytest.FixtureRequest, tmp_path: Path) -> Report:
    if request.param == "nasty":
        return nasty()
    return lint_example(tmp_path, EXAMPLE if request.param == "example" else "minutes: 60")


def test_sarif_meets_the_standard(report: Report) -> None:
    schema = json.loads((HERE / "sarif_subset.json").read_text(encoding="utf-8"))
    log = json.loads(render("sarif", report))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(log)
    (run,) = log["runs"]
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert len(run["results"]) == len(report.findings)
    for result, finding in zip(run["results"], report.findings, strict=True):
        assert rules[result["ruleIndex"]] == result["ruleId"] == finding.code
        region = result["locations"][0]["physicalLocation"]["region"]
        assert (region["startLine"], region["startColumn"]) <= (region["endLine"], region["endColumn"])
        uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        assert re.fullmatch(r"[A-Za-z0-9._~/%-]+", uri)  # RFC 3986, section 2: all else is escaped


def test_the_subset_refuses_what_the_standard_refuses(tmp_path: Path) -> None:
    schema = json.loads((HERE / "sarif_subset.json").read_text(encoding="utf-8"))
    log = json.loads(render("sarif", lint_example(tmp_path, EXAMPLE)))
    log["runs"][0]["results"][0]["level"] = "fatal"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(schema).validate(log)


def test_workflow_commands_are_one_line_each_and_start_nothing_else(report: Report) -> None:
    *commands, counts = render("workflow-commands", report).split("\n")
    assert len(commands) == len(report.findings)
    assert not counts.startswith("::")
    for command in commands:
        match = re.fullmatch(r"::(error|warning|notice) ((?:\w+=[^,:\r\n]*,?)+)::([^\r\n]*)", command)
        assert match, command
        properties = dict(part.split("=", 1) for part in match[2].split(","))
        assert {"file", "line", "col", "title"} <= properties.keys()
        assert re.fullmatch(r"(?:[^%]|%25|%0A|%0D|%3A|%2C)*", match[2] + match[3])


def test_code_quality_issues_have_what_is_demanded(report: Report) -> None:
    issues = json.loads(render("code-quality", report))
    assert len(issues) == len(report.findings)
    assert len({issue["fingerprint"] for issue in issues}) == len(issues)
    for issue in issues:
        assert issue.keys() == {"description", "check_name", "fingerprint", "severity", "location"}
        assert issue["severity"] in {"info", "minor", "major", "critical", "blocker"}
        assert issue["location"]["lines"]["begin"] >= 1
        assert issue["location"]["path"]


def test_a_fingerprint_outlives_a_moved_line(tmp_path: Path) -> None:
    plain = lint_example(tmp_path / "a", "hazards: [mians, mains]")
    moved = lint_example(tmp_path / "b", "author: odd-l\n\n\nhazards: [mians, mains]")
    one, other = (json.loads(render("code-quality", report)) for report in (plain, moved))
    assert [issue["fingerprint"] for issue in one] == [issue["fingerprint"] for issue in other]
    assert [issue["location"] for issue in one] != [issue["location"] for issue in other]


def test_markdown_shows_an_entry_letter_by_letter() -> None:
    markdown_it = pytest.importorskip("markdown_it")
    html = markdown_it.MarkdownIt("commonmark", {"html": True, "linkify": False}).render(render("markdown", nasty()))
    assert set(re.findall(r"<(\w+)", html)) <= {"h3", "p", "ul", "li", "strong"}
    assert "@someone" not in render("markdown", nasty())


def test_markdown_counts_and_lists(tmp_path: Path) -> None:
    said = render("markdown", lint_example(tmp_path, EXAMPLE))
    assert said.startswith("### Lint: ")
    assert "**entries/dehumidifier/relay-chatters.yaml**" in said
    assert "TRM001 unknown-term" in said
    assert render("markdown", lint_example(tmp_path / "clean", "minutes: 60")).startswith("### Lint: nothing found")


@pytest.mark.parametrize("form", FORMATS)
def test_every_format_can_be_had(form: str, report: Report) -> None:
    assert render(form, report)
    assert "\x1b" not in render(form, report)
