"""Benchmark 5: the advisor against the exhaustive optimum, 8 causes and 6 tests, random problems in 7 regimes.

Run: ``python -m tests.bench.diagnosis.next_step_optimum [--problems 200]``. Needs numpy.

Repairs: median 20 minutes, log-normal with sd 0.8; tests 6 minutes, each telling a random half of the causes from the
others, right with a chance of .75 to .98. The optimum is by dynamic programming over the states (which causes are
ruled out, outcome of each test or not made); the policy that the advisor follows is valued exactly over the states it
reaches.
"""

from __future__ import annotations

import argparse
import itertools
import random
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from benchlore.answer.next_step import Advisor, Trial, Work

CAUSES, TESTS = 8, 6
REGIMES: dict[str, dict[str, float]] = {
    "base": {}, "flat prior": {"skew": 0.0}, "skewed prior": {"skew": 2.0}, "tests 2 min": {"minutes": 2.0},
    "tests 15 min": {"minutes": 15.0}, "good tests": {"least": 0.93}, "weak tests": {"least": 0.6, "most": 0.8},
}  # fmt: skip


@dataclass(frozen=True)
class Problem:
    """Chances, minutes of repairs and of tests, and P(abnormal | cause) by test."""

    chances: tuple[float, ...]
    repairs: tuple[float, ...]
    minutes: tuple[float, ...]
    abnormal: tuple[tuple[float, ...], ...]


def draw(
    rng: random.Random, skew: float = 1.0, minutes: float = 6.0, least: float = 0.75, most: float = 0.98
) -> Problem:
    """One random problem of a regime."""
    raw = [rng.gammavariate(1.0, 1.0) ** skew if skew else 1.0 for _ in range(CAUSES)]
    tests = []
    for _ in range(TESTS):
        told = set(rng.sample(range(CAUSES), CAUSES // 2))
        right = [rng.uniform(least, most) for _ in range(CAUSES)]
        tests.append(tuple(share if c in told else 1 - share for c, share in enumerate(right)))
    repairs = tuple(20 * rng.lognormvariate(0, 0.8) for _ in range(CAUSES))
    return Problem(tuple(r / sum(raw) for r in raw), repairs, (minutes,) * TESTS, tuple(tests))


def optimum(problem: Problem) -> float:
    """The least expected cost, over all 2^8 x 3^6 states (0 not made, 1 abnormal, 2 normal)."""
    outcomes = np.array(list(itertools.product(range(3), repeat=TESTS)))
    states, weights = len(outcomes), 3 ** np.arange(TESTS - 1, -1, -1)
    likely = np.ones((states, CAUSES))
    for t, shares in enumerate(problem.abnormal):
        column = outcomes[:, t : t + 1]
        likely *= np.where(column == 1, shares, np.where(column == 2, 1 - np.array(shares), 1.0))
    likely *= problem.chances
    value = np.zeros((2**CAUSES, states))
    by_made = [np.flatnonzero((outcomes > 0).sum(1) == n) for n in range(TESTS, -1, -1)]
    for left in range(1, 2**CAUSES):
        inside = [c for c in range(CAUSES) if left >> c & 1]
        whole = likely[:, inside].sum(1)
        for rows in by_made:
            best = np.full(len(rows), np.inf)
            for c in inside:
                best = np.minimum(best, problem.repairs[c] * whole[rows] + value[left & ~(1 << c), rows])
            for t in range(TESTS):
                open_now = outcomes[rows, t] == 0
                if open_now.any():
                    at = rows[open_now]
                    after = value[left, at + weights[t]] + value[left, at + 2 * weights[t]]
                    cost = problem.minutes[t] * whole[at] + after
                    best[open_now] = np.minimum(best[open_now], cost)
            value[left, rows] = best
    return float(value[-1, 0])


def policy(problem: Problem) -> float:
    """The exact expected cost of following the advisor."""
    works = [Work(str(c), m) for c, m in enumerate(problem.repairs)]
    trials = [Trial(str(t), problem.minutes[t], problem.abnormal[t]) for t in range(TESTS)]
    advisor = Advisor(works, trials)

    @cache
    def cost(weights: tuple[float, ...], made: frozenset[str]) -> float:
        whole = sum(weights)
        if whole <= 1e-12:
            return 0.0
        advice = advisor.advise(weights, made)
        if advice.kind == "repair":
            c = int(advice.key)
            return problem.repairs[c] * whole + cost((*weights[:c], 0.0, *weights[c + 1 :]), made)
        trial = trials[int(advice.key)]
        total = trial.minutes * whole
        for shares in (trial.abnormal, trial.normal):
            total += cost(tuple(w * s for w, s in zip(weights, shares, strict=True)), made | {trial.key})
        return total

    return cost(problem.chances, frozenset())


def main() -> None:
    """Print mean and greatest cost against the optimum by regime."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--problems", type=int, default=200)
    asked = parser.parse_args()
    every: list[float] = []
    for name, options in REGIMES.items():
        rng = random.Random(name)
        ratios = _ratios([draw(rng, **options) for _ in range(asked.problems)])
        every += ratios
        print(f"{name:14} mean {np.mean(ratios):.4f}  max {max(ratios):.4f}", flush=True)
    print(f"{'all':14} mean {np.mean(every):.4f}  max {max(every):.4f}   goal: mean 1.03, max 1.15")


def _ratios(problems: Sequence[Problem]) -> list[float]:
    return [policy(p) / optimum(p) for p in problems]


if __name__ == "__main__":
    main()
