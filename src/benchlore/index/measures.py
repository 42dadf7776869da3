"""How good a ranked list is, against judgements: nDCG, recall, reciprocal rank, and intervals for their means.

Grades are 0 (of no use) to 3 (exactly what was sought); entries that are not judged count as 0. *Relevant* are grades
from ``RELEVANT`` on.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from math import log2
from statistics import fmean

RELEVANT = 2
RESAMPLES = 2000


def ndcg(ranked: Sequence[str], grades: Mapping[str, int], depth: int = 10) -> float:
    """Normalised discounted cumulative gain of the first ``depth``, 0 to 1.

    The gain is the grade, the discount log2(1 + place): Järvelin and Kekäläinen, "Cumulated gain-based evaluation of IR
    techniques", 2002, in the form that trec_eval uses.
    """
    best = _gain(sorted(grades.values(), reverse=True)[:depth])
    return _gain([grades.get(slug, 0) for slug in ranked[:depth]]) / best if best else 0.0


def _gain(grades: Sequence[int]) -> float:
    return sum(grade / log2(place + 1) for place, grade in enumerate(grades, start=1))


def recall(ranked: Sequence[str], grades: Mapping[str, int], depth: int = 5) -> float:
    """Share of the relevant entries among the first ``depth``, of as many as these can hold."""
    relevant = {slug for slug, grade in grades.items() if grade >= RELEVANT}
    return len(relevant.intersection(ranked[:depth])) / min(depth, len(relevant)) if relevant else 0.0


def reciprocal_rank(ranked: Sequence[str], grades: Mapping[str, int]) -> float:
    """One over the place of the first relevant entry; 0 when there is none."""
    for place, slug in enumerate(ranked, start=1):
        if grades.get(slug, 0) >= RELEVANT:
            return 1 / place
    return 0.0


def interval(values: Sequence[float], level: float = 0.95, seed: int = 1) -> tuple[float, float]:
    """Percentile bootstrap interval of the mean (Efron, 1979); the same values give the same interval."""
    if not values:
        return 0.0, 0.0
    chance = random.Random(seed)
    means = sorted(fmean(chance.choices(values, k=len(values))) for _ in range(RESAMPLES))
    cut = int((1 - level) / 2 * RESAMPLES)
    return means[cut], means[-1 - cut]
