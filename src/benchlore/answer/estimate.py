"""What a repair will take: time and parts cost as a mixture over the likely causes, its middle and its ninth tenth.

Each cause has a log-normal, shrunk to the pool of all: μ_f = (n_f·ȳ_f + k·m_0) / (n_f + k), k = clip(s²/τ², 0.5, 8),
s² the variance within causes and τ² between them (empirical Bayes). One more repair spreads by s²·(1 + 1/(n_f + k)).
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

LEAST, MOST = 0.5, 8.0
"""Bounds of k."""
DEFAULT_SPREAD = 0.7
"""Standard deviation of the logarithm where entries are too few to say (common practice, no source)."""
_LEAST_POOL = 3
_K = TypeVar("_K")


@dataclass(frozen=True, slots=True)
class Figures:
    """The middle (half of such repairs stay below) and the value that nine in ten stay below."""

    p50: float
    p90: float


class Amounts(Generic[_K]):
    """Positive amounts by group (minutes, or money); amounts of 0 are kept apart as the share that costs nothing."""

    def __init__(self, amounts: Mapping[_K, Sequence[float]]) -> None:
        self.logs = {key: [math.log(a) for a in values if a > 0] for key, values in amounts.items()}
        self.zeros = {key: sum(1 for a in values if a <= 0) for key, values in amounts.items()}
        every = [value for values in self.logs.values() for value in values]
        self.count = len(every)
        self.nothing = sum(self.zeros.values()) / (len(every) + sum(self.zeros.values())) if amounts and any(
            amounts.values()
        ) else 0.0
        self.mean = math.fsum(every) / len(every) if every else 0.0
        self.spread, self.strength = self._spreads(every)

    def _spreads(self, every: Sequence[float]) -> tuple[float, float]:
        if len(every) < _LEAST_POOL:
            return DEFAULT_SPREAD, MOST
        total = math.fsum((v - self.mean) ** 2 for v in every) / (len(every) - 1)
        inner = [(v, math.fsum(g) / len(g), len(g)) for g in self.logs.values() if len(g) > 1 for v in g]
        freedom = len(inner) - sum(1 for g in self.logs.values() if len(g) > 1)
        if freedom < _LEAST_POOL:
            return math.sqrt(max(total, 0.04)), MOST
        within = max(math.fsum((v - mean) ** 2 for v, mean, _ in inner) / freedom, 0.01)
        between = max(total - within, 1e-6)
        return math.sqrt(within), min(MOST, max(LEAST, within / between))

    def parameters(self, key: _K) -> tuple[float, float, float]:
        """(μ, σ, share of 0) of one more repair with this cause."""
        values = self.logs.get(key, [])
        n, k = len(values), self.strength
        mean = (math.fsum(values) + k * self.mean) / (n + k)
        zeros = self.zeros.get(key, 0)
        nothing = (zeros + 2 * self.nothing) / (zeros + n + 2)
        spread = self.spread if n else math.hypot(self.spread, self._between())
        return mean, spread * math.sqrt(1 + 1 / (n + k)), nothing

    def _between(self) -> float:
        return self.spread / math.sqrt(self.strength)


def estimate(shares: Mapping[_K, float], amounts: Amounts[_K], added: float = 0.0) -> Figures | None:
    """P50 and P90 of the mixture over causes with these shares, ``added`` on top; None without any amount to go by."""
    if not amounts.count or not shares:
        return None
    total = math.fsum(shares.values())
    parts = [(share / total, *amounts.parameters(key)) for key, share in shares.items() if share > 0]
    return Figures(*(added + _quantile(parts, q) for q in (0.5, 0.9)))


def below(parts: Sequence[tuple[float, float, float, float]], value: float) -> float:
    """The chance that the amount is at most ``value``; ``parts`` are (share, μ, σ, share of 0)."""
    log = math.log(value) if value > 0 else -math.inf
    return math.fsum(
        share * (nothing + (1 - nothing) * (math.erfc((mean - log) / spread / math.sqrt(2)) / 2 if value > 0 else 0.0))
        for share, mean, spread, nothing in parts
    )


def _quantile(parts: Sequence[tuple[float, float, float, float]], wanted: float) -> float:
    if below(parts, 0.0) >= wanted:
        return 0.0
    low, high = -20.0, max(mean + 6 * spread for _, mean, spread, _ in parts)
    for _ in range(80):
        middle = (low + high) / 2
        if below(parts, math.exp(middle)) < wanted:
            low = middle
        else:
            high = middle
    return math.exp((low + high) / 2)
