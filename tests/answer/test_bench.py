"""The bench helpers in Python against the vectors that the browser shares."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from benchlore.answer.bench import divider, led_resistor, meter_verdict, rc_fall, rc_times
from benchlore.answer.rectifier import ripple
from benchlore.publish.theme import make_helper_tables
from benchlore.quantity.colours import bands_for, read_bands
from benchlore.quantity.format import format_value
from benchlore.quantity.markings import ceramic_code, eia96, resistor_code
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.quantity.preferred import coarsest_series, nearest

CASES = json.loads((Path(__file__).parents[1] / "vectors" / "bench.json").read_text(encoding="utf-8"))["cases"]


def _verdict(reading: float, low: float, high: float, percent: float, counts: float, resolution: float) -> Any:
    return meter_verdict(reading, low, high, percent=percent, counts=counts, resolution=resolution)


def _codes(text: str) -> list[list[Any]]:
    found = [resistor_code(text), *eia96(text), ceramic_code(text)]
    return [[q.value, q.unit] for q in found if q is not None]


def _bands(text: str) -> Any:
    try:
        reading = next(r for r in read_bands(text) if not r.reversed)
    except (QuantityError, StopIteration):
        return None
    return {"value": reading.quantity.value, "tolerance": reading.tolerance_percent}


def _bands_for(value: float, figures: int, tolerance: float) -> Any:
    try:
        return list(bands_for(value, figures=figures, tolerance_percent=tolerance))
    except ValueError:
        return None


def _read(text: str, unit: str) -> float | None:
    try:
        found = parse(text, unit=unit)
    except QuantityError:
        return None
    return found.value if found.unit == unit else None


HELPERS = {
    "divider": divider, "led": led_resistor, "rc": rc_times, "rc_fall": rc_fall, "ripple": ripple, "verdict": _verdict,
    "nearest": nearest, "series": coarsest_series, "codes": _codes, "bands": _bands, "bands_for": _bands_for,
    "format": format_value, "read": _read,
}  # fmt: skip
FEW_FIGURES = {"rc_fall": 2e-5, "ripple": 3e-4}
"""Published tables give only so many figures."""


def agree(found: Any, expected: Any, tolerance: float) -> bool:
    """Whether a helper's answer is what a vector expects."""
    if isinstance(expected, dict):
        got = found if isinstance(found, dict) else {k: getattr(found, k) for k in expected}
        return all(agree(got[k], v, tolerance) for k, v in expected.items())
    if isinstance(expected, list):
        pairs = zip(found, expected, strict=True)
        return len(found) == len(expected) and all(agree(a, b, tolerance) for a, b in pairs)
    if isinstance(expected, float | int) and not isinstance(expected, bool):
        return found == pytest.approx(expected, rel=tolerance, abs=1e-14)
    return bool(found == expected)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['helper']}-{case['in'][0]}")
def test_vectors(case):
    found = HELPERS[case["helper"]](*case["in"])
    expected = case["out"]
    if isinstance(expected, dict) and set(expected) == {"value"}:
        found, expected = found, expected["value"]
    assert agree(found, expected, FEW_FIGURES.get(case["helper"], 1e-9)), found


@pytest.mark.parametrize(
    "wrong",
    [lambda: divider(5, 0, 1), lambda: led_resistor(2, 3, 0.01), lambda: rc_times(-1, 1), lambda: rc_fall(1, 1, 5, 9),
     lambda: meter_verdict(1, 3, 2, percent=1)],
)  # fmt: skip
def test_impossible_figures_are_refused(wrong):
    with pytest.raises(ValueError, match=r".+"):
        wrong()


def test_the_browsers_tables_are_fresh():
    """Write them anew with: python -m benchlore.publish.theme.make_helper_tables"""
    assert make_helper_tables.PATH.read_text(encoding="ascii") == make_helper_tables.script()
