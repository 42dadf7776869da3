"""Why one cause leads: the leader against the runner-up, line by line, adding up exactly to the log-odds.

Weights are in decibans, 10·log10 of the likelihood ratio (I. J. Good, Probability and the Weighing of Evidence, 1950);
shown in words.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlore.answer.causes import CauseModel
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis
from benchlore.answer.observed import Observed, Ranked
from benchlore.answer.tallies import Count

_WORDS = ((20.0, "decisively"), (10.0, "strongly"), (5.0, "clearly"), (2.0, "slightly"))
INSEPARABLE = 3.0
"""Decibans between two causes below which the evidence does not separate them (odds of 2 to 1)."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """One line: what was observed, its weight for the leader against the rival in decibans, and the counts behind.

    ``kind`` is ``prior``, ``seen``, ``absent``, ``silent``, ``test`` or ``pattern``. ``leader`` and ``others`` are the
    counts among such faults and among the others of the class, where counts are what it came from.
    """

    kind: str
    id: str
    decibans: float
    leader: Count | None = None
    others: Count | None = None

    @property
    def words(self) -> str:
        """How much it says, and for which side."""
        size = abs(self.decibans)
        for least, word in _WORDS:
            if size >= least:
                return f"{word} {'for' if self.decibans > 0 else 'against'}"
        return "says little either way"


@dataclass(frozen=True, slots=True)
class Explanation:
    """Lines that sum to ``decibans``, the log-odds of ``leader`` against ``rival``."""

    leader: Hypothesis
    rival: Hypothesis
    decibans: float
    lines: tuple[Weighed, ...]

    @property
    def is_inseparable(self) -> bool:
        """Whether the evidence cannot tell the two apart."""
        return abs(self.decibans) < INSEPARABLE


def explain(model: CauseModel, observed: Observed, leader: Ranked, rival: Ranked) -> Explanation:
    """The explanation of ``leader`` against ``rival``, as ranked by ``model`` for ``observed``."""
    one, two = leader.cause, rival.cause
    prior_counts = None if one == NOT_SEEN_BEFORE else model.counts(one)[min(1, len(model.levels) - 1)]
    other_counts = None if two == NOT_SEEN_BEFORE else model.counts(two)[min(1, len(model.levels) - 1)]
    lines = [Weighed("prior", "", _decibans(math.log(model.prior(one) / model.prior(two))), prior_counts, other_counts)]
    for ours, theirs in zip(model.lines(one, observed), model.lines(two, observed), strict=True):
        weight = _decibans(model.temperature * (ours.value - theirs.value))
        counts: tuple[Count | None, Count | None] = (None, None)
        if ours.kind in {"seen", "absent"} and one != NOT_SEEN_BEFORE:
            counts = model.symptom_counts(one, ours.id)
        lines.append(Weighed(ours.kind, ours.id, weight, *counts))
    whole = _decibans(math.log(leader.probability / rival.probability))
    number, _ = model.remembered(observed)
    if number:
        lines.append(Weighed("pattern", str(number), whole - math.fsum(line.decibans for line in lines)))
    return Explanation(one, two, whole, tuple(lines))


def conflict(model: CauseModel, observed: Observed) -> float:
    """How far the observations contradict each other, in decibans; above 0 they fit together worse than by chance.

    10·log10(ΠP(e_i) / P(e_1…e_n)), the measure of F. V. Jensen, B. Chamberlain, T. Nordahl and F. Jensen, "Analysis in
    HUGIN of data conflict", Uncertainty in Artificial Intelligence 6 (1990).
    """
    every = [cause for cause in model.causes if model.prior(cause) > 0]
    table = {cause: [line for line in model.lines(cause, observed) if line.kind != "silent"] for cause in every}
    count = len(next(iter(table.values()), []))
    if count < 2:
        return 0.0
    singles = math.fsum(
        math.log(math.fsum(model.prior(c) * math.exp(lines[i].value) for c, lines in table.items()))
        for i in range(count)
    )
    joint = math.fsum(
        model.prior(c) * math.exp(math.fsum(line.value for line in lines)) for c, lines in table.items()
    )
    return _decibans(singles - math.log(joint))


def _decibans(natural: float) -> float:
    return 10 * natural / math.log(10)
