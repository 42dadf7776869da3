"""Reports: as snapshots, harmless to a terminal, and the caret under what is meant.

After a wanted change of wording: delete ``snapshots/``'s files, run this once (it writes them and fails), read them.
"""

from __future__ import annotations

import json
import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.check.finding import Finding
from benchlore.check.reports import json as json_report
from benchlore.check.reports import text as text_report
from benchlore.check.reports.visible import visible, width
from benchlore.check.runner import Report
from tests.check.examples import lint_example

SNAPSHOTS = Path(__file__).parent / "snapshots"
EXAMPLE = """\
# file: entries/dehumidifier/relay-chatters.yaml
symptoms: [{term: relay-chater}, {note: zzz qqq xxx}]
outcome: not-repaired
measurements:
  - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, after: 24.1 V, note: 受電端子, instrument: dnm}
---
# file: entries/sewing-machine/Skips stitches.yaml
# another
minutes: 40
"""


def finding(text: str, column: int, end_column: int, **changes: str) -> Finding:
    said = {"message": "a message", "hint": "a hint", "file": "entries/a/b.yaml", **changes}
    place = (said["file"], 3, column, 3, end_column)
    return Finding("AAA001", "a-rule", "error", *place, said["message"], said["hint"], text)


def shown(found: Finding) -> list[str]:
    return text_report.render(Report((found,), 1, 1)).splitlines()


@pytest.mark.parametrize(("name", "render"), [("report.txt", text_report.render), ("report.json", json_report.render)])
def test_snapshot(name: str, render: object, tmp_path: Path) -> None:
    assert callable(render)
    written = render(lint_example(tmp_path, EXAMPLE)) + "\n"
    snapshot = SNAPSHOTS / name
    if not snapshot.exists():
        snapshot.write_text(written, encoding="utf-8")
        pytest.fail(f"{snapshot} was not there and has been written; read it")
    assert written == snapshot.read_text(encoding="utf-8")


def test_json_has_the_keys_that_others_rely_on(tmp_path: Path) -> None:
    report = json.loads(json_report.render(lint_example(tmp_path, "outcome: not-repaired")))
    assert {"code", "name", "severity", "file", "line", "column", "message", "hint"} <= report["findings"][0].keys()
    assert report["counts"] == {"error": 0, "warning": 1, "note": 0}


def test_a_clean_report_says_so(tmp_path: Path) -> None:
    assert text_report.render(lint_example(tmp_path, "minutes: 60")) == "1 file checked: nothing found."


def test_errors_come_first(tmp_path: Path) -> None:
    lines = text_report.render(lint_example(tmp_path, EXAMPLE)).splitlines()
    severities = [line.split(" ")[1] for line in lines if line.startswith("entries/") and "Skips" not in line]
    assert severities == sorted(severities, key=["error", "warning", "note"].index)


def test_the_caret_stands_under_what_is_meant() -> None:
    _, line, caret, *_ = shown(finding("outcome: fixed  # for now", 10, 15))
    assert line[caret.index("^") : caret.rindex("^") + 1] == "fixed"


def test_the_caret_minds_wide_characters() -> None:
    _, line, caret, *_ = shown(finding("note: 受電 fixed", 10, 15))
    assert width(caret[: caret.index("^")]) == width(line[: line.index("fixed")])


@pytest.mark.parametrize("column", [1, 50, 500, 5_000, 9_990])
def test_a_long_line_is_cropped_around_the_place(column: int) -> None:
    text = "".join(chr(ord("a") + n % 26) for n in range(10_000))
    _, line, caret, *_ = shown(finding(text, column, column + 5))
    assert len(line) < 130
    assert line[caret.index("^") : caret.rindex("^") + 1] == text[column - 1 : column + 4]


def test_a_place_that_goes_on_over_lines_is_marked_on_the_first() -> None:
    found = Finding("AAA001", "a-rule", "error", "f", 3, 7, 9, 2, "m", "", "notes: |")
    assert "      ^" in "\n".join(shown(found))


@given(st.text(alphabet=st.characters(), max_size=60), st.integers(1, 70), st.integers(0, 70))
def test_nothing_from_an_entry_reaches_the_terminal_raw(text: str, column: int, length: int) -> None:
    line = text.replace("\n", " ")
    column = min(column, len(line) + 1)
    found = finding(line, column, min(column + length, len(line) + 1), message=text, hint=text, file=text)
    for character in text_report.render(Report((found,), 1, 1)).replace("\n", ""):
        assert unicodedata.category(character) not in {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert json_report.render(Report((found,), 1, 1)).isascii()


@pytest.mark.parametrize(
    ("raw", "seen"),
    [
        ("\x1b[2J", "\\x1b[2J"),
        ("a\u202eb", "a\\u202eb"),
        ("\x9b31m", "\\x9b31m"),
        ("tab\there", "tab here"),
        ("4.7 kΩ ±5 % 1\u00a0µF", "4.7 kΩ ±5 % 1\u00a0µF"),
        ("\U000e0041", "\\U000e0041"),
    ],
)
def test_visible(raw: str, seen: str) -> None:
    assert visible(raw) == seen


def test_an_escape_in_an_entry_is_shown_as_an_escape(tmp_path: Path) -> None:
    printed = text_report.render(lint_example(tmp_path, "title: relay \x1b]0;owned\x07 chatters and hums"))
    assert "\x1b" not in printed
    assert "\\x1b]0;owned\\x07" in printed
