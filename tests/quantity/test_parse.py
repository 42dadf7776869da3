"""Parsing of quantity texts: shared vectors, published codes, independent parsers, hostile input."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import rkm_codes
from hypothesis import given
from hypothesis import strategies as st

from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import LONGEST, parse

FOLDER = Path(__file__).parents[1] / "vectors"
CASES = json.loads((FOLDER / "quantity_parse.json").read_text(encoding="utf-8"))["cases"]
CHECK = json.loads((FOLDER / "check_values.json").read_text(encoding="utf-8"))


def named(case) -> str:
    return " ".join(str(case[key]) for key in ("text", "asked_unit", "component") if case.get(key)) or "empty"


def close(found, wanted):
    return found is wanted is None or found == pytest.approx(wanted, rel=1e-12, abs=0)


@pytest.mark.parametrize("case", CASES, ids=named)
def test_shared_vectors(case):
    asked = {"unit": case.get("asked_unit"), "component": case.get("component")}
    if case["kind"] in {"ambiguous", "error"}:
        with pytest.raises(QuantityError) as caught:
            parse(case["text"], **asked)
        readings = [(r.quantity.unit, r.quantity.value, r.quantity.low, r.quantity.high) for r in caught.value.readings]
        wanted = case.get("readings", [])
        assert len(readings) == len(wanted)
        for (unit, *numbers), (wanted_unit, *wanted_numbers) in zip(readings, wanted, strict=True):
            assert unit == wanted_unit
            assert all(close(*pair) for pair in zip(numbers, wanted_numbers, strict=True))
        assert all(reading.because for reading in caught.value.readings)
        assert caught.value.message
        return
    quantity = parse(case["text"], **asked)
    assert quantity.kind == case["kind"]
    assert quantity.unit == case["unit"]
    assert all(close(getattr(quantity, key), case.get(key)) for key in ("value", "low", "high"))
    assert (quantity.low_open, quantity.high_open) == (case.get("low_open", False), case.get("high_open", False))
    assert (quantity.qualifier, quantity.state) == (case.get("qualifier"), case.get("state"))
    assert quantity.text == case["text"]


@pytest.mark.parametrize("vector", CHECK["rkm"], ids=lambda vector: vector["text"])
def test_letter_digit_codes(vector):
    """IEC 60062 letter-digit codes, as public tables give them."""
    quantity = parse(vector["text"])
    assert quantity.unit == vector["unit"]
    assert close(quantity.value, vector["value"])


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("470K", "ohm", 470e3), ("15M0", "ohm", 15e6), ("18R", "ohm", 18), ("0M47", "ohm", 470e3), ("R10", "ohm", 0.1),
        ("R300", "ohm", 0.3), ("1G0", "ohm", 1e9), ("p33", "F", 0.33e-12), ("10p", "F", 10e-12), ("100n", "F", 100e-9),
        ("1µ0", "F", 1e-6), ("10u", "F", 10e-6), ("μ1", "F", 100e-9),
    ],
)  # fmt: skip
def test_more_letter_digit_codes(text, unit, value):
    """IEC 60062, the rest of the public tables' examples."""
    quantity = parse(text)
    assert (quantity.unit, quantity.value) == (unit, pytest.approx(value, rel=1e-12))


@pytest.mark.parametrize("vector", CHECK["rkm_tolerance"], ids=lambda vector: vector["text"])
def test_tolerance_letters_after_a_code(vector):
    quantity = parse(vector["text"])
    assert (quantity.kind, quantity.unit) == ("tolerance", vector["unit"])
    limits = [vector["value"] * (1 + percent / 100) for percent in vector["tol_pct"]]
    assert (quantity.value, quantity.low, quantity.high) == pytest.approx((vector["value"], *limits), rel=1e-12)


# IEC 60062 tolerance letters; E, N, Q, T and S from memory (high confidence), the rest from public tables.
LETTERS = {
    "E": (0.005, 0.005), "L": (0.01, 0.01), "P": (0.02, 0.02), "W": (0.05, 0.05), "B": (0.1, 0.1), "C": (0.25, 0.25),
    "D": (0.5, 0.5), "F": (1, 1), "G": (2, 2), "H": (3, 3), "J": (5, 5), "K": (10, 10), "M": (20, 20), "N": (30, 30),
    "Q": (10, 30), "T": (10, 50), "S": (20, 50), "Z": (20, 80),
}  # fmt: skip


@pytest.mark.parametrize("letter", LETTERS)
def test_every_tolerance_letter(letter):
    minus, plus = LETTERS[letter]
    quantity = parse(f"4k7{letter}")
    assert quantity.value == 4700
    limits = (4700 * (1 - minus / 100), 4700 * (1 + plus / 100))
    assert (quantity.low, quantity.high) == pytest.approx(limits, rel=1e-12)


@pytest.mark.parametrize(("letter", "pf"), [("B", 0.1), ("C", 0.25), ("D", 0.5), ("G", 2)])
def test_letters_are_picofarads_below_ten(letter, pf):
    """Absolute letters of small capacitors: B, C, D from public tables, G from memory (high confidence)."""
    below, above = parse(f"9p9{letter}"), parse(f"10p0{letter}")
    assert (below.high - below.value) * 1e12 == pytest.approx(pf, rel=1e-9)
    assert (above.high / above.value - 1) * 100 == pytest.approx(LETTERS[letter][1], rel=1e-9)


def test_expressions_of_the_check_values():
    kinds = {"tol": "tolerance", "warn": "ambiguous"}
    for vector in CHECK["expr"]:
        kind = kinds.get(vector["kind"], vector["kind"])
        if kind == "ambiguous":
            with pytest.raises(QuantityError) as caught:
                parse(vector["text"])
            values = [reading.quantity.value for reading in caught.value.readings]
            assert values[0] == pytest.approx(vector.get("v", vector.get("candidates", [None])[0]))
            assert set(vector.get("candidates", [])) <= set(values)
            continue
        quantity = parse(vector["text"])
        assert (quantity.kind, quantity.unit) == (kind, vector["unit"])
        wanted = vector.get("v")
        if kind == "dual":
            assert [quantity.high, quantity.low] == wanted
        else:
            assert close(quantity.value, wanted)
            assert close(quantity.low, vector.get("lo"))
            assert close(quantity.high, vector.get("hi"))
        assert quantity.high_open == vector.get("hi_open", False)
        assert quantity.low_open == vector.get("lo_open", False)
        assert quantity.qualifier == vector.get("qual")


@given(st.integers(1, 999), st.integers(0, 99), st.sampled_from("RKMpnuµm"))
def test_agrees_with_an_independent_reader_of_letter_digit_codes(whole, part, letter):
    """rkm_codes 1.0, on the part of the grammar where it is right (digits on both sides of the letter)."""
    text = f"{whole}{letter}{part}"
    assert parse(text).value == pytest.approx(float(rkm_codes.from_rkm(text)), rel=1e-12)


@given(st.integers(1, 999), st.integers(0, 9), st.sampled_from([("p", -12), ("n", -9), ("u", -6), ("µ", -6)]))
def test_capacitor_codes_are_figures_times_a_power_of_ten(whole, part, prefix):
    letter, power = prefix
    assert parse(f"{whole}{letter}{part}").value == float(f"{whole}.{part}e{power}")


@given(
    st.decimals(min_value="0.001", max_value="999", places=3, allow_nan=False),
    st.sampled_from([("m", -3), ("", 0), ("k", 3), ("M", 6), ("u", -6), ("µ", -6), ("n", -9)]),
    st.sampled_from(["V", "A", "Ω", "ohm", "Hz", "W", "s", "H"]),
    st.sampled_from(["", " ", "\u00a0", "\u202f"]),
)
def test_number_prefix_unit(number, prefix, unit, space):
    letter, power = prefix
    text = f"{number}{space}{letter}{unit}"
    try:
        quantity = parse(text)
    except QuantityError as error:
        assert letter == "M" or (letter, unit) in {("n", "Hz"), ("u", "Hz"), ("µ", "Hz"), ("k", "s"), ("k", "H")}
        assert error.readings or letter != "M" or unit in {"s", "H"}
        return
    assert quantity.value == float(f"{number}e{power}")
    assert quantity.unit == {"Ω": "ohm"}.get(unit, unit)


def test_two_limits_bracket_the_nominal():
    assert parse("-12 V ±5 %").low < -12 < parse("-12 V ±5 %").high


def test_a_wrong_request_is_the_callers_mistake():
    with pytest.raises(ValueError, match="component"):
        parse("10", component="wire")
    with pytest.raises(ValueError, match="not a unit"):
        parse("10", unit="furlong")
    assert parse("10", unit="Ω") == Quantity("10", "value", "ohm", 10.0)


def test_a_long_text_is_refused_unread():
    with pytest.raises(QuantityError, match="characters"):
        parse("1" * (LONGEST + 1))


@given(st.text(max_size=LONGEST))
def test_any_text_is_read_or_refused(text):
    try:
        quantity = parse(text)
    except QuantityError as error:
        assert error.message
        assert len(error.message) < 600
        assert len(error.readings) != 1
    else:
        assert quantity.text == text


@given(st.text(alphabet="0123456789.,+-±/%…–<>~≤≥() eEkKMRVAFHmunpµΩohmtacdD°C", max_size=60))
def test_texts_made_of_the_right_characters_are_read_or_refused(text):
    try:
        quantity = parse(text)
    except QuantityError:
        return
    if quantity.low is not None and quantity.high is not None:
        assert quantity.low <= quantity.high


def test_a_character_that_normalises_to_many_stays_cheap():
    with pytest.raises(QuantityError):
        parse("\ufdfa" * LONGEST)


@pytest.mark.parametrize(
    ("text", "hint"),
    [("4.7 kQ", "did you mean"), ("12:30", "30 min"), ("24 V @ 2 A", "one quantity in"), ("10k NTC", "note")],
)
def test_the_hint_says_how_to_write_it(text, hint):
    with pytest.raises(QuantityError) as caught:
        parse(text)
    assert hint in caught.value.hint
