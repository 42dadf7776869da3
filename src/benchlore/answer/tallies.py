"""Counts of causes and symptoms at one level, and shares from logarithms."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from benchlore.answer.cases import Case
from benchlore.answer.hypotheses import Hypothesis


class Level(NamedTuple):
    """A level of counting: what it is called, and the scopes whose cases count there (none: all)."""

    name: str
    scopes: tuple[str, ...] = ()


class Count(NamedTuple):
    """Hits out of entries at a level."""

    level: str
    hits: float
    entries: float


@dataclass(frozen=True, slots=True)
class Tally:
    """What the cases of one level count, each by its weight."""

    entries: float
    by_cause: Counter[Hypothesis]
    described: Counter[Hypothesis]
    """Entries by cause that tell symptoms."""
    symptoms: Mapping[Hypothesis, Counter[str]]
    by_symptom: Counter[str]
    described_all: float


def tally(cases: Sequence[Case]) -> Tally:
    """Count cases."""
    by_cause: Counter[Hypothesis] = Counter()
    described: Counter[Hypothesis] = Counter()
    symptoms: defaultdict[Hypothesis, Counter[str]] = defaultdict(Counter)
    by_symptom: Counter[str] = Counter()
    for case in cases:
        by_cause[case.cause] += case.weight  # type: ignore[assignment]
        if case.has_symptoms:
            described[case.cause] += case.weight  # type: ignore[assignment]
            for symptom in case.seen:
                symptoms[case.cause][symptom] += case.weight  # type: ignore[assignment]
                by_symptom[symptom] += case.weight  # type: ignore[assignment]
    return Tally(
        sum(by_cause.values()), by_cause, described, symptoms, by_symptom, float(sum(described.values()))
    )


def normalised(logs: Mapping[Hypothesis, float]) -> dict[Hypothesis, float]:
    """Shares from logarithms, summing to 1."""
    most = max(logs.values())
    powers = {cause: math.exp(value - most) for cause, value in logs.items()}
    total = math.fsum(powers.values())
    return {cause: power / total for cause, power in powers.items()}


def normalised_share(cause: Hypothesis, logs: Mapping[Hypothesis, tuple[float, float]], temperature: float) -> float:
    """The share of one cause from (ln prior, log-likelihood) pairs."""
    prior, likelihood = logs[cause]
    own = prior + temperature * likelihood
    return 1 / math.fsum(math.exp(min(700.0, p + temperature * ll - own)) for p, ll in logs.values())
