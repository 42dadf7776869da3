"""Judges a reading against what was expected: within, outside, or not to be told."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from benchlore.answer.conformity import Limits, limits_of, probability_of_conformity, side_of, standard_uncertainty
from benchlore.quantity.format import format_quantity, format_value
from benchlore.quantity.model import Quantity

Word = Literal["within", "outside", "cannot-tell"]
Side = Literal["low", "high"]

_ENDLESS = frozenset({"open", "over-range"})
_NOTHING_UNITS = frozenset({"V", "A", "Hz", "W", "rpm", "l/min"})


@dataclass(frozen=True, slots=True)
class Verdict:
    """A judged reading.

    ``side`` says where it is outside (None when it goes out both ways, or when that has no meaning); ``text`` says it
    in words with the figures; ``probability`` is the chance that the true value is within, where the meter's
    uncertainty was given.
    """

    word: Word
    side: Side | None
    text: str
    probability: float | None = None


def verdict(
    expected: Quantity, reading: Quantity, *, uncertainty: float = 0.0, full_scale: float | None = None
) -> Verdict:
    """The verdict on ``reading`` by the limits that ``expected`` states.

    ``uncertainty`` is the half-width of the meter's accuracy in SI units (0 when not known): a reading nearer to a
    limit than that is not to be told. ``full_scale`` is the most the meter could have shown, in SI units; without it
    an over-range reading is above any upper limit, but cannot prove a lower one. A value without tolerance, and an
    approximate one, never condemn a reading. A reading that swings is outside when either end is.
    """
    why_not = _not_comparable(expected, reading)
    if why_not:
        return Verdict("cannot-tell", None, why_not)
    if expected.kind in {"state", "overload"}:
        return _by_state(expected, reading)
    limits = limits_of(expected)
    if limits is None:
        return Verdict("cannot-tell", None, f"{format_quantity(expected)} states no tolerance")
    if reading.kind == "overload" or (reading.kind == "state" and reading.low is None):
        return _stateful(expected, limits, reading, full_scale)
    if reading.kind in {"range", "state"}:
        return _swung(expected, limits, reading, uncertainty)
    if reading.kind in {"value", "approx"} and reading.value is not None:
        return _single(expected, limits, reading, reading.value, uncertainty)
    return _spread(expected, limits, reading)


def _not_comparable(expected: Quantity, reading: Quantity) -> str:
    if expected.kind == "dual" or reading.kind == "dual":
        return "two rails in one place cannot be judged"
    has_no_number = reading.kind in {"state", "overload"} and reading.low is None
    if expected.kind not in {"state", "overload"} and not has_no_number and expected.unit != reading.unit:
        return f"{format_quantity(reading)} cannot be held against {format_quantity(expected)}: the units differ"
    kinds = {"rms" if qualifier == "ac" else qualifier for qualifier in (expected.qualifier, reading.qualifier)}
    if None not in kinds and len(kinds) > 1:
        return f"{format_quantity(reading)} cannot be held against {format_quantity(expected)}: not the same kind"
    return ""


def _by_state(expected: Quantity, reading: Quantity) -> Verdict:
    wanted, found = expected.state, reading.state
    told = f"{format_quantity(reading)} where {format_quantity(expected)} was expected"
    if wanted in _ENDLESS:
        if found in _ENDLESS:
            return Verdict("within", None, f"{format_quantity(reading)}, as expected")
        if found == "short" or (found is None and _is_finite(reading)):
            return Verdict("outside", "low", told)
    elif wanted == found:
        return Verdict("within", None, f"{format_quantity(reading)}, as expected")
    elif wanted == "short" and found in _ENDLESS:
        return Verdict("outside", "high", told)
    return Verdict("cannot-tell", None, told)


def _is_finite(reading: Quantity) -> bool:
    return reading.value is not None or reading.high is not None


def _stateful(expected: Quantity, limits: Limits, reading: Quantity, full_scale: float | None) -> Verdict:
    told = f"{format_quantity(reading)} where {format_quantity(expected)} was expected"
    state = reading.state
    if state == "over-range":
        return _over_range(expected, limits, told, full_scale)
    if expected.unit in {"F", "H"} and state in {"open", "short"}:
        return Verdict("outside", "low" if expected.unit == "F" and state == "open" else None, told)
    if state == "open" and expected.unit == "ohm":
        return _at(math.inf, limits, told)
    if (state == "short" and expected.unit in {"ohm", "V"}) or (
        state in {"no-pulses", "no-reading"} and expected.unit in _NOTHING_UNITS
    ):
        return _at(0.0, limits, told)
    return Verdict("cannot-tell", None, told)


def _over_range(expected: Quantity, limits: Limits, told: str, full_scale: float | None) -> Verdict:
    if limits.high is not None and (full_scale is None or full_scale >= limits.high):
        return Verdict("outside", "high", told)
    if limits.high is None and limits.low is not None and full_scale is not None and full_scale >= limits.low:
        return Verdict("within", None, f"{told}: more than {format_value(full_scale, expected.unit)}")
    return Verdict("cannot-tell", None, f"{told}: what the meter can show is not known to reach that far")


def _at(value: float, limits: Limits, told: str) -> Verdict:
    side = side_of(value, limits)
    return Verdict("outside", side, told) if side else Verdict("within", None, told)


def _swung(expected: Quantity, limits: Limits, reading: Quantity, uncertainty: float) -> Verdict:
    told = f"{format_quantity(reading)} against {_limits_text(expected)}"
    ends = [end for end in (reading.low, reading.high) if end is not None]
    outside = {side for end in ends if (side := _sure_side(end, uncertainty, limits))}
    if outside:
        return Verdict("outside", outside.pop() if len(outside) == 1 else None, told)
    if any(_may_be_outside(end, uncertainty, limits) for end in ends):
        return Verdict("cannot-tell", None, f"{told}: nearer to the limit than the meter can tell")
    return Verdict("within", None, told)


def _sure_side(value: float, uncertainty: float, limits: Limits) -> Side | None:
    lowest, highest = side_of(value - uncertainty, limits), side_of(value + uncertainty, limits)
    return lowest if lowest == highest else None


def _may_be_outside(value: float, uncertainty: float, limits: Limits) -> bool:
    return any(side_of(value + shift, limits) for shift in (-uncertainty, uncertainty))


def _single(expected: Quantity, limits: Limits, reading: Quantity, value: float, uncertainty: float) -> Verdict:
    probability = None
    if uncertainty > 0:
        probability = probability_of_conformity(value, standard_uncertainty(uncertainty), limits)
    told = f"{format_quantity(reading)} against {_limits_text(expected)}"
    side = _sure_side(value, uncertainty, limits)
    if side is None and not _may_be_outside(value, uncertainty, limits):
        return Verdict("within", None, told, probability)
    if side is None:
        near = f"nearer to the limit than the meter can tell (±{format_value(uncertainty, expected.unit, 2)})"
        return Verdict("cannot-tell", None, f"{told}: {near}", probability)
    if reading.kind == "approx":
        return Verdict("cannot-tell", None, f"{told}: the reading is only approximate", probability)
    limit = (limits.low if side == "low" else limits.high) or 0.0
    by = f"{'below' if side == 'low' else 'above'} {format_value(limit, expected.unit, 4)}"
    if value == limit:
        by = f"not {'above' if side == 'low' else 'below'} {format_value(limit, expected.unit, 4)}"
    return Verdict("outside", side, f"{format_quantity(reading)} is {by}", probability)


def _spread(expected: Quantity, limits: Limits, reading: Quantity) -> Verdict:
    """A reading that is itself an interval: a bound, or a value with its own tolerance."""
    told = f"{format_quantity(reading)} against {_limits_text(expected)}"
    low = -math.inf if reading.low is None else reading.low
    high = math.inf if reading.high is None else reading.high
    if limits.high is not None and (low, limits.high_open or reading.low_open) > (limits.high, False):
        return Verdict("outside", "high", told)
    if limits.low is not None and (-high, limits.low_open or reading.high_open) > (-limits.low, False):
        return Verdict("outside", "low", told)
    never_low = limits.low is None or (low, reading.low_open) >= (limits.low, limits.low_open)
    never_high = limits.high is None or (-high, reading.high_open) >= (-limits.high, limits.high_open)
    return Verdict("within" if never_low and never_high else "cannot-tell", None, told)


def _limits_text(expected: Quantity) -> str:
    written = format_quantity(expected)
    if expected.kind != "tolerance" or expected.low is None or expected.high is None:
        return written
    low, high = (format_value(limit, expected.unit, 4) for limit in (expected.low, expected.high))
    return f"{written} ({low} to {high})"
