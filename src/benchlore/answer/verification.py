"""How much a clean test proves: soak times, trials, demonstrated time between failures, chance that a fault is gone."""

from __future__ import annotations

import math


def shown_in(seconds: float, gap: float) -> float:
    """Chance that a fault that comes on average every ``gap`` shows itself within ``seconds``: 1 - e^(-T/g).

    Both in the same unit of time; the fault comes at random (exponential gaps).
    """
    _positive("time", seconds)
    _positive("gap", gap)
    return -math.expm1(-seconds / gap)


def soak_for(gap: float, confidence: float) -> float:
    """How long a unit must run clean to show, at ``confidence``, that a fault which came every ``gap`` is gone.

    T = -ln(1 - C)·g, in the unit of ``gap``: the zero-failure demonstration test.
    """
    _positive("gap", gap)
    return -math.log1p(-_share("confidence", confidence)) * gap


def gap_shown(seconds: float, confidence: float, failures: int = 0) -> float:
    """The mean time between failures that a test of ``seconds`` with so many failures shows at ``confidence``.

    At least T / m, where m solves P(N ≤ r; m) = 1 - C for a Poisson N; m = χ²(C, 2r + 2)/2, and -ln(1 - C) without
    failures. Time-terminated test, exponential gaps.
    """
    _positive("time", seconds)
    return seconds / expected_failures(confidence, failures)


def expected_failures(confidence: float, failures: int = 0) -> float:
    """χ²(C, 2r + 2)/2: the factor of a demonstration test with r failures allowed, multiplied with the time between
    failures to be shown."""
    if failures < 0:
        raise ValueError("failures are not negative")
    left = 1 - _share("confidence", confidence)
    low, high = 0.0, failures + 1.0
    while poisson_at_most(failures, high) > left:
        low, high = high, high * 2
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if poisson_at_most(failures, middle) > left else (low, middle)
    return (low + high) / 2


def trials_to_see(chance: float, confidence: float) -> int:
    """How many trials it takes to see, at ``confidence``, a fault that shows with ``chance`` in each: the least n with
    1 - (1 - p)^n ≥ C."""
    _share("chance", chance)
    return _least(math.log1p(-_share("confidence", confidence)) / math.log1p(-chance))


def units_to_pass(reliability: float, confidence: float) -> int:
    """How many units, or trials, must pass without a failure to show ``reliability``: ln(1 - C)/ln R, rounded up."""
    return _least(math.log1p(-_share("confidence", confidence)) / math.log(_share("reliability", reliability)))


def gone_after_clean_test(prior: float, detection: float) -> float:
    """Chance that the fault is gone after a test that would have shown it with the chance ``detection`` stayed clean.

    ``prior`` is the chance before the test; Bayes: p / (p + (1 - p)(1 - d)).
    """
    _share("prior", prior)
    if not 0 <= detection <= 1:
        raise ValueError("a detection rate lies between 0 and 1")
    return prior / (prior + (1 - prior) * (1 - detection))


def poisson_at_most(count: int, mean: float) -> float:
    """P(N ≤ count) for a Poisson variable of that mean; 0 for a negative count."""
    if count < 0:
        return 0.0
    if mean < 0 or not math.isfinite(mean):
        raise ValueError("a mean is finite and not negative")
    if mean == 0:
        return 1.0
    logs = [k * math.log(mean) - mean - math.lgamma(k + 1) for k in range(count + 1)]
    top = max(logs)
    return min(1.0, math.exp(top) * math.fsum(math.exp(value - top) for value in logs))


def _least(exact: float) -> int:
    """The least whole number that is not below ``exact``, forgiving rounding of the last digits."""
    return max(1, math.ceil(exact - 1e-9))


def _positive(what: str, value: float) -> None:
    if not (value > 0 and math.isfinite(value)):
        raise ValueError(f"{what} must be positive and finite, not {value}")


def _share(what: str, value: float) -> float:
    if not 0 < value < 1:
        raise ValueError(f"{what} lies between 0 and 1, not {value}")
    return value
