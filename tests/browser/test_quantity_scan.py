"""Values in running text: the browser against the shared vectors and, over chance strings, against Python."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchlore.quantity.model import Quantity
from benchlore.quantity.scan import find_quantities, value_term
from tests.browser.script_page import write_script_page
from tests.browser.strings import chance_strings

VECTORS = Path(__file__).parents[1] / "vectors" / "quantity_scan.json"
FIND = """texts => texts.map(text => Benchlore.findQuantities(text).map(span => ({
  start: [...text.slice(0, span.start)].length, end: [...text.slice(0, span.end)].length,
  unit: span.quantity.unit, value: span.quantity.value, term: Benchlore.valueTerm(span.quantity)})))"""


@pytest.fixture
def scanning(page, tmp_path):
    page.goto(write_script_page(tmp_path, ["tables.js", "quantity_scan.js"]).as_uri())
    return page


def test_shared_vectors(scanning):
    cases = json.loads(VECTORS.read_text(encoding="utf-8"))["cases"]
    for case, found in zip(cases, scanning.evaluate(FIND, [case["text"] for case in cases]), strict=True):
        assert found == case["spans"], case["text"]


def test_chance_strings(scanning):
    numbers = (".5", "0,04", "99999999999")
    texts = [sign + number + unit for number in numbers for sign in ("", "-", "−") for unit in ("V", " kΩ", " hours")]
    texts += chance_strings(6_000, 3)
    counted = 0
    for text, found in zip(texts, scanning.evaluate(FIND, texts), strict=True):
        ours = [
            {"start": s.start, "end": s.end, "unit": q.unit, "value": q.value, "term": value_term(q)}
            for s in find_quantities(text)
            for q in [s.quantity]
        ]
        assert found == ours, text
        counted += len(ours)
    assert counted > 500


def test_terms_of_numbers_of_every_size(scanning):
    # Where Python and JavaScript write numbers differently: exponents from 1e16 and 1e21 up, from 1e-5 and 1e-7 down.
    values = [m * 10.0**e for m in (1, 1.25, 4.7, 9.995, 9.99499999, 123456.5) for e in range(-20, 24)]
    values += [-value for value in values] + [0.0]
    theirs = scanning.evaluate("values => values.map(value => Benchlore.valueTerm({unit: 'V', value}))", values)
    assert theirs == [value_term(Quantity("", "value", "V", value)) for value in values]
