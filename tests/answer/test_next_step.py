"""The next step against worked figures and brute force."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.answer.next_step import Advisor, Trial, Work, best_order, in_order, order_cost

P = (0.5, 0.3, 0.15, 0.05)
C = (40, 10, 20, 5)


def test_the_order_by_p_over_c_is_the_best_of_all_24() -> None:
    """Kadane and Simon 1977; worked by hand: 10 + 0.7·40 + 0.2·5 + 0.15·20 = 42."""
    works = [Work(str(n), c) for n, c in enumerate(C)]
    order = best_order(P, works)
    assert [i + 1 for i in order] == [2, 1, 4, 3]
    assert in_order(P, order, C) == pytest.approx(42.0)
    assert in_order(P, (0, 1, 2, 3), C) == pytest.approx(49.25)
    assert min(in_order(P, o, C) for o in itertools.permutations(range(4))) == pytest.approx(42.0)


def test_a_test_is_worth_the_minutes_it_saves() -> None:
    """Heckerman, Breese and Rommelse 1995; worked by hand: 39 without, 30 + 30·(0.06 + 0.07) = 33.9 with."""
    works = [Work("a", 30), Work("b", 30)]
    advisor = Advisor(works, [Trial("t", 0.0, (0.9, 0.2))])
    assert advisor.repair_cost((0.7, 0.3)) == pytest.approx(39)
    assert advisor.repair_cost((0.7, 0.3)) - advisor.tested_cost(advisor.trials[0], (0.7, 0.3)) == pytest.approx(5.1)
    assert Advisor(works, [Trial("t", 5.0, (0.9, 0.2))]).advise((0.7, 0.3)).kind == "test"
    assert Advisor(works, [Trial("t", 5.2, (0.9, 0.2))]).advise((0.7, 0.3)).kind == "repair"


def brute(p: Sequence[float], works: Sequence[Work], openings: dict[str, float]) -> float:
    return min(order_cost(p, works, order, openings) for order in itertools.permutations(range(len(works))))


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.01, 1), st.floats(1, 60), st.sampled_from(["", "g", "h"])), min_size=1, max_size=6),
    st.floats(0, 40),
    st.floats(0, 40),
)
def test_orders_with_teardown_groups_are_the_best_of_all(
    rows: list[tuple[float, float, str]], open_g: float, open_h: float
) -> None:
    works = [Work(str(n), c, g) for n, (_, c, g) in enumerate(rows)]
    p = [row[0] for row in rows]
    openings = {"g": open_g, "h": open_h}
    found = order_cost(p, works, best_order(p, works, openings), openings)
    assert found == pytest.approx(brute(p, works, openings))
    assert Advisor(works, [], openings).repair_cost(p) == pytest.approx(found)


def test_shared_openings_change_the_order() -> None:
    works = [Work("a", 10, "lid"), Work("b", 10, "lid"), Work("c", 12)]
    assert best_order((0.4, 0.3, 0.3), works) == [0, 1, 2]
    assert best_order((0.4, 0.3, 0.3), works, {"lid": 60}) == [2, 0, 1]
    assert best_order((0.4, 0.3, 0.3), works, {"lid": 60}, frozenset({"lid"})) == [0, 1, 2]


def test_handing_back_is_a_step_like_others() -> None:
    works = [Work("a", 100), Work("b", 100)]
    assert Advisor(works, [], hand_back=50).advise((0.5, 0.5)).kind == "hand-back"
    assert Advisor(works, [], hand_back=500).advise((0.5, 0.5)).kind == "repair"


def test_nothing_left_to_do_is_said() -> None:
    assert Advisor([Work("a", 1)], []).advise((0.0,)).kind == "stop"


def test_only_allowed_tests_come_next() -> None:
    trials = [Trial("live", 1.0, (0.99, 0.01)), Trial("cold", 2.0, (0.95, 0.05))]
    advisor = Advisor([Work("a", 60), Work("b", 60)], trials)
    assert advisor.advise((0.5, 0.5)).key == "live"
    assert advisor.advise((0.5, 0.5), only=frozenset({"cold"})).key == "cold"
    assert advisor.advise((0.5, 0.5), made=frozenset({"live", "cold"})).kind == "repair"
