"""Reads the expressions made of more than one value: bounds, approximations, rails, ranges, swings, durations."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from benchlore.quantity.glued import Asked
from benchlore.quantity.model import Quantity, QuantityError, Reading
from benchlore.quantity.terms import Term, read_terms
from benchlore.quantity.tolerance import tolerance_readings
from benchlore.quantity.units import qualifier

_SIMPLE = re.compile(r"[+-]?[0-9]+(?:\.[0-9]*)? ?[A-Za-z%°]{0,8}")
_BELOW = {"<": True, "under": True, "below": True, "less than": True, "≤": False, "at most": False, "up to": False,
          "not more than": False, "no more than": False, "max": False, "maximum": False}  # fmt: skip
_ABOVE = {">": True, "over": True, "above": True, "more than": True, "greater than": True, "≥": False,
          "at least": False, "not less than": False, "no less than": False, "min": False, "minimum": False}  # fmt: skip
"""Words of a bound, and whether the limit itself is left out."""
_BOUND = re.compile(f"({'|'.join(sorted((*_BELOW, *_ABOVE), key=len, reverse=True))})\\.? ?(.+)", re.IGNORECASE)
_BOUND_AFTER = re.compile(r"(.+[^0-9 ]) (max|maximum|min|minimum)\.?", re.IGNORECASE)
_APPROX = re.compile(r"(?:~|(?:ca\.?|circa|approx\.?|approximately|about|around|roughly) )(.+)", re.IGNORECASE)
_SWINGS = re.compile(
    r"(?:swings?|swinging|pulsing|pulses|fluctuat(?:es|ing)|hunt(?:s|ing)|(drift(?:s|ing))|var(?:ies|ying))"
    r"(?: from| between)? (.+)",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"(?:between|from) (.+)", re.IGNORECASE)
_RANGE = re.compile(r"(.*?[^ .–-]) ?(?:\.{2,3}|–| to |(?<![0-9][eE])-(?= ?[+-]?[.0-9])) ?(.+)")
_ENDS_WITH_AND = re.compile(r"(.*?[^ .–-]) ?(?:\.{2,3}|–| to | and |(?<![0-9][eE])-(?= ?[+-]?[.0-9])) ?(.+)")
_DURATION = re.compile(
    r"(?:([0-9]{1,4}) ?(?:h|hr|hrs|hours?))?"
    r" ?(?:([0-9]{1,4}) ?(?:m|min|mins|minutes?))?"
    r" ?(?:([0-9]{1,4}) ?(?:s|sec|seconds?))?"
)
_HOURS_MINUTES = re.compile(r"([0-9]{1,3})h([0-9]{2})()")
_QUALIFIER_FIRST = re.compile(r"(a\.?c\.?|d\.?c\.?) (.+)", re.IGNORECASE)


def compound_readings(plain: str, text: str, asked: Asked) -> Iterable[Reading]:
    """Every meaning of a normalised text as a compound expression; none when it is a single value.

    Raises QuantityError for a compound expression whose parts do not fit together.
    """
    if _SIMPLE.fullmatch(plain):
        return ()
    first = plain[0]
    if first == "±":
        return _dual(plain[1:].strip(), text, asked)
    if first in "<>≤≥~" or first.isalpha():
        return _worded(plain, text, asked)
    if found := tolerance_readings(plain, text, asked):
        return found
    if (match := _RANGE.fullmatch(plain)) and (found := list(_range(match, text, asked))):
        return found
    if match := _BOUND_AFTER.fullmatch(plain):
        return _bound(match[2], match[1], text, asked)
    return _duration(plain, text)


def _worded(plain: str, text: str, asked: Asked) -> Iterable[Reading]:
    if match := _BOUND.fullmatch(plain):
        return _bound(match[1], match[2], text, asked)
    if match := _APPROX.fullmatch(plain):
        return _approx(match[1], text, asked)
    if match := _SWINGS.fullmatch(plain):
        return _swings(match[2], "drifting" if match[1] else "swings", text, asked)
    if match := _BETWEEN.fullmatch(plain):
        ends = _ENDS_WITH_AND.fullmatch(match[1])
        return _range(ends, text, asked) if ends else ()
    if match := _QUALIFIER_FIRST.fullmatch(plain):
        return _qualified(match[1], match[2], text, asked)
    if found := tolerance_readings(plain, text, asked):
        return found
    if (match := _RANGE.fullmatch(plain)) and (found := list(_range(match, text, asked))):
        return found
    return ()


def _single(plain: str, asked: Asked, what: str) -> list[Term]:
    terms = read_terms(plain, asked)
    if not terms:
        raise QuantityError(f"{what} takes one value, and “{plain[:60]}” is not one")
    plain_terms = [term for term in terms if term.low is None]
    if not plain_terms:
        raise QuantityError(f"{what} cannot carry a tolerance letter", hint="write the limits as a range: 9..23 V")
    return plain_terms


def _bound(word: str, rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    word = word.lower()
    for term in _single(rest, asked, "a bound"):
        value = float(term.value)
        if word in _BELOW:
            quantity = Quantity(text, "bound", term.unit, high=value, high_open=_BELOW[word], qualifier=term.qualifier)
        else:
            quantity = Quantity(text, "bound", term.unit, low=value, low_open=_ABOVE[word], qualifier=term.qualifier)
        yield Reading(quantity, term.because)


def _approx(rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    for term in _single(rest, asked, "an approximate value"):
        yield Reading(Quantity(text, "approx", term.unit, float(term.value), qualifier=term.qualifier), term.because)


def _dual(rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    if not rest:
        raise QuantityError("there is no number after ±", hint="write ±15 V for two rails, or 24 V ±10 %")
    if "±" in rest:
        raise QuantityError(
            "two rails cannot carry a tolerance in one place", hint="write each rail by itself: 15 V ±5 %, -15 V ±5 %"
        )
    for term in _single(rest, asked, "a pair of rails"):
        if term.value < 0:
            raise QuantityError("there is a second sign after ±", hint="a pair of rails is written ±15 V")
        if term.unit == "%":
            raise QuantityError("a tolerance needs the value it belongs to", hint="write 24 V ±10 %")
        value = float(term.value)
        yield Reading(
            Quantity(text, "dual", term.unit, value, 0.0 - value, value, qualifier=term.qualifier), term.because
        )


def _qualified(word: str, rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    found = qualifier(word)
    for term in _single(rest, asked, f"“{word}”"):
        if term.qualifier in {None, found} and term.unit in {"V", "A", "W"}:
            yield Reading(Quantity(text, "value", term.unit, float(term.value), qualifier=found), term.because)


def _swings(rest: str, state: str, text: str, asked: Asked) -> Iterator[Reading]:
    match = _ENDS_WITH_AND.fullmatch(rest)
    for reading in _range(match, text, asked) if match else ():
        q = reading.quantity
        swing = Quantity(text, "state", q.unit, None, q.low, q.high, qualifier=q.qualifier, state=state)
        yield Reading(swing, reading.because)


def _range(match: re.Match[str], text: str, asked: Asked) -> Iterator[Reading]:
    first, second = match.groups()
    for low, high in _pairs(first, second, asked):
        if low.unit != high.unit:
            raise QuantityError("the two ends of a range must be in the same unit")
        if low.low is not None or high.low is not None:
            raise QuantityError("the end of a range cannot carry a tolerance letter")
        ends = sorted((float(low.value) + 0.0, float(high.value) + 0.0))
        because = "; ".join(dict.fromkeys(why for why in (low.because, high.because) if why))
        qualified = high.qualifier or low.qualifier
        yield Reading(Quantity(text, "range", high.unit, None, ends[0], ends[1], qualifier=qualified), because)


def _pairs(first: str, second: str, asked: Asked) -> Iterator[tuple[Term, Term]]:
    """The ends of a range; an end without a unit takes the unit and prefix of the other (10-22 kΩ, 9 V..23)."""
    try:
        highs = read_terms(second, asked)
    except QuantityError:
        return
    if highs and highs[0].bare:
        for low in read_terms(first, asked):
            for high in read_terms(second, asked, low.scale):
                yield low, high
        return
    for high in highs:
        low_asked = asked if asked.wanted else Asked(high.unit)
        for low in read_terms(first, low_asked, high.scale):
            yield low, high


def _duration(plain: str, text: str) -> Iterator[Reading]:
    """Hours, minutes and seconds in a row: ``1 h 30 min``, ``1h30``, ``2 min 30 s``."""
    match = _HOURS_MINUTES.fullmatch(plain) or _DURATION.fullmatch(plain)
    if match and sum(group is not None for group in match.groups()) > 1:
        hours, minutes, seconds = (int(group or 0) for group in match.groups())
        yield Reading(Quantity(text, "value", "s", float(hours * 3600 + minutes * 60 + seconds)), "")
