"""Whether a value conforms to limits when its measurement is uncertain: probability, guard bands, decision rules."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from benchlore.quantity.model import Quantity

Decision = Literal["pass", "conditional-pass", "conditional-fail", "fail"]
Rule = Literal["simple", "ilac-g8", "iso-14253-1", "3-sigma", "6-sigma", "uncritical"]

GUARD_FACTORS: dict[Rule, float] = {
    "simple": 0.0,
    "ilac-g8": 1.0,
    "iso-14253-1": 0.825,
    "3-sigma": 1.5,
    "6-sigma": 3.0,
    "uncritical": -1.0,
}
"""Guard band in units of the expanded uncertainty U = 2u.

Simple acceptance and w = U: ILAC-G8:09/2019 (seen at second hand). ISO 14253-1:2017 takes 1.65 u for 95 % (from memory,
high confidence; often printed as 0.83 U). 3 and 6 sigma and the uncritical rule: from memory, high confidence.
"""


@dataclass(frozen=True, slots=True)
class Limits:
    """Lower and upper limit in SI units; None where open-ended; ``*_open`` when the limit itself is outside."""

    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False


def limits_of(expected: Quantity) -> Limits | None:
    """The limits that an expected value states; None for a bare value, an approximate one, rails or a state."""
    if expected.kind in {"tolerance", "range", "bound"}:
        return Limits(expected.low, expected.high, expected.low_open, expected.high_open)
    return None


def meter_spread(
    reading: float, *, percent: float, counts: float = 0.0, resolution: float = 0.0, of_range: float = 0.0
) -> float:
    """Half-width of a meter's accuracy, ±(% of reading + counts), in the reading's unit.

    Δ = |reading|·percent/100 + counts·resolution, where ``resolution`` is the step of the last digit on the range in
    use. Bench meters state ±(% of reading + % of range): give that second part as ``of_range`` in the reading's unit.
    """
    if percent < 0 or counts < 0 or resolution < 0 or of_range < 0:
        raise ValueError("an accuracy has no negative part")
    return abs(reading) * percent / 100 + counts * resolution + of_range


def standard_uncertainty(half_width: float) -> float:
    """Standard uncertainty of a half-width that says nothing more: u = Δ/√3, rectangular (JCGM 100 4.3.7)."""
    return half_width / math.sqrt(3)


def probability_of_conformity(value: float, uncertainty: float, limits: Limits) -> float:
    """Chance that the true value lies within the limits, for a normal distribution about the measured value.

    p = Φ((high - y)/u) - Φ((low - y)/u), a missing limit dropping its term (JCGM 106:2012, 7). ``uncertainty`` is the
    standard uncertainty; 0 gives 1 or 0.
    """
    if uncertainty < 0:
        raise ValueError("an uncertainty is not negative")
    if uncertainty == 0:
        return float(side_of(value, limits) is None)
    above_low = 1.0 if limits.low is None else _phi((value - limits.low) / uncertainty)
    above_high = 0.0 if limits.high is None else _phi((value - limits.high) / uncertainty)
    return max(0.0, above_low - above_high)


def guard_band(rule: Rule, expanded_uncertainty: float) -> float:
    """The guard band w of a decision rule, in the unit of the expanded uncertainty U (k = 2)."""
    return GUARD_FACTORS[rule] * expanded_uncertainty


def worst_risk(rule: Rule) -> float:
    """Largest chance that a value just accepted by the rule is outside its limit: 1 - Φ(w/u), with U = 2u.

    For the uncritical rule, whose guard band is negative, it is the chance that a value just rejected was inside.
    """
    return _phi(-2 * abs(GUARD_FACTORS[rule]))


def acceptance_limits(limits: Limits, guard: float) -> Limits:
    """The limits drawn in by a guard band (let out by a negative one)."""
    return Limits(
        None if limits.low is None else limits.low + guard,
        None if limits.high is None else limits.high - guard,
        limits.low_open,
        limits.high_open,
    )


def decide(value: float, limits: Limits, guard: float = 0.0) -> Decision:
    """The decision on a measured value (ILAC-G8:09/2019, non-binary statement).

    Pass inside the acceptance limits, conditional pass between them and the tolerance limits, conditional fail up to
    one guard band outside, fail beyond. Without a guard band only pass and fail remain.
    """
    if side_of(value, acceptance_limits(limits, guard)) is None:
        return "pass"
    if side_of(value, limits) is None:
        return "conditional-pass"
    return "conditional-fail" if guard > 0 and side_of(value, acceptance_limits(limits, -guard)) is None else "fail"


def side_of(value: float, limits: Limits) -> Literal["low", "high"] | None:
    """On which side of the limits a value lies; None when it is inside. A limit is itself inside unless it is open."""
    if limits.low is not None and (value < limits.low or (limits.low_open and value == limits.low)):
        return "low"
    if limits.high is not None and (value > limits.high or (limits.high_open and value == limits.high)):
        return "high"
    return None


def _phi(z: float) -> float:
    """Standard normal distribution function, accurate far into the tails."""
    return math.erfc(-z / math.sqrt(2)) / 2
