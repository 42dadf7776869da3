"""Values in running text: the vectors shared with the browser, and what must hold of every value found."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse
from benchlore.quantity.scan import find_quantities, scan_table, value_term

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "quantity_scan.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["text"] or "empty")
def test_shared_vectors(case):
    found = [
        {
            "start": span.start,
            "end": span.end,
            "unit": span.quantity.unit,
            "value": span.quantity.value,
            "term": value_term(span.quantity),
        }
        for span in find_quantities(case["text"])
    ]
    assert found == case["spans"]


def test_there_are_enough_vectors():
    assert len(VECTORS["cases"]) >= 120


@pytest.mark.parametrize("spelling", sorted(scan_table()))
def test_every_spelling_means_the_same_as_when_parsed(spelling):
    unit, times, exponent, glued, spaced = scan_table()[spelling]
    assert glued or spaced
    text = f"3.7{' ' if spaced else ''}{spelling}"
    quantity = parse(text)
    assert quantity.unit == unit
    assert quantity.value == pytest.approx(3.7 * times * 10.0**exponent, rel=1e-12)


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["text"] or "empty")
def test_a_value_found_parses_alone(case):
    for span in find_quantities(case["text"]):
        alone = parse(span.quantity.text)
        assert (alone.unit, alone.value) == (span.quantity.unit, span.quantity.value)


@given(st.text(max_size=120))
def test_spans_are_in_order_and_hold_their_text(text):
    end = 0
    for span in find_quantities(text):
        assert span.start >= end
        assert span.quantity.text == text[span.start : span.end]
        assert span.quantity.value is not None
        end = span.end


@given(st.text(alphabet="0123456789.,-/ kMnuµRVAΩmpF%°CxX±", max_size=60))
def test_what_is_found_is_never_read_otherwise(text):
    for span in find_quantities(text):
        try:
            quantity = parse(span.quantity.text)
        except QuantityError:
            continue
        assert quantity.unit == span.quantity.unit
        assert quantity.value == pytest.approx(span.quantity.value, rel=1e-12)


def test_long_text_is_scanned_in_one_pass():
    text = "123456789 " * 20_000 + "24 V"
    assert [span.quantity.text for span in find_quantities(text)] == ["24 V"]


@pytest.mark.parametrize(
    ("quantity", "term"),
    [
        (Quantity("4k7", "value", "ohm", 4700.0), "ohm:47e2"),
        (Quantity("", "value", "F", 4.7e-07), "F:47e-8"),
        (Quantity("", "value", "V", -12.0), "V:-12e0"),
        (Quantity("", "value", "V", 0.0), "V:0e0"),
        (Quantity("", "value", "V", 24.13), "V:241e-1"),
        (Quantity("", "value", "V", 24.15), "V:242e-1"),
        (Quantity("", "value", "V", 999.6), "V:1e3"),
        (Quantity("", "value", None, 1e22), ":1e22"),
        (Quantity("", "tolerance", "V", 24.0, 21.6, 26.4), "V:24e0"),
        (Quantity("", "approx", "Hz", 3.0), "Hz:3e0"),
        (Quantity("", "range", "V", None, 9.0, 23.0), None),
        (Quantity("", "dual", "V", 15.0, -15.0, 15.0), None),
        (Quantity("", "state", state="open"), None),
    ],
)
def test_value_terms(quantity, term):
    assert value_term(quantity) == term


@given(st.floats(min_value=1e-15, max_value=1e12), st.sampled_from(["V", "ohm", "F"]))
def test_a_term_is_within_half_a_unit_of_the_third_digit(value, unit):
    name, _, number = value_term(Quantity("", "value", unit, value)).partition(":")
    assert name == unit
    assert float(number) == pytest.approx(value, rel=0.0051)
