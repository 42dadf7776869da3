"""Writing quantities in the trade's style, and that what is written parses back to the same quantity."""

from __future__ import annotations

import json
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchlore.quantity.format import format_quantity, format_value
from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse, readings_of
from benchlore.quantity.units import known_units

CASES = json.loads((Path(__file__).parents[1] / "vectors" / "quantity_parse.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (4700, "ohm", "4.7 kΩ"),
        (0.22, "ohm", "0.22 Ω"),
        (0.06, "ohm", "60 mΩ"),
        (2e8, "ohm", "200 MΩ"),
        (999.6, "ohm", "1 kΩ"),
        (1e-7, "F", "100 nF"),
        (0.01, "F", "10000 µF"),
        (1.0, "F", "1 F"),
        (24.13, "V", "24.1 V"),
        (0.05, "V", "50 mV"),
        (325.269, "V", "325 V"),
        (2e7, "V", "20000 kV"),
        (0.25, "W", "0.25 W"),
        (1.828, "s", "1.83 s"),
        (89.1646, "s", "89.2 s"),
        (300, "s", "5 min"),
        (28800, "s", "8 h"),
        (5000, "s", "83.3 min"),
        (0.0275, "m", "27.5 mm"),
        (0.127, "m", "127 mm"),
        (120000, "Pa", "1.2 bar"),
        (0.25, "kg", "250 g"),
        (7.5e-7, "m2", "0.75 mm²"),
        (60, "degC", "60 °C"),
        (10, "%", "10 %"),
        (-12, "V", "−12 V"),
        (0, "V", "0 V"),
        (16e6, "Hz", "16 MHz"),
        (0.5, "Hz", "0.5 Hz"),
        (100, None, "100"),
        (12345, None, "12345"),
        (1425, "rpm", "1425 rpm"),
        (1234567, "Hz", "1.23 MHz"),
        (2.2795e-5, "C", "22.8 µC"),
        (float("inf"), "s", "unlimited"),
        (float("nan"), "s", "not a number"),
    ],
)
def test_values(value, unit, text):
    assert format_value(value, unit).replace("\u00a0", " ") == text


def test_number_and_unit_never_part():
    assert " " not in format_value(4700, "ohm")
    assert format_value(4700, "ohm") == "4.7\u00a0kΩ"


def test_digits_can_be_asked_for():
    assert format_value(24.13, "V", 4) == "24.13\u00a0V"
    assert format_value(24.13, "V", 1) == "24\u00a0V"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("4k7", "4.7 kΩ"),
        ("4700 ohms", "4.7 kΩ"),
        ("24.0 V", "24.0 V"),
        ("24.13 V", "24.13 V"),
        ("0.10 ohm", "0.10 Ω"),
        ("24 V ±10 %", "24 V ±10 %"),
        ("3.3 V +5/-10 %", "3.3 V +5/−10 %"),
        ("5 V +/- 0.25 V", "5 V ±250 mV"),
        ("4n7Z", "4.7 nF +80/−20 %"),
        ("9p1C", "9.1 pF ±0.25 pF"),
        ("9..23 V", "9…23 V"),
        ("85-264 VAC", "85…264 V ac"),
        ("10k..1M", "10 kΩ…1 MΩ"),
        ("over 200 Meg", "over 200 MΩ"),
        ("<50 mV p-p", "under 50 mV p-p"),
        (">= 1 MΩ", "at least 1 MΩ"),
        ("5 V max", "at most 5 V"),
        ("~3 Hz", "about 3 Hz"),
        ("+/-15 V", "±15 V"),
        ("0L", "OL"),
        ("swinging 9-23 V", "swings 9…23 V"),
        ("s/c", "short"),
        ("no signal", "no pulses"),
        ("1h30", "90 min"),
        ("1 h 5 s", "3605 s"),
        ("OL MΩ", "OL Ω"),
    ],
)
def test_quantities(text, written):
    assert format_quantity(parse(text)).replace("\u00a0", " ") == written


def same(one: Quantity, other: Quantity) -> bool:
    return replace(one, text="") == replace(other, text="")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["text"] or "empty")
def test_what_is_written_parses_back(case):
    try:
        readings = readings_of(case["text"], unit=case.get("asked_unit"), component=case.get("component"))
    except QuantityError:
        assert case["kind"] == "error"
        return
    for reading in readings:
        written = format_quantity(reading.quantity)
        if reading.quantity.kind == "tolerance" and reading.quantity.unit == "%":
            assert parse(written).kind == "range"  # a tolerance on a percentage has no clear short form
        else:
            assert same(parse(written), reading.quantity)


_TRADE_UNITS = sorted(known_units() - {"%", "%RH"})
_NUMBERS = st.decimals(min_value="0.001", max_value="999.9", places=3, allow_nan=False)


@given(_NUMBERS, st.sampled_from(_TRADE_UNITS), st.integers(-12, 9))
def test_values_of_every_unit_parse_back(number, unit, power):
    assume(unit != "deg" or power == 0)
    value = float(Decimal(number).scaleb(power))
    quantity = Quantity(f"{value!r}", "value", unit, value)
    assert same(parse(format_quantity(quantity)), quantity)


@given(
    _NUMBERS,
    st.sampled_from(["V", "mV", "kΩ", "Ω", "µF", "nF", "mA", "mH", "Hz", "s", "°C", "W", "mm", "bar", "min"]),
    st.decimals(min_value="0.1", max_value="99", places=1, allow_nan=False),
    st.sampled_from(["{n} {u} ±{t} %", "{n} {u} +{t}/-{t} %", "{n} {u} ±{t} {u}", "-{n} {u} ±{t} %",
                     "{n} {u} +{t}/-1 {u}", "-{n}..{n} {u}", "0..{n} {u}", "{t}..{n} {u}", "<{n} {u}", "≥{n} {u}",
                     "~{n} {u}", "±{n} {u}", "swings {t}..{n} {u}", "{n}{u}"]),
)  # fmt: skip
def test_expressions_parse_back(number, unit, spread, shape):
    text = shape.format(n=number, u=unit, t=spread)
    quantity = parse(text)
    once = parse(format_quantity(quantity))
    assert once.kind == quantity.kind
    for key in ("value", "low", "high"):
        found, wanted = getattr(once, key), getattr(quantity, key)
        assert found is wanted is None or found == pytest.approx(wanted, rel=1e-5, abs=1e-18)
    assert format_quantity(once) == format_quantity(parse(format_quantity(once)))


@given(st.text(alphabet="0123456789.+-±/% …<~ kMVΩµFmAHzs°Cac", min_size=1, max_size=30))
def test_whatever_parses_can_be_written_and_read_again(text):
    try:
        quantity = parse(text)
    except QuantityError:
        return
    again = parse(format_quantity(quantity))
    assert (again.unit, again.state) == (quantity.unit, quantity.state)
