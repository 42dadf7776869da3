"""Explanations add up exactly; estimates agree with an independent mixture; conflict is measured."""

from __future__ import annotations

import math
import random

import pytest
from scipy.stats import lognorm

from benchlore.answer.cases import Case
from benchlore.answer.causes import CauseModel
from benchlore.answer.estimate import Amounts, below, estimate
from benchlore.answer.explain import conflict, explain
from benchlore.answer.hypotheses import Hypothesis
from benchlore.answer.observed import Observed
from benchlore.answer.tallies import Level

A, B, C = (Hypothesis("block", part, "open") for part in "abc")
EVEN = {A: 1 / 3, B: 1 / 3, C: 1 / 3}


def random_model(seed: int, number: int) -> CauseModel:
    draw = random.Random(seed)
    cases = []
    for n in range(number):
        cause = draw.choice([A, A, B, C])
        seen = [s for i, s in enumerate("uvwxyz") if draw.random() < (0.8 if (i % 3) == "ABC".find("A") else 0.3)]
        cases.append(Case(str(n), cause, frozenset(seen)))
    return CauseModel(cases, [Level("all")], EVEN)


@pytest.mark.parametrize("number", [0, 3, 20, 120])
def test_lines_add_up_to_the_log_odds_exactly(number: int) -> None:
    for seed in range(10):
        model = random_model(seed, number)
        test = dict.fromkeys(model.causes, -0.3) | {A: -2.0}
        observed = Observed({"u": 1.0, "v": 0.7}, frozenset({"w"}), [("0:t", test)])
        ranked = model.rank(observed)
        for rival in ranked[1:]:
            told = explain(model, observed, ranked[0], rival)
            assert math.fsum(line.decibans for line in told.lines) == pytest.approx(told.decibans, abs=1e-9)
            odds = ranked[0].probability / rival.probability
            assert told.decibans == pytest.approx(10 * math.log10(odds), abs=1e-9)


def test_a_pattern_that_is_remembered_has_a_line_of_its_own() -> None:
    cases = []
    for x, y in ((True, True), (True, False), (False, True), (False, False)):
        cases += [Case("", A if x != y else B, frozenset(s for s, has in (("x", x), ("y", y)) if has))] * 40
    model = CauseModel(cases, [Level("all")], {A: 0.5, B: 0.5}, open_world=False, mention=1)
    observed = Observed({"x": 1.0}, frozenset({"y"}))
    one, two = model.rank(observed)
    told = explain(model, observed, one, two)
    assert [line.id for line in told.lines if line.kind == "pattern"] == ["40"]
    assert math.fsum(line.decibans for line in told.lines) == pytest.approx(told.decibans, abs=1e-9)


def test_observations_of_different_faults_conflict_and_those_of_one_do_not() -> None:
    cases = [Case("", A, frozenset({"p", "q"}))] * 20 + [Case("", B, frozenset({"r", "s"}))] * 20
    model = CauseModel(cases, [Level("all")], EVEN)
    assert conflict(model, Observed({"p": 1.0, "q": 1.0})) < 0
    assert conflict(model, Observed({"p": 1.0, "q": 1.0, "r": 1.0, "s": 1.0})) > conflict(
        model, Observed({"p": 1.0, "q": 1.0})
    )


def test_a_mixture_of_log_normals_by_scipy() -> None:
    parts = [(0.6, math.log(30), 0.4, 0.0), (0.4, math.log(90), 0.6, 0.1)]
    for value in (5.0, 30.0, 100.0):
        expected = 0.6 * lognorm.cdf(value, 0.4, scale=30) + 0.4 * (0.1 + 0.9 * lognorm.cdf(value, 0.6, scale=90))
        assert below(parts, value) == pytest.approx(float(expected), abs=1e-12)


def test_the_estimate_of_one_cause_with_many_repairs_is_its_own() -> None:
    draw = random.Random(1)
    amounts = Amounts({A: [draw.lognormvariate(math.log(40), 0.5) for _ in range(400)]})
    figures = estimate({A: 1.0}, amounts)
    assert figures
    assert figures.p50 == pytest.approx(40, rel=0.1)
    assert figures.p90 == pytest.approx(40 * math.exp(1.2816 * 0.5), rel=0.15)
    added = estimate({A: 1.0}, amounts, added=7)
    assert added and added.p50 == pytest.approx(figures.p50 + 7)


def test_few_repairs_are_drawn_to_the_pool_and_nothing_known_is_none() -> None:
    amounts = Amounts({A: [10.0] * 30, B: [100.0], C: []})
    middle = {key: estimate({key: 1.0}, amounts).p50 for key in (A, B, C)}  # type: ignore[union-attr]
    assert middle[A] < middle[C] < middle[B] <= 100
    assert estimate({A: 1.0}, Amounts({})) is None
    free = estimate({A: 1.0}, Amounts({A: [0.0] * 9 + [5.0]}))
    assert free and free.p50 == 0.0
