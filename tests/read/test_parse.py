"""Entries to models: the design's example exactly, what is lenient, and that nothing whatever raises."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.read.entry import FaultEntry
from benchlore.read.fields import Money
from benchlore.read.parse import ParsedEntry, parse_entry
from benchlore.read.span import locate
from benchlore.read.yaml_nodes import LIMITS

HERE = Path(__file__).parent
TEXT = (HERE / "entry.yaml").read_text(encoding="utf-8")
SHORT = """\
format: 1
title: Dead
outcome: repaired
date: 2026-01-02
equipment: {class: dehumidifier, model: BW-12}
symptoms: [{term: no-power}]
"""


def read(text: str) -> FaultEntry:
    parsed = parse_entry(text)
    assert parsed.problems == ()
    assert parsed.model is not None
    return parsed.model


def kinds(parsed: ParsedEntry) -> list[str]:
    return [problem.kind for problem in parsed.problems]


def test_the_example_of_the_format() -> None:
    entry = read(TEXT)
    assert entry.format == "1"
    assert entry.title == "Compressor relay chatters and the display dims; dropper capacitor had lost its value"
    assert (entry.outcome, entry.date, entry.author) == ("repaired", dt.date(2026, 5, 3), "ines-w")
    assert entry.equipment.class_ == "dehumidifier"
    assert entry.equipment.made == 2019
    assert entry.equipment.protection == "I"
    assert [(board.marking, board.revision) for board in entry.equipment.boards] == [("BWC-02", "B")]
    assert entry.symptoms[0].brought_on_by == ("load",)
    assert entry.symptoms[1].pattern is None
    assert entry.not_seen == ("blown-fuse", "burnt-smell")
    assert [(test.power, test.outcome, test.minutes) for test in entry.tests] == [
        ("off", "normal", 5.0), ("limited", "abnormal", 10.0), ("limited", "normal", 5.0), ("off", "normal", 5.0),
        ("off", "abnormal", 10.0),
    ]  # fmt: skip
    assert entry.tests[1].fault_showing is True
    assert entry.tests[4].in_circuit is False
    assert entry.measurements[0].to == "mains neutral side of the bridge"
    expected = entry.measurements[0].expected
    assert expected is not None
    assert (expected.text, expected.unit, expected.value) == ("24 V ±5 %", "V", 24.0)
    assert (expected.low, expected.high) == (pytest.approx(22.8), pytest.approx(25.2))
    after = entry.measurements[1].after
    assert after is not None
    assert (after.unit, after.value) == ("F", pytest.approx(0.99e-6))
    assert entry.root_cause is not None
    assert entry.root_cause.confidence == "confirmed"
    assert entry.also_found == ()
    assert entry.fix is not None
    assert [(action.do, action.on) for action in entry.fix.actions] == [("replace", "C1")]
    assert entry.minutes_spent == 60.0
    part = entry.parts[0]
    assert part.ratings["pitch"] == "27.5 mm"
    assert part.original is not None
    assert part.original != "same"
    assert part.original.ratings == {"ac-voltage": "275 V ac"}
    assert (part.quantity, part.unit_price) == (1, Money(Decimal("1.10"), "EUR"))
    assert entry.stored_energy[0].capacitance.value == pytest.approx(1e-6)
    assert entry.verification is not None
    assert [check.result for check in entry.verification.safety] == ["pass", "pass"]
    assert entry.follow_up[0].date == dt.date(2026, 8, 20)
    assert entry.photos[0].of == "C1"
    assert entry.notes == "Free text, Markdown."


def test_a_short_entry_is_welcome() -> None:
    entry = read(SHORT)
    assert (entry.tests, entry.root_cause, entry.minutes_spent) == ((), None, None)


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        ("minutes: 60", "minutes", 60.0),
        ("minutes: '7.5'", "minutes", 7.5),
        ("licence:", "licence", None),
        ("licence: ~", "licence", None),
        ("hazards:", "hazards", ()),
        ("hazards: [mains]", "hazards", ("mains",)),
        ("parts: null", "parts", ()),
        ("calibration: done", "calibration", "done"),
        ("notes: ''", "notes", ""),
        ("author: 12:30", "author", "12:30"),
        ("author: NO", "author", "NO"),
        ("author: 0123", "author", "0123"),
    ],
)
def test_fields_of_an_entry(line: str, field: str, value: object) -> None:
    assert getattr(read(SHORT + line + "\n"), field) == value


@pytest.mark.parametrize("word", ["yes", "no", "Yes", "NO", "true", "False", "y", "n", "'yes'"])
def test_yes_and_no(word: str) -> None:
    entry = read(SHORT + f"tests: [{{test: x, outcome: normal, in_circuit: {word}}}]\n")
    assert entry.tests[0].in_circuit is (word.strip("'").lower() in {"yes", "true", "y"})


def test_original_the_same_and_bleeder_none() -> None:
    stored = "stored_energy: [{component: C1, capacitance: 1u, voltage: 5 V, bleeder: none}]\n"
    entry = read(SHORT + "parts: [{original: same}]\n" + stored)
    assert entry.parts[0].original == "same"
    assert entry.stored_energy[0].bleeder == "none"


def test_what_was_left_empty_takes_its_default() -> None:
    entry = read(SHORT + "parts: [{quantity: , use: , ratings: , unit_price: , note: }]\nhistory:\n  event:\n")
    assert (entry.parts[0].quantity, entry.parts[0].use, entry.parts[0].ratings) == (1, "fitted", {})
    assert entry.history is not None
    assert entry.history.event is None


def test_an_unknown_key_left_empty_is_still_unknown() -> None:
    assert kinds(parse_entry(SHORT + "custommer:\nlicence:\n")) == ["unknown-key"]


def test_line_ends_of_another_system() -> None:
    assert read(TEXT.replace("\n", "\r\n")) == read(TEXT)


def test_many_defects_come_in_the_order_of_the_text() -> None:
    text = TEXT.replace("outcome: repaired ", "outcome: mended ").replace("find: 35", "find: long")
    text = text.replace("2026-05-03", "May").replace("use: fitted ", "usage: fitted ")
    parsed = parse_entry(text)
    assert kinds(parsed) == ["wrong-choice", "bad-date", "bad-number", "unknown-key"]
    lines = [span.line for span in locate(text, parsed.problems)]
    assert lines == sorted(lines)


def test_one_problem_for_one_defect() -> None:
    """A field that may be one of two things is complained about once."""
    for value in ("sme", "[a]", "{ratings: {a: [b]}}", "{type: [x]}"):
        assert len(parse_entry(SHORT + f"parts: [{{original: {value}}}]\n").problems) == 1
    for value in ("what", "[a]", "{a: b}"):
        text = SHORT + f"stored_energy: [{{component: C1, capacitance: 1 µF, voltage: 5 V, bleeder: {value}}}]\n"
        assert len(parse_entry(text).problems) == 1


def test_too_long_texts() -> None:
    assert kinds(parse_entry(SHORT + f"author: {'a' * 201}\n")) == ["too-long"]
    assert kinds(parse_entry(SHORT + f"notes: {'a' * 40_001}\n")) == ["too-long"]
    assert kinds(parse_entry(SHORT + f"hazards: [{'a' * 101}]\n")) == ["too-long"]


def test_too_many_problems() -> None:
    text = SHORT + "".join(f"k{number}: 1\n" for number in range(2000))
    problems = parse_entry(text).problems
    assert len(problems) == LIMITS.problems + 1
    assert problems[0].path == ("k0",)
    assert problems[-1].kind == "too-many-problems"


def test_messages_stay_short_whatever_the_file_says() -> None:
    long = "x" * 100_000
    texts = [
        SHORT + f"{long}: 1\n", SHORT.replace("repaired", long), SHORT + f"a: b: {long}\n", f"{long}: 1\n{long}: 2\n",
        SHORT + f"minutes: {long}\n", f"a: &{long} b\n", f"a: %{long}\n", f"v: >1{long}\n", f"a:{long}\nb: c\n",
        f'a: "b" {long}\n', SHORT + f"stored_energy: [{{component: C, capacitance: {long}, voltage: 1 V}}]\n",
        SHORT.replace("2026-01-02", long), SHORT + f"parts: [{{unit_price: {long}}}]\n", f"format: {long}\n",
    ]  # fmt: skip
    for text in texts:
        problems = parse_entry(text).problems
        assert problems
        for problem in problems:
            assert len(problem.message) + len(problem.hint) < 1000, problem.kind


# Any structure whatever ----------------------------------------------------------------------------------------------

KEYS = sorted({
    "format", "title", "outcome", "date", "equipment", "class", "boards", "marking", "symptoms", "term",
    "tests", "test", "measurements", "quantity", "expected", "before", "root_cause", "fix", "actions", "do", "time",
    "find", "parts", "ratings", "original", "stored_energy", "capacitance", "bleeder", "verification", "safety",
    "follow_up", "minutes", "x",
})  # fmt: skip
WORDS = ["1", "repaired", "2026-01-01", "yes", "4k7", "24 V ±5 %", "same", "none", "<5 V", "", "null", "OL", "é"]
VALUES: st.SearchStrategy[Any] = st.recursive(
    st.sampled_from(WORDS) | st.text(max_size=8) | st.none(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=5),
    max_leaves=25,
)


@given(data=st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=8))
@settings(max_examples=300, deadline=None)
def test_no_structure_raises_and_every_problem_has_a_place(data: dict[str, Any]) -> None:
    text = yaml.safe_dump(data, allow_unicode=True, sort_keys=False)
    parsed = parse_entry(text)
    assert (parsed.model is None) == bool(parsed.problems)
    for problem, span in zip(parsed.problems, locate(text, parsed.problems), strict=True):
        assert problem.offset is not None
        assert span.line >= 1
        assert span.column >= 1
        assert (span.line, span.column) <= (span.end_line, span.end_column)
        assert problem.message


@given(data=st.data())
@settings(max_examples=200, deadline=None)
def test_no_damage_to_an_entry_raises(data: st.DataObject) -> None:
    lines = TEXT.splitlines(keepends=True)
    at = data.draw(st.integers(0, len(lines) - 1))
    change = data.draw(st.sampled_from(["drop", "double", "indent", "cut", "insert"]))
    line = lines[at]
    cut = data.draw(st.integers(0, len(line)))
    lines[at] = {
        "drop": "", "double": line * 2, "indent": "  " + line, "cut": line[:cut],
        "insert": line[:cut] + data.draw(st.sampled_from(list(":-?[]{}#&*!|>'\"%@` \t\n"))) + line[cut:],
    }[change]  # fmt: skip
    text = "".join(lines)
    parsed = parse_entry(text)
    assert (parsed.model is None) == bool(parsed.problems)
    assert all(0 <= (p.offset or 0) <= (p.end or 0) <= len(text) for p in parsed.problems)
