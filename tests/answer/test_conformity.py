"""Conformity under uncertainty, against published cases and scipy's normal distribution."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from benchlore.answer.conformity import (
    GUARD_FACTORS,
    Limits,
    acceptance_limits,
    decide,
    guard_band,
    limits_of,
    meter_spread,
    probability_of_conformity,
    standard_uncertainty,
    worst_risk,
)
from benchlore.quantity.parse import parse

CHECK = json.loads((Path(__file__).parents[1] / "vectors" / "check_values.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CHECK["conformity"], ids=lambda case: f"{case['y']} u {case['u']}")
def test_probabilities(case):
    """The first is the example of JCGM 106 quoted as about 0.92 (from memory, medium); the rest are computed."""
    limits = Limits(case.get("lo"), case.get("hi"))
    assert probability_of_conformity(case["y"], case["u"], limits) == pytest.approx(case["pc"], abs=5e-7)


@pytest.mark.parametrize(
    ("y", "p"), [(5.25, 0.5), (5.15, 0.977250), (5.1675, 0.950529), (5.30, 0.158655), (5.18, 0.919243)]
)
def test_probabilities_near_an_upper_limit(y, p):
    assert probability_of_conformity(y, 0.05, Limits(4.75, 5.25)) == pytest.approx(p, abs=5e-7)


@given(
    st.floats(-100, 100),
    st.floats(0.01, 50),
    st.one_of(st.none(), st.floats(-100, 0)),
    st.one_of(st.none(), st.floats(0, 100)),
)
def test_probability_agrees_with_scipy(y, u, low, high):
    wanted = (norm.cdf((high - y) / u) if high is not None else 1) - (norm.cdf((low - y) / u) if low is not None else 0)
    assert probability_of_conformity(y, u, Limits(low, high)) == pytest.approx(max(0, wanted), abs=1e-12)


def test_without_uncertainty_the_value_is_in_or_out():
    assert probability_of_conformity(5.25, 0, Limits(4.75, 5.25)) == 1
    assert probability_of_conformity(5.25, 0, Limits(4.75, 5.25, high_open=True)) == 0
    with pytest.raises(ValueError, match="negative"):
        probability_of_conformity(5, -1, Limits(4, 6))


@pytest.mark.parametrize("case", CHECK["dmm"], ids=lambda case: f"{case['reading']} {case['pct']} % + {case['counts']}")
def test_meter_accuracy(case):
    """Makers' published examples where the vector names one, else computed from the definition."""
    spread = meter_spread(case["reading"], percent=case["pct"], counts=case["counts"], resolution=case["res"])
    assert spread == pytest.approx(case["abs"], rel=1e-9)


@pytest.mark.parametrize(
    ("reading", "percent", "counts", "resolution", "spread"),
    [(100.0, 0.8, 2, 0.1, 1.0), (24.13, 0.5, 2, 0.01, 0.14065), (-24.13, 0.5, 2, 0.01, 0.14065)],
)
def test_more_meter_accuracy(reading, percent, counts, resolution, spread):
    assert meter_spread(reading, percent=percent, counts=counts, resolution=resolution) == pytest.approx(spread)


def test_bench_meter_with_a_part_of_the_range():
    assert meter_spread(5, percent=0.0035, of_range=10 * 0.0005 / 100) == pytest.approx(0.000225)


def test_an_accuracy_has_no_negative_part():
    with pytest.raises(ValueError, match="negative"):
        meter_spread(5, percent=-1)


def test_rectangular_uncertainty_and_its_decisions():
    """5.21 V on a meter of 0.5 % + 2 counts, limit 5.25 V: simple acceptance passes, w = U passes conditionally."""
    spread = meter_spread(5.21, percent=0.5, counts=2, resolution=0.01)
    u = standard_uncertainty(spread)
    assert (spread, u) == pytest.approx((0.04605, 0.026587), abs=5e-7)
    limits = Limits(4.75, 5.25)
    assert decide(5.21, limits) == "pass"
    guard = guard_band("ilac-g8", 2 * u)
    assert acceptance_limits(limits, guard).high == pytest.approx(5.196826, abs=5e-7)
    assert decide(5.21, limits, guard) == "conditional-pass"
    assert probability_of_conformity(5.21, u, limits) == pytest.approx(0.933773, abs=5e-7)


def test_published_decision_case():
    """T = ±4.00, u = 0.8, U = 1.6, y = 3.20: pass without guard band, conditional pass with w = U (A = 2.4)."""
    limits = Limits(-4, 4)
    assert decide(3.2, limits) == "pass"
    guard = guard_band("ilac-g8", 1.6)
    assert acceptance_limits(limits, guard).high == pytest.approx(2.4)
    assert decide(3.2, limits, guard) == "conditional-pass"
    assert decide(2.3, limits, guard) == "pass"
    assert decide(4.5, limits, guard) == "conditional-fail"
    assert decide(5.7, limits, guard) == "fail"
    assert decide(4.1, limits) == "fail"
    assert probability_of_conformity(3.2, 0.8, limits) == pytest.approx(0.841345, abs=5e-7)


@pytest.mark.parametrize(
    ("rule", "risk"),
    [("simple", 0.5), ("ilac-g8", 0.022750), ("iso-14253-1", 0.04947), ("3-sigma", 0.00135), ("6-sigma", 1e-9)],
)
def test_worst_risk_of_each_rule(rule, risk):
    assert worst_risk(rule) == pytest.approx(risk, rel=2e-3 if risk > 1e-6 else 0.02)
    assert worst_risk(rule) == pytest.approx(norm.sf(2 * GUARD_FACTORS[rule]), rel=1e-9)


def test_the_uncritical_rule_lets_limits_out():
    assert acceptance_limits(Limits(4, 6), guard_band("uncritical", 0.2)) == Limits(3.8, 6.2)
    assert decide(6.1, Limits(4, 6), guard_band("uncritical", 0.2)) == "pass"


def test_limits_come_from_what_was_expected():
    assert limits_of(parse("24 V ±10 %")) == Limits(21.6, 26.4)
    assert limits_of(parse("3.3 V +5/-10 %")) == Limits(2.97, 3.465)
    assert limits_of(parse("<50 mV")) == Limits(None, 0.05, high_open=True)
    assert limits_of(parse("≥1 MΩ")) == Limits(1e6, None)
    assert limits_of(parse("85..264 V ac")) == Limits(85, 264)
    for text in ("24 V", "~3 Hz", "±15 V", "open", "OL"):
        assert limits_of(parse(text)) is None
