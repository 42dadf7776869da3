"""Wilson intervals against published and independently computed values."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from benchlore.answer.intervals import wilson


@pytest.mark.parametrize(
    ("hits", "total", "low", "high"),
    [
        # The four proportions that Newcombe compares methods on, Statistics in Medicine 17 (1998) 857-872, method 3
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
        # The example case of VassarStats' page on the confidence interval of a proportion
        (23, 60, 0.2709, 0.5098),
    ],
)
def test_published_intervals(hits: int, total: int, low: float, high: float) -> None:
    assert wilson(hits, total) == pytest.approx((low, high), abs=5e-5)


@given(st.integers(1, 5000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_scipy_agrees(share: tuple[int, int]) -> None:
    hits, total = share
    theirs = binomtest(hits, total).proportion_ci(method="wilson")
    assert wilson(hits, total) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


def test_nothing_counted_is_nothing_known() -> None:
    assert wilson(0, 0) == (0.0, 1.0)


@pytest.mark.parametrize(("hits", "total"), [(2, 1), (-1, 3), (0, -1)])
def test_what_is_no_share_is_refused(hits: int, total: int) -> None:
    with pytest.raises(ValueError, match="no share"):
        wilson(hits, total)
