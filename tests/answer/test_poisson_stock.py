"""Poisson stocking against tables computed in closed form and with scipy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import poisson

from benchlore.answer.poisson_stock import MEASURE, least_stock, service


@pytest.mark.parametrize(
    ("mean", "stock", "no_stockout", "filled", "base_stock", "backorders"),
    [
        (1, 1, 0.735759, 0.632121, 0.367879, 0.367879),
        (1, 2, 0.919699, 0.896362, 0.735759, 0.103638),
        (2, 4, 0.947347, 0.962429, 0.857123, 0.075141),
        (3, 5, 0.916082, 0.955126, 0.815263, 0.134621),
        (3, 6, 0.966491, 0.983099, 0.916082, 0.050703),
        (5, 8, 0.931906, 0.975578, 0.866628, 0.122109),
    ],
)
def test_four_measures(mean, stock, no_stockout, filled, base_stock, backorders):
    """Closed forms of inventory textbooks; the four differ, so the list names the one it uses."""
    found = service(mean, stock)
    assert (found.no_stockout, found.filled, found.base_stock_fill, found.backorders) == pytest.approx(
        (no_stockout, filled, base_stock, backorders), abs=1e-6
    )
    assert "P(D ≤ S)" in MEASURE


@pytest.mark.parametrize(("mean", "stock"), [(0.5, 2), (1, 3), (2, 5), (3, 6), (4, 8), (5, 9), (10, 15)])
def test_least_stock_for_ninety_five_per_cent(mean, stock):
    assert least_stock(mean, 0.95) == stock


@given(st.floats(0, 200), st.floats(0.01, 0.999))
def test_least_stock_agrees_with_scipy(mean, wanted):
    assert least_stock(mean, wanted) == (int(poisson.ppf(wanted, mean)) if mean else 0)


@given(st.floats(0.01, 100), st.integers(0, 150))
def test_filled_share_agrees_with_the_sum_over_scipy(mean, stock):
    met = sum(min(k, stock) * poisson.pmf(k, mean) for k in range(600))
    assert service(mean, stock).filled == pytest.approx(met / mean, abs=1e-9)


def test_nothing_wanted_needs_nothing():
    assert least_stock(0, 0.99) == 0
    assert service(0, 0).filled == 1
    with pytest.raises(ValueError, match="service"):
        least_stock(1, 1)
