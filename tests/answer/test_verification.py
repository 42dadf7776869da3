"""What a clean test proves, against scipy and published tables of demonstration tests."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chi2, poisson

from benchlore.answer.verification import (
    expected_failures,
    gap_shown,
    gone_after_clean_test,
    poisson_at_most,
    shown_in,
    soak_for,
    trials_to_see,
    units_to_pass,
)


@pytest.mark.parametrize(
    ("confidence", "factor"),
    [(0.5, 0.693147), (0.6, 0.916291), (0.7, 1.203973), (0.8, 1.609438), (0.9, 2.302585), (0.95, 2.995732),
     (0.99, 4.605170)],
)  # fmt: skip
def test_zero_failure_demonstration(confidence, factor):
    """t = -ln(1 - C)·MTBF, the usual table of reliability handbooks."""
    assert soak_for(1, confidence) == pytest.approx(factor, abs=5e-7)
    assert expected_failures(confidence) == pytest.approx(factor, abs=5e-7)


def test_soaks():
    assert soak_for(500, 0.9) == pytest.approx(1151.29, abs=5e-3)
    shown = [gap_shown(24, confidence) for confidence in (0.9, 0.8, 0.6)]
    assert shown == pytest.approx([10.42, 14.91, 26.19], abs=5e-3)


@pytest.mark.parametrize(
    ("failures", "confidence", "factor"), [(1, 0.6, 2.0223), (1, 0.9, 3.8897), (2, 0.6, 3.1054), (2, 0.9, 5.3223)]
)
def test_with_failures(failures, confidence, factor):
    """χ²(C, 2r + 2)/2."""
    assert expected_failures(confidence, failures) == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(("hours", "failures", "confidence", "shown"), [(5000, 4, 0.6, 954.81), (7631, 4, 0.9, 954.64)])
def test_published_question(hours, failures, confidence, shown):
    """Inputs of a published reliability question (time-terminated test)."""
    assert gap_shown(hours, confidence, failures) == pytest.approx(shown, abs=5e-3)


@given(st.floats(0.01, 0.999), st.integers(0, 60))
def test_agrees_with_scipy(confidence, failures):
    theirs = chi2.ppf(confidence, 2 * failures + 2) / 2
    assert expected_failures(confidence, failures) == pytest.approx(theirs, rel=1e-9)


@given(st.integers(0, 300), st.floats(0, 300))
def test_poisson_agrees_with_scipy(count, mean):
    assert poisson_at_most(count, mean) == pytest.approx(poisson.cdf(count, mean), rel=1e-9, abs=1e-300)


def test_units_that_must_pass():
    assert math.log(0.1) / math.log(0.9) == pytest.approx(21.854, abs=5e-4)
    assert units_to_pass(0.9, 0.9) == 22
    assert units_to_pass(0.95, 0.95) == 59
    # the rule of three, 3/n, against the exact bound 1 - 0.05^(1/20) = 0.13911 for 20 clean units
    assert units_to_pass(1 - 0.13911, 0.95) == 20


def test_an_intermittent_shows_itself():
    assert shown_in(1, 1) == pytest.approx(0.632121, abs=5e-7)
    assert shown_in(3, 1) == pytest.approx(0.950213, abs=5e-7)
    assert shown_in(8, 2) == pytest.approx(0.981684, abs=5e-7)


@pytest.mark.parametrize(
    ("chance", "trials"),
    [(0.01, (230, 299, 459)), (0.05, (45, 59, 90)), (0.1, (22, 29, 44)), (0.2, (11, 14, 21)), (0.5, (4, 5, 7))],
)
def test_trials_to_reproduce(chance, trials):
    assert tuple(trials_to_see(chance, confidence) for confidence in (0.9, 0.95, 0.99)) == trials


def test_gone_after_a_clean_test():
    assert gone_after_clean_test(0.5, 0.9) == pytest.approx(0.909091, abs=5e-7)
    assert gone_after_clean_test(0.7, 0.95) == pytest.approx(0.979021, abs=5e-7)
    assert gone_after_clean_test(0.5, 0) == 0.5


@given(st.floats(0.1, 1e4), st.floats(0.01, 0.999))
def test_a_soak_shows_what_it_was_made_for(gap, confidence):
    soak = soak_for(gap, confidence)
    assert gap_shown(soak, confidence) == pytest.approx(gap, rel=1e-9)
    assert shown_in(soak, gap) == pytest.approx(confidence, rel=1e-9)


@pytest.mark.parametrize(
    "wrong",
    [lambda: soak_for(0, 0.9), lambda: soak_for(1, 1), lambda: gap_shown(1, 0.9, -1), lambda: trials_to_see(0, 0.9),
     lambda: gone_after_clean_test(0.5, 1.1), lambda: shown_in(math.inf, 1)],
)  # fmt: skip
def test_impossible_figures_are_refused(wrong):
    with pytest.raises(ValueError, match=r".+"):
        wrong()
