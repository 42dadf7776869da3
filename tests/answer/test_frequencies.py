"""The counting formulas against worked figures and an independent beta-binomial."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import betabinom

from benchlore.answer.frequencies import CONCENTRATIONS, backed_off, concentration, shrunk, unseen_share


def test_backing_off_from_class_to_board_to_model() -> None:
    """Worked by hand: 12.5/310, (10 + 0.403)/50, (3 + 2.08)/14."""
    levels = [(12, 300), (10, 40), (3, 4)]
    shares = [backed_off(levels[:n], 0.05) for n in (1, 2, 3)]
    assert shares == pytest.approx([0.040, 0.208, 0.363], abs=5e-4)


def test_the_share_of_the_unseen_by_good_1953() -> None:
    assert unseen_share(0, 0) == 0.5
    assert unseen_share(3, 20) == pytest.approx(3.5 / 21)


@given(st.lists(st.tuples(st.integers(0, 50), st.integers(0, 50)), max_size=4), st.floats(0.001, 0.999))
def test_a_backed_off_share_is_a_share(levels: list[tuple[int, int]], base: float) -> None:
    assert 0 < backed_off([(min(a, b), max(a, b)) for a, b in levels], base) < 1


def test_shrinking_pulls_to_the_background_and_fades_with_data() -> None:
    assert shrunk(0, 0, 0.3, 2) == 0.3
    assert shrunk(90, 100, 0.3, 2) == pytest.approx(90.6 / 102)


@pytest.mark.parametrize(
    ("groups", "background"),
    [
        ([(9, 10), (0, 12), (10, 10), (1, 15)], 0.4),
        ([(4, 10), (5, 12), (4, 10), (6, 15)], 0.42),
        ([(1, 2), (0, 3)], 0.2),
    ],
)
def test_concentration_is_the_likeliest_by_scipy(groups: list[tuple[int, int]], background: float) -> None:
    import math

    def score(m: float) -> float:
        likely = sum(betabinom.logpmf(h, n, m * background, m * (1 - background)) for h, n in groups)
        return float(likely) - 0.5 * (math.log(m / 2) / 1.5) ** 2

    assert concentration(groups, background) == max(CONCENTRATIONS, key=score)


def test_unlike_groups_shrink_little_and_alike_ones_much() -> None:
    unlike, alike = [(10, 10), (0, 10), (10, 10), (0, 10)], [(5, 10), (5, 10), (5, 10), (5, 10)]
    assert concentration(unlike, 0.5) < 1 < 8 < concentration(alike, 0.5)


def test_single_entries_say_nothing_about_concentration() -> None:
    assert concentration([(1, 1), (0, 1)], 0.5) == 2.0
