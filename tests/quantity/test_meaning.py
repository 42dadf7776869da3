"""What a text means, whatever notation it is in: values, codes, bands."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.quantity.meaning import colour_bands, meaning_of, preferred_note
from benchlore.quantity.parse import parse


@pytest.mark.parametrize(
    ("text", "component", "kind", "unit", "value"),
    [
        ("4k7", None, "value", "ohm", 4700),
        ("24 V ±10 %", None, "tolerance", "V", 24),
        ("68X", None, "tolerance", "ohm", 49.9),
        ("104K", "capacitor", "tolerance", "F", 1e-7),
        ("104", "capacitor", "value", "F", 1e-7),
        ("22R", None, "value", "ohm", 22),
        ("brown black red gold", None, "tolerance", "ohm", 1000),
        ("gold red violet yellow", None, "tolerance", "ohm", 4700),
        ("orange white black orange brown", None, "tolerance", "ohm", 390e3),
        ("X7R", None, "range", "degC", None),
        ("OL", None, "overload", None, None),
        ("12", None, "value", None, 12),
    ],
)
def test_clear_meanings(text, component, kind, unit, value):
    meaning = meaning_of(text, component=component)
    assert meaning.kind == kind
    assert (meaning.quantity.unit, meaning.quantity.value) == (unit, pytest.approx(value) if value else value)
    assert meaning.quantity in [reading.quantity for reading in meaning.readings]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("104", {("ohm", 1e5), ("F", 1e-7), (None, 104)}),
        ("1002", {("ohm", 1e4), (None, 1002)}),
        ("10 mF", {("F", 0.01), ("F", 1e-5)}),
        ("4,7k", {("ohm", 4700), ("ohm", 47000)}),
        ("brown black black red grey", {("ohm", 10e3), ("ohm", 820)}),
    ],
)
def test_ambiguous_meanings_show_every_reading(text, values):
    meaning = meaning_of(text)
    assert (meaning.kind, meaning.quantity) == ("ambiguous", None)
    assert {(reading.quantity.unit, reading.quantity.value) for reading in meaning.readings} == values
    assert meaning.message
    assert meaning.hint


@pytest.mark.parametrize("text", ["cheese", "", "brown tea", "gold silver gold", "+"])
def test_what_means_nothing(text):
    meaning = meaning_of(text)
    assert (meaning.kind, meaning.quantity, meaning.readings) == ("error", None, ())
    assert meaning.message


def test_a_date_code_is_mentioned_and_never_settled():
    assert (2018, 9) in meaning_of("K9").dates
    assert meaning_of("A1").dates[0] == (1990, 1)
    assert meaning_of("A1").quantity is None


def test_a_clear_value_still_tells_what_else_it_could_be():
    assert [reading.quantity.value for reading in meaning_of("22R").readings] == pytest.approx([22, 1.65, 16.5])


@pytest.mark.parametrize(
    ("text", "series", "near"),
    [
        ("4k7", "E3", {}),
        ("4990 ohm", "E96", {}),
        ("5 kΩ", None, {"E24": 5100, "E96": 4990}),
        ("24 V", None, {}),
        ("-5 ohm", None, {}),
    ],
)
def test_preferred_numbers(text, series, near):
    assert preferred_note(parse(text)) == (series, near)


@pytest.mark.parametrize(
    ("text", "bands"),
    [
        ("4k7", "yellow violet red gold"),
        ("4k7 ±1 %", "yellow violet red brown"),
        ("49.9 ohm", "yellow white white gold brown"),
        ("4987 ohm", ""),
        ("100 nF", ""),
        ("4k7 ±7 %", ""),
    ],
)
def test_colour_bands(text, bands):
    assert " ".join(colour_bands(parse(text))) == bands


@given(st.text(max_size=40))
def test_any_text_has_a_meaning_or_a_message(text):
    meaning = meaning_of(text)
    assert (meaning.quantity is None) == (meaning.kind in {"ambiguous", "error"})
    assert meaning.quantity is not None or meaning.message
