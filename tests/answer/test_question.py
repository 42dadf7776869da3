"""Plain words and typed options read as a question."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.answer.question import KnownUnit, Question, identified, levels_of, read_words
from benchlore.answer.typed import reading_of, result_of, symptom_of
from benchlore.data import folder
from benchlore.errors import BenchloreError
from benchlore.terms.vocabulary import Vocabulary, load

UNITS = [
    KnownUnit("dehumidifier", "Brackwater", "BW-12", "model:brackwater-bw12", ("BWC-02",)),
    KnownUnit("dehumidifier", "Brackwater", "BW-16", "model:brackwater-bw16", ("BWC-02",)),
    KnownUnit("sewing-machine", "Sallowby", "S 210", "model:sallowby-s210", ("SFC-1",)),
]


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return load(folder("schema") / "vocabulary")


def test_the_example_of_the_help(vocabulary: Vocabulary) -> None:
    read = read_words("BW-12 relay chatters, display dim, 24 V rail reads 15, fuse ok", vocabulary, UNITS)
    assert (read.equipment_class, read.maker, read.model, read.boards) == (
        "dehumidifier", "Brackwater", "BW-12", ("BWC-02",),
    )  # fmt: skip
    assert set(read.seen) == {"relay-chatter", "dim-display"}
    low, fuse = read.results
    assert (low.test, low.target, low.outcome, low.side) == ("voltage-check", "low-voltage-supply", "abnormal", "low")
    assert (fuse.test, fuse.outcome) == ("fuse-check", "normal")
    assert read.unread == ()


@pytest.mark.parametrize(
    ("text", "outcome", "side", "load"),
    [
        ("bw12 24 V rail reads 23.8 V", "normal", "", ""),
        ("bw12: 5 V rail at 3.1 V", "abnormal", "low", ""),
        ("bw12, 12 V rail is 17.5 V", "abnormal", "high", ""),
        ("bw 12 24 V rail reads 24 V with the load disconnected", "normal", "", "disconnected"),
        ("bw-12; 24 V supply reads 9 V no load", "abnormal", "low", "disconnected"),
        ("bw-12; 24 V rail is fine", "normal", "", ""),
        ("bw-12; 24 V rail dead", "abnormal", "low", ""),
    ],
)
def test_rails_against_their_nominal(vocabulary: Vocabulary, text: str, outcome: str, side: str, load: str) -> None:
    (result,) = read_words(text, vocabulary, UNITS).results
    assert (result.outcome, result.side, result.load) == (outcome, side, load)


def test_negated_symptoms_are_not_there(vocabulary: Vocabulary) -> None:
    read = read_words("dehumidifier hums but no burnt smell, fuse not blown", vocabulary, UNITS)
    assert "burnt-smell" in read.absent
    assert "blown-fuse" in read.absent
    assert read.equipment_class == "dehumidifier"


def test_a_board_alone_names_class_and_sisters(vocabulary: Vocabulary) -> None:
    read = read_words("bwc 02, relay chatters", vocabulary, UNITS)
    assert read.equipment_class == "dehumidifier"
    assert [level.name for level in levels_of(read, UNITS)] == ["all equipment", "class", "board"]


def test_a_model_brings_its_boards() -> None:
    question = identified(Question(model="bw16"), UNITS)
    assert (question.model, question.boards) == ("BW-16", ("BWC-02",))
    assert [level.name for level in levels_of(question, UNITS)] == ["all equipment", "class", "board", "model"]


def test_what_is_not_understood_is_said(vocabulary: Vocabulary) -> None:
    assert read_words("BW-12 relay chatters, wobbledy flumph", vocabulary, UNITS).unread == ("wobbledy flumph",)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=80))
def test_any_text_can_be_read(text: str) -> None:
    read_words(text, load(folder("schema") / "vocabulary"), UNITS)


def test_typed_tests(vocabulary: Vocabulary) -> None:
    result = result_of("voltage-check low-voltage-supply abnormal load=disconnected fault-away", vocabulary)
    assert (result.target, result.outcome, result.load, result.fault_showing) == (
        "low-voltage-supply", "abnormal", "disconnected", False,
    )  # fmt: skip
    assert result_of("capacitance-check film-capacitor normal in-circuit", vocabulary).in_circuit is True


@pytest.mark.parametrize(
    "text",
    ["voltage-check", "normal", "voltage-check nowhere normal", "voltage-check normal load=half", "xyzzy normal"],
)
def test_typed_tests_that_cannot_be_read_say_how(vocabulary: Vocabulary, text: str) -> None:
    with pytest.raises(BenchloreError) as error:
        result_of(text, vocabulary)
    assert error.value.hint


def test_typed_readings_are_judged(vocabulary: Vocabulary) -> None:
    low = reading_of("low-voltage-supply 24 V ±5 % = 15 V", "dehumidifier", vocabulary)
    assert (low.outcome, low.side) == ("abnormal", "low")
    assert reading_of("24 V = 23.5 V", "dehumidifier", vocabulary).outcome == "normal"
    assert reading_of("24 V ±5 % = 24.9 V", "dehumidifier", vocabulary).outcome == "normal"
    for bad in ("24 V", "24 V = lots", "24 V = 20 V"):
        with pytest.raises(BenchloreError):
            reading_of(bad, "no-such-class", vocabulary)


def test_symptoms_by_id_label_or_phrase(vocabulary: Vocabulary) -> None:
    assert symptom_of("relay-chatter", vocabulary) == symptom_of("relay chatters", vocabulary) == "relay-chatter"
    with pytest.raises(BenchloreError):
        symptom_of("flumph", vocabulary)
