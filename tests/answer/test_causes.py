"""Causes ranked from cases."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence

import pytest

from benchlore.answer.cases import Case
from benchlore.answer.causes import CauseModel
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis
from benchlore.answer.observed import Observed
from benchlore.answer.tallies import Level

A, B, C = (Hypothesis("block", part, "open") for part in "abc")
EVEN = {A: 1 / 3, B: 1 / 3, C: 1 / 3}


def case(cause: Hypothesis, seen: Sequence[str] = (), scopes: Sequence[str] = (), **more: object) -> Case:
    return Case("x", cause, frozenset(seen), scopes=frozenset(scopes), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("seen", "absent", "expected"),
    [
        (["s1", "s2"], [], (0.803571, 0.187500, 0.008929)),
        (["s2"], ["s1"], (0.097087, 0.815534, 0.087379)),
        ([], ["s1", "s2"], (0.113636, 0.272727, 0.613636)),
    ],
)
def test_naive_bayes_as_pgmpy_has_it(seen: list[str], absent: list[str], expected: tuple[float, ...]) -> None:
    """Priors .5 .3 .2, P(s1|c) .9 .2 .1, P(s2|c) .4 .7 .1; the posteriors are those of pgmpy 1.1 (and of the hand)."""
    rows = ((A, 0.5, 0.9, 0.4), (B, 0.3, 0.2, 0.7), (C, 0.2, 0.1, 0.1))
    cases = []
    for cause, prior, one, two in rows:
        for has_one, has_two in itertools.product((True, False), repeat=2):
            weight = 1e8 * prior * (one if has_one else 1 - one) * (two if has_two else 1 - two)
            symptoms = [name for name, has in (("s1", has_one), ("s2", has_two)) if has]
            cases.append(case(cause, symptoms, weight=weight))
    model = CauseModel(cases, [Level("all")], EVEN, mention=1, open_world=False, tune=False)
    found = {r.cause: r.probability for r in model.rank(Observed(dict.fromkeys(seen, 1.0), frozenset(absent)))}
    assert (found[A], found[B], found[C]) == pytest.approx(expected, abs=2e-6)


def test_probabilities_sum_to_one_with_room_for_the_unseen() -> None:
    model = CauseModel([case(A, ["hum"])] * 6 + [case(B)] * 6, [Level("all")], EVEN)
    ranked = model.rank(Observed({"hum": 1.0}))
    assert math.fsum(r.probability for r in ranked) == pytest.approx(1, abs=1e-12)
    assert ranked[0].cause == A
    assert NOT_SEEN_BEFORE in {r.cause for r in ranked}


def test_the_unseen_prior_is_good_turing() -> None:
    """Where the vocabulary names nothing that was not met, the whole share of the new is "not seen before"."""
    model = CauseModel([case(A), case(A), case(B)], [Level("all")], {A: 0.5, B: 0.5})
    assert model.prior(NOT_SEEN_BEFORE) == pytest.approx((1 + 0.5) / (3 + 1))


def test_causes_that_were_met_share_what_the_unseen_leaves() -> None:
    model = CauseModel([case(A), case(A), case(B)], [Level("all")], EVEN)
    assert model.prior(A) + model.prior(B) == pytest.approx(1 - 1.5 / 4)
    assert model.prior(NOT_SEEN_BEFORE) > model.prior(C) > 0


def test_without_any_case_the_vocabulary_speaks() -> None:
    model = CauseModel([], [Level("all"), Level("class", ("class:x",))], {A: 0.6, B: 0.4})
    assert model.prior(A) == pytest.approx(0.3)
    assert model.prior(NOT_SEEN_BEFORE) == 0.5


def test_nothing_known_at_all_leaves_only_the_unseen() -> None:
    ranked = CauseModel([], [Level("all")], {}).rank(Observed({"hum": 1.0}))
    assert [(r.cause, r.probability) for r in ranked] == [(NOT_SEEN_BEFORE, 1.0)]


def test_silence_is_not_absence() -> None:
    cases = [case(A, ["hum", "dim"]) for _ in range(8)] + [case(B, ["hum"]) for _ in range(8)]
    model = CauseModel(cases, [Level("all")], {A: 0.5, B: 0.5})
    shares = [
        {r.cause: r.probability for r in model.rank(observed)}[A]
        for observed in (
            Observed({"hum": 1.0, "dim": 1.0}),
            Observed({"hum": 1.0}),
            Observed({"hum": 1.0}, frozenset({"dim"})),
        )
    ]
    assert shares[0] > shares[1] > shares[2]


def test_a_complaint_weighs_less_than_what_the_bench_saw() -> None:
    cases = [case(A, ["hum"]) for _ in range(8)] + [case(B) for _ in range(8)]
    model = CauseModel(cases, [Level("all")], {A: 0.5, B: 0.5})
    bench, complaint = (
        {r.cause: r.probability for r in model.rank(Observed({"hum": weight}))}[A] for weight in (1.0, 0.7)
    )
    assert bench > complaint > 0.5


def test_a_case_unlike_anything_stored_leads_with_the_unseen() -> None:
    cases = [case(A, ["hum"]) for _ in range(6)] + [case(B, ["dim"]) for _ in range(6)] + [case(C, ["click"])] * 2
    ranked = CauseModel(cases, [Level("all")], EVEN).rank(Observed({"smoke": 1.0, "leak": 1.0, "howl": 1.0}))
    assert ranked[0].cause == NOT_SEEN_BEFORE


def test_sisters_and_the_model_itself_count_more_than_the_class() -> None:
    cases = [case(A, scopes=["class:x"]) for _ in range(20)]
    cases += [case(B, scopes=["class:x", "board:y"]) for _ in range(4)]
    alone = CauseModel(cases, [Level("all"), Level("class", ("class:x",))], EVEN)
    sister = CauseModel(cases, [Level("all"), Level("class", ("class:x",)), Level("board", ("board:y",))], EVEN)
    assert sister.prior(B) > 2 * alone.prior(B)


def test_a_separate_fault_counts_but_has_no_symptoms() -> None:
    cases = [case(A, ["hum"]), case(A, ["hum"]), case(B, has_symptoms=False), case(B, has_symptoms=False)]
    model = CauseModel(cases, [Level("all")], EVEN)
    assert model.prior(B) == model.prior(A)
    assert model.rate(B, "hum") == pytest.approx(model.rate(Hypothesis("block", "", ""), "hum"))


def test_temperature_and_memory_are_fitted_only_where_data_are_many() -> None:
    draw = random.Random(3)
    few = [case(draw.choice([A, B]), ["hum"]) for _ in range(29)]
    assert CauseModel(few, [Level("all")], EVEN).temperature == 1.0
    assert CauseModel(few, [Level("all")], EVEN).memory is None
    # two symptoms that say the same: naive Bayes counts them twice, the temperature takes that back
    twice = []
    for _ in range(200):
        cause = draw.choice([A, B])
        told = draw.random() < (0.8 if cause == A else 0.2)
        twice.append(case(cause, [f"s{n}" for n in range(6)] if told else []))
    model = CauseModel(twice, [Level("all")], {A: 0.5, B: 0.5}, mention=1)
    assert model.temperature < 1


def test_exact_patterns_are_remembered_when_they_say_more_than_the_parts() -> None:
    """Either alone means A, both or neither mean B: no sum of symptoms can tell."""
    cases = []
    for both in itertools.product((True, False), repeat=2):
        cause = A if both[0] != both[1] else B
        cases += [case(cause, [name for name, has in zip("xy", both, strict=True) if has])] * 40
    model = CauseModel(cases, [Level("all")], {A: 0.5, B: 0.5}, mention=1, open_world=False)
    assert model.memory is not None
    assert model.rank(Observed({"x": 1.0}, frozenset({"y"})))[0].cause == A
    ranked = model.rank(Observed({"x": 1.0, "y": 1.0}))
    assert ranked[0].cause == B
    assert ranked[0].probability > 0.9
    assert model.remembered(Observed({"x": 1.0, "y": 1.0})) == (40, {B: 40})
