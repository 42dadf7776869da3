"""The whole answer about a unit: likely causes with evidence, the next steps, time and parts, what it cannot tell."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import MutableMapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile

from benchlore.answer.cases import Case, within
from benchlore.answer.causes import CauseModel
from benchlore.answer.estimate import Amounts, Figures, estimate
from benchlore.answer.evidence import Wiring, contradictions, likelihoods
from benchlore.answer.explain import Explanation, Weighed, conflict, explain
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis, base_shares
from benchlore.answer.observed import Observed, Ranked
from benchlore.answer.question import KnownUnit, Question, levels_of
from benchlore.answer.steps import Step, Steps, Unit, half_split
from benchlore.answer.tallies import Level
from benchlore.terms.vocabulary import Vocabulary

CAUTION = (
    "A ranking is no substitute for measurement, isolation, and licensed practice where required."
)
SHOWN_SINGLY = 0.005
"""Share below which a cause that no entry names is told with the rest of its block."""
_EXPLAINED = 10
_FEW = 5
_CONFLICT = 10.0
_POOL = 8
_LEAST_BITS = 0.02


@dataclass(frozen=True, slots=True)
class LikelyCause:
    """A cause with its probability; ``is_rest`` stands for everything else in its block."""

    cause: Hypothesis
    probability: float
    entries: tuple[str, ...] = ()
    evidence: tuple[Weighed, ...] = ()
    is_rest: bool = False
    proof: str = ""
    """The check that proves it, as its newest entry has it."""

    @property
    def not_seen_before(self) -> bool:
        """Whether this is the room left for what nobody has written up."""
        return self.cause == NOT_SEEN_BEFORE


@dataclass(frozen=True, slots=True)
class Consequence:
    """What else was found broken with the leading cause, in how many of its entries."""

    found: Hypothesis
    entries: int
    of: int


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """The answer. Probabilities of ``causes`` sum to 1; ``minutes`` and ``parts_cost`` are P50 and P90, or None."""

    question: Question
    counted: tuple[tuple[str, int], ...]
    """Entries at each level, from broad to narrow."""
    causes: tuple[LikelyCause, ...]
    explanation: Explanation | None
    steps: tuple[Step, ...]
    half_split: tuple[str, str] | None
    minutes: Figures | None
    parts_cost: Figures | None
    not_repaired: tuple[int, int]
    consequences: tuple[Consequence, ...]
    contradictions: tuple[str, ...]
    conflict: float
    """Decibans; above 10 the observations hardly go together."""
    separating: tuple[str, str] | None
    """The test (and block) that would best tell the two leading causes apart, where the evidence does not."""
    temperature: float
    worth_asking: tuple[str, ...]
    """Symptoms that nobody has said anything about, the most telling first."""
    remembered: int
    """Cases of the class that showed exactly these symptoms, where patterns are remembered."""
    caution: str = CAUTION

    @property
    def rests_on_none(self) -> bool:
        """Whether no entry of the class stands behind the answer."""
        return dict(self.counted).get("class", 0) == 0


def diagnose(
    question: Question,
    cases: Sequence[Case],
    units: Sequence[KnownUnit],
    vocabulary: Vocabulary,
    *,
    minute_cost: float = 0.0,
    hand_back: float | None = None,
    models: MutableMapping[tuple[Level, ...], CauseModel] | None = None,
) -> Diagnosis:
    """Answer a question whose class is known.

    ``minute_cost`` is money for a minute of work, to weigh parts at risk against time (0: parts are not weighed).
    ``hand_back`` are the minutes that handing back unrepaired is worth losing, where that is a choice.
    ``models`` keeps what was learned for the next question about the same kind of unit.
    """
    levels = levels_of(question, units)
    models = {} if models is None else models
    if tuple(levels) not in models:
        models[tuple(levels)] = CauseModel(cases, levels, base_shares(question.equipment_class, vocabulary))
    model = models[tuple(levels)]
    wiring = Wiring(question.equipment_class, vocabulary)
    observed = _observed(question, model, cases, vocabulary, wiring)
    ranked = model.rank(observed)
    shares = {r.cause: r.probability for r in ranked}
    causes = _told(ranked, model, observed)
    unit = Unit(
        question.equipment_class, shares, vocabulary, wiring, question.results, frozenset(question.seen),
        within(cases, levels[1].scopes), minute_cost, hand_back,
        done=frozenset(r.test for r in question.results),
    )  # fmt: skip
    steps = Steps(unit)
    plan = tuple(steps.plan())
    explanation = explain(model, observed, ranked[0], ranked[1]) if len(ranked) > 1 else None
    class_cases = unit.cases
    pool = class_cases if len(class_cases) >= _POOL else cases
    added = sum(step.minutes for step in takewhile(lambda step: step.kind == "test", plan))
    leading = model.cases(causes[0].cause)
    return Diagnosis(
        question=question,
        counted=tuple(
            (level.name, len({c.id for c in (within(cases, level.scopes) if level.scopes else cases)}))
            for level in levels
        ),
        causes=tuple(causes),
        explanation=explanation,
        steps=plan,
        half_split=half_split(shares, wiring),
        minutes=estimate(shares, _amounts(pool, "work_minutes"), added),
        parts_cost=estimate(shares, _amounts([c for c in pool if c.was_repaired], "parts_cost")),
        not_repaired=(sum(1 for c in class_cases if c.has_symptoms and not c.was_repaired),
                      sum(1 for c in class_cases if c.has_symptoms)),
        consequences=_consequences(leading),
        contradictions=tuple(contradictions(question.results, question.seen, question.absent)),
        conflict=conflict(model, observed),
        separating=_separating(ranked, steps) if explanation and explanation.is_inseparable else None,
        temperature=model.temperature,
        worth_asking=_worth_asking(ranked, model, observed),
        remembered=model.remembered(observed)[0],
    )  # fmt: skip


def _observed(
    question: Question, model: CauseModel, cases: Sequence[Case], vocabulary: Vocabulary, wiring: Wiring
) -> Observed:
    tests = [
        (
            f"{number}:{result.test}",
            likelihoods(result, model.causes, model.base, vocabulary, wiring, cases),
        )
        for number, result in enumerate(question.results)
        if not result.clears_nothing
    ]
    return Observed(question.seen, question.absent - set(question.seen), tests)


def _told(ranked: Sequence[Ranked], model: CauseModel, observed: Observed) -> list[LikelyCause]:
    """The causes singly where they are likely or were met, else block by block; the likeliest first."""
    singly: list[LikelyCause] = []
    rest: dict[str, float] = {}
    for found in ranked:
        met = sorted(model.cases(found.cause), key=lambda case: (case.date, case.id))
        entries = tuple(dict.fromkeys(case.id for case in reversed(met)))
        proof = next((case.proof for case in reversed(met) if case.proof), "")
        if entries or found.probability >= SHOWN_SINGLY or found.cause == NOT_SEEN_BEFORE:
            singly.append(LikelyCause(found.cause, found.probability, entries, proof=proof))
        else:
            rest[found.cause.block] = rest.get(found.cause.block, 0.0) + found.probability
    singly += [LikelyCause(Hypothesis(block, "", ""), share, is_rest=True) for block, share in rest.items()]
    singly.sort(key=lambda c: (-c.probability, c.cause))
    against = _Against(ranked, model, observed)
    return [
        replace(c, evidence=against(c.cause)) if n < _EXPLAINED and not c.is_rest else c
        for n, c in enumerate(singly)
    ]


class _Against:
    """Evidence for one cause against all the others together, as the prior weighs them."""

    def __init__(self, ranked: Sequence[Ranked], model: CauseModel, observed: Observed) -> None:
        self._model = model
        self._table = {r.cause: model.lines(r.cause, observed) for r in ranked}

    def __call__(self, cause: Hypothesis) -> tuple[Weighed, ...]:
        others = [(self._model.prior(c), lines) for c, lines in self._table.items() if c != cause]
        whole = math.fsum(p for p, _ in others)
        told = []
        for index, line in enumerate(self._table[cause]):
            mean = math.fsum(p * math.exp(lines[index].value) for p, lines in others) / whole if whole else 1.0
            weight = 10 / math.log(10) * self._model.temperature * (line.value - math.log(mean))
            counts = (
                self._model.symptom_counts(cause, line.id)
                if line.kind in {"seen", "absent"} and cause != NOT_SEEN_BEFORE
                else (None, None)
            )
            told.append(Weighed(line.kind, line.id, weight, *counts))
        return tuple(told)


def _amounts(cases: Sequence[Case], name: str) -> Amounts[Hypothesis]:
    amounts: dict[Hypothesis, list[float]] = {}
    for case in cases:
        value = getattr(case, name)
        if value is not None and case.has_symptoms:
            amounts.setdefault(case.cause, []).append(value)
    return Amounts(amounts)


def _consequences(cases: Sequence[Case]) -> tuple[Consequence, ...]:
    counted = Counter(found for case in cases for found in dict.fromkeys(case.consequences))
    return tuple(Consequence(found, n, len(cases)) for found, n in counted.most_common(_FEW))


def _separating(ranked: Sequence[Ranked], steps: Steps) -> tuple[str, str] | None:
    """The test whose outcomes differ most between the two leading parts; None when they are the same part."""
    pairs = [(r.cause.block, r.cause.component) for r in ranked[:2]]
    places = [steps.pairs.index(pair) if pair in steps.pairs else -1 for pair in pairs]
    if any(a == b for a, b in pairwise(places)) or -1 in places:
        return None
    one, two = places
    best = max(steps.advisor.trials, key=lambda t: abs(t.abnormal[one] - t.abnormal[two]), default=None)
    if best is None or abs(best.abnormal[one] - best.abnormal[two]) < 0.3:
        return None
    test, block = best.key.split("@")
    return test, block


def _worth_asking(ranked: Sequence[Ranked], model: CauseModel, observed: Observed) -> tuple[str, ...]:
    """Symptoms by the information (bits) that looking for them gives about the likely causes."""
    likely = [r for r in ranked if r.probability >= SHOWN_SINGLY]
    whole = math.fsum(r.probability for r in likely)
    gains = []
    for symptom in model.symptoms:
        if symptom in observed.seen or symptom in observed.absent:
            continue
        rates = [(r.probability / whole, model.rate(r.cause, symptom)) for r in likely]
        mean = math.fsum(w * rate for w, rate in rates)
        gains.append((math.fsum(w * _bits(rate) for w, rate in rates) - _bits(mean), symptom))
    return tuple(symptom for gain, symptom in sorted(gains) if gain < -_LEAST_BITS)


def _bits(share: float) -> float:
    return -sum(p * math.log2(p) for p in (share, 1 - share) if p > 0)
