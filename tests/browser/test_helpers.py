"""The bench helpers in a real browser: the shared vectors, agreement with Python, and the page as somebody uses it."""

from __future__ import annotations

import json
import math
import random
from pathlib import Path

import pytest

from benchlore.answer.bench import led_resistor, meter_verdict
from benchlore.publish.pages.bench_helpers import HELPER_LIST, SCRIPTS
from benchlore.quantity.format import format_value
from benchlore.quantity.preferred import coarsest_series, nearest
from tests.answer.test_bench import CASES, FEW_FIGURES, agree
from tests.browser.script_page import write_script_page

CALLS = """cases => cases.map(({helper, in: given}) => {
  const B = Benchlore;
  const own = {
    divider: B.divider, led: B.ledResistor, rc: B.rcTimes, rc_fall: B.rcFall, ripple: B.ripple,
    verdict: (r, low, high, percent, counts, resolution) => B.meterVerdict(r, low, high, {percent, counts, resolution}),
    nearest: B.nearestPreferred, series: B.coarsestSeries,
    codes: text => B.codeReadings(text).map(({value, unit}) => [value, unit]),
    bands: text => B.readBands(text.split(" ")), bands_for: B.bandsFor, format: B.formatValue, read: B.readValue,
  };
  return own[helper](...given);
})"""


@pytest.fixture
def helpers(page, tmp_path):
    page.goto(write_script_page(tmp_path, [name for name in SCRIPTS if name != "helpers_page.js"]).as_uri())
    return page


def test_shared_vectors(helpers):
    for case, found in zip(CASES, helpers.evaluate(CALLS, CASES), strict=True):
        expected = case["out"]
        if isinstance(expected, dict) and set(expected) == {"value"}:
            expected = expected["value"]
        assert agree(found, expected, FEW_FIGURES.get(case["helper"], 1e-9)), (case, found)


def test_values_are_written_alike(helpers):
    chance = random.Random(7)
    units = ("V", "A", "ohm", "F", "Hz", "s", "W")
    cases = [(chance.choice((1, -1)) * 10 ** chance.uniform(-13, 8), chance.choice(units)) for _ in range(2000)]
    edges = (1, 9.995, 9.985, 1.0005, 2.5, 999.5, 123456)
    cases += [(edge * 10.0**power, unit) for edge in edges for power in range(-9, 7) for unit in units]
    theirs = helpers.evaluate("cases => cases.map(([v, u]) => Benchlore.formatValue(v, u))", cases)
    for (value, unit), text in zip(cases, theirs, strict=True):
        assert text == format_value(value, unit), (value, unit)


def test_sums_agree_with_python(helpers):
    chance = random.Random(11)
    readings = []
    for _ in range(300):
        low, high = sorted((chance.uniform(-20, 20), chance.uniform(-20, 20)))
        readings.append((chance.uniform(-22, 22), low, high, chance.uniform(0, 5), chance.choice((0, 2, 5)), 0.01))
    theirs = helpers.evaluate(CALLS, [{"helper": "verdict", "in": list(reading)} for reading in readings])
    for (reading, low, high, percent, counts, step), found in zip(readings, theirs, strict=True):
        ours = meter_verdict(reading, low, high, percent=percent, counts=counts, resolution=step)
        assert (found["simple"], found["guarded"]) == (ours.simple, ours.guarded)
        assert math.isclose(found["probability"], ours.probability, rel_tol=1e-9, abs_tol=1e-12)
    values = [10 ** chance.uniform(-3, 8) for _ in range(400)] + [4700, 5000, 9.19e6, 9.2e6, 1e-3]
    three = "values => values.map(v => ['E12', 'E24', 'E96'].map(s => Benchlore.nearestPreferred(v, s)))"
    near = helpers.evaluate(three, values)
    assert near == [[nearest(v, s) for s in ("E12", "E24", "E96")] for v in values]
    found = [value for row in near for value in row]
    series = helpers.evaluate("values => values.map(v => Benchlore.coarsestSeries(v))", found)
    assert series == [coarsest_series(value) for value in found]
    led = helpers.evaluate("() => Benchlore.ledResistor(12, 2.1, 0.01)")
    assert agree(led_resistor(12, 2.1, 0.01), led, 1e-12)


EXPECTED = {
    "marking": "100\u00a0kΩ: a chip resistor's number code\n100\u00a0nF: a ceramic capacitor's number code",
    "bands": "4.7\u00a0kΩ ±5\u00a0%",
    "preferred": "E12: 4.7\u00a0kΩ\nE24: 4.3\u00a0kΩ\nE96: 4.42\u00a0kΩ",
    "divider": "3.837\u00a0V",
    "led": "1\u00a0kΩ (E24; exactly 990\u00a0Ω)",
    "rc": "from 400\u00a0V to 60\u00a0V in 41.7\u00a0s",
    "ripple": "about 2.128\u00a0V peak to peak, at most",
    "verdict": "within with a chance of 93.4\u00a0%",
}
"""What each helper answers to its own examples: figures of the tables named in ``tests/vectors/bench.json``."""


def test_the_page_answers_its_own_examples(page, demo_site):
    page.goto((demo_site / "helpers.html").as_uri())
    for helper in HELPER_LIST:
        form = page.locator(f"[data-helper={helper.name}]")
        for box in helper.boxes:
            if box.example != "none":
                form.get_by_label(box.label, exact=False).first.fill(box.example)
        form.get_by_role("button").click()
        assert EXPECTED[helper.name] in form.locator("output").text_content(), helper.name
    assert set(EXPECTED) == {helper.name for helper in HELPER_LIST}


def test_a_box_that_cannot_be_read_is_named(page, demo_site):
    page.goto((demo_site / "helpers.html").as_uri())
    form = page.locator("[data-helper=divider]")
    form.locator("input[name=supply]").fill("twelve")
    form.locator("input[name=supply]").press("Enter")
    assert "write it like" in form.locator("output").text_content()
    assert form.locator("input[aria-invalid=true]").count() == 1
    assert page.evaluate("document.activeElement.getAttribute('aria-invalid')") == "true"


def test_vectors_name_their_sources():
    told = json.loads((Path(__file__).parents[1] / "vectors" / "bench.json").read_text(encoding="utf-8"))
    assert all(len(case["source"]) > 10 for case in told["cases"])
