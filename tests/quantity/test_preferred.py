"""Preferred numbers against IEC 60063's checksums and against an independent library."""

from __future__ import annotations

import eseries
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.quantity.preferred import (
    SERIES,
    TOLERANCE_PERCENT,
    coarsest_series,
    figures,
    is_preferred,
    nearest,
    neighbours,
)

# Sums of the figures of each series, IEC 60063:2015 (values public).
CHECKSUMS = {"E3": 79, "E6": 195, "E12": 429, "E24": 901, "E48": 18313, "E96": 37070, "E192": 74599}


@pytest.mark.parametrize("series", SERIES)
def test_checksums_and_an_independent_library(series):
    assert sum(figures(series)) == CHECKSUMS[series]
    theirs = eseries.series(getattr(eseries, series))
    assert list(figures(series)) == list(theirs)


def test_series_contain_one_another_but_for_the_gap_between_two_and_three_figures():
    for small, large in (("E3", "E6"), ("E6", "E12"), ("E12", "E24"), ("E48", "E96"), ("E96", "E192")):
        assert set(figures(small)) < set(figures(large))
    tens = {value * 10 for value in figures("E24")}
    assert {value // 10 for value in tens & set(figures("E96"))} == {10, 11, 13, 15, 20, 75}
    assert {value // 10 for value in tens & set(figures("E192"))} == {10, 11, 12, 13, 15, 16, 18, 20, 24, 47, 75}


def test_tolerances_of_the_series():
    assert TOLERANCE_PERCENT == {"E3": 40, "E6": 20, "E12": 10, "E24": 5, "E48": 2, "E96": 1, "E192": 0.5}


@pytest.mark.parametrize(
    ("value", "wanted"),
    [
        (4480, {"E24": 4300, "E96": 4530, "E192": 4480}),
        (5000, {"E24": 5100, "E96": 4990}),
        (8.3, {"E12": 8.2, "E24": 8.2, "E48": 8.25}),
        (0.0235, {"E24": 0.024, "E96": 0.0237}),
        (990, {"E96": 1000, "E192": 988}),
        (0.97e6, {"E24": 1e6, "E48": 953e3, "E96": 976e3}),
    ],
)
def test_nearest_values(value, wanted):
    """Nearest values as eseries 1.2 gives them; absolute and log distance agree on all of these."""
    for series, result in wanted.items():
        assert nearest(value, series) == pytest.approx(result, rel=1e-12)
        assert nearest(value, series, distance="log") == pytest.approx(result, rel=1e-12)


@given(st.floats(min_value=1e-9, max_value=1e9), st.sampled_from(SERIES))
def test_nearest_is_preferred_and_as_near_as_the_library_says(value, series):
    ours = nearest(value, series)
    assert is_preferred(ours, series)
    theirs = eseries.find_nearest(getattr(eseries, series), value)
    assert abs(ours - value) <= abs(theirs - value) * (1 + 1e-9) + value * 1e-12


@given(st.floats(min_value=1e-9, max_value=1e9), st.sampled_from(SERIES))
def test_neighbours_enclose(value, series):
    below, above = neighbours(value, series)
    assert below <= value <= above
    assert is_preferred(below, series)
    assert is_preferred(above, series)
    assert below == above or nearest((below * above) ** 0.5, series) in {below, above}


def test_the_two_distances_differ_where_they_should():
    # Between 10 and 15 the difference is halved at 12.5, the ratio at the square root of 150, 12.247.
    assert nearest(12.4, "E6") == 10
    assert nearest(12.4, "E6", distance="log") == 15


@pytest.mark.parametrize(
    ("value", "series"),
    [(4700, "E3"), (6.8e-9, "E6"), (1.2, "E12"), (5.1, "E24"), (4990, "E96"), (4480, "E192"), (5000, None)],
)
def test_coarsest_series(value, series):
    assert coarsest_series(value) == series


@pytest.mark.parametrize("value", [0, -4700, float("nan"), float("inf")])
def test_only_positive_values_are_preferred(value):
    assert not is_preferred(value)
    with pytest.raises(ValueError, match="positive"):
        nearest(value)


def test_an_unknown_series_is_named():
    with pytest.raises(ValueError, match="E7"):
        nearest(10, "E7")
