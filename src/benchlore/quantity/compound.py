"""Reads the expressions made of more than one value: bounds, approximations, rails, ranges, tolerances, durations."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal

from benchlore.quantity.model import Quantity, QuantityError, Reading
from benchlore.quantity.terms import Asked, Term, difference, number_choices, read_terms
from benchlore.quantity.units import Scale, qualifier

_BOUND = re.compile(
    r"(<|>|≤|≥|over|above|more than|greater than|under|below|less than|at least|not less than|no less than|min\.?|minimum"
    r"|at most|not more than|no more than|up to|max\.?|maximum) ?(.+)",
    re.IGNORECASE,
)
_BOUND_AFTER = re.compile(r"(.+?[^0-9 ]) (max\.?|maximum|min\.?|minimum)", re.IGNORECASE)
_APPROX = re.compile(r"(?:~|(?:ca\.?|circa|approx\.?|approximately|about|around|roughly) )(.+)", re.IGNORECASE)
_BELOW = {"<": True, "under": True, "below": True, "less than": True, "≤": False, "at most": False, "up to": False,
          "not more than": False, "no more than": False, "max": False, "maximum": False}  # fmt: skip
_ABOVE = {">": True, "over": True, "above": True, "more than": True, "greater than": True, "≥": False, "at least": False,
          "not less than": False, "no less than": False, "min": False, "minimum": False}  # fmt: skip
_SWINGS = re.compile(
    r"(?:swings?|swinging|pulsing|pulses|fluctuat(?:es|ing)|hunt(?:s|ing)|(drift(?:s|ing))|var(?:ies|ying))"
    r"(?: from| between)? (.+)",
    re.IGNORECASE,
)
_RANGE = re.compile(r"(.*?[^ .–-]) ?(?:\.{2,3}|–| to | and |-(?=[+-]?[.0-9]))[ ]?(.+)")
_TOLERANCE = re.compile(r"([^±]+?) ?± ?([^±]+)")
_PERCENT_AFTER = re.compile(r"(.+?[^ ]) ([0-9]{1,3}(?:\.[0-9]{1,3})?) ?%|([0-9.]*[RkKMpnu][0-9]*) ?([0-9]{1,3}(?:\.[0-9]{1,3})?) ?%")
_UNEQUAL = re.compile(
    r"(.*?[^ ]) ?([+-]) ?([0-9.]{1,9}) ?([^ 0-9+/-][^0-9+/]*?)? ?/? ?([+-]) ?([0-9.]{1,9}) ?([^ 0-9+/-].*)?"
)
_DURATION = re.compile(r"(?:([0-9]{1,4}) ?(?:h|hr|hrs|hours?))? ?(?:([0-9]{1,4}) ?(?:m|min|mins|minutes?))? ?(?:([0-9]{1,4}) ?(?:s|sec|seconds?))?")
_HOURS_MINUTES = re.compile(r"([0-9]{1,3})h([0-9]{2})")
_QUALIFIER_FIRST = re.compile(r"(a\.?c\.?|d\.?c\.?) (.+)", re.IGNORECASE)


def compound_readings(plain: str, text: str, asked: Asked) -> Iterator[Reading]:
    """Every meaning of a normalised text as a compound expression; nothing when it is not one. Raises QuantityError."""
    first = plain[0]
    if first == "±":
        return _dual(plain[1:].strip(), text, asked)
    if first in "<>≤≥~" or first.isalpha():
        if match := _BOUND.fullmatch(plain):
            return _bound(match[1], match[2], text, asked)
        if match := _APPROX.fullmatch(plain):
            return _approx(match[1], text, asked)
        if match := _SWINGS.fullmatch(plain):
            return _swings(match[2], "drifting" if match[1] else "swings", text, asked)
        if match := _QUALIFIER_FIRST.fullmatch(plain):
            return _qualified(match[1], match[2], text, asked)
    if "±" in plain:
        match = _TOLERANCE.fullmatch(plain)
        return _tolerance(match[1], match[2], text, asked) if match else iter(())
    if plain[-1] == "%" or "+" in plain[1:] or "/-" in plain:
        if (match := _UNEQUAL.fullmatch(plain)) and match[2] != match[5]:
            return _unequal(match, text, asked)
        if match := _PERCENT_AFTER.fullmatch(plain):
            nominal, percent = (match[1], match[2]) if match[1] else (match[3], match[4])
            return _tolerance(nominal, percent + "%", text, asked)
    if ".." in plain or "…" in plain or "–" in plain[1:] or "-" in plain[1:] or " to " in plain or " and " in plain:
        if match := _RANGE.fullmatch(plain):
            found = list(_range(match[1], match[2], text, asked))
            if found:
                return iter(found)
    if match := _BOUND_AFTER.fullmatch(plain):
        return _bound(match[2], match[1], text, asked)
    if plain[-1] in "smicnehrut5678901234" and "h" in plain or "m" in plain:
        return _duration(plain, text)
    return iter(())


def _terms(plain: str, asked: Asked) -> list[Term]:
    terms = read_terms(plain, asked)
    if not terms:
        raise QuantityError(f"“{plain[:60]}” is not a number with a unit")
    return terms


def _plain_terms(plain: str, asked: Asked, what: str) -> list[Term]:
    terms = _terms(plain, asked)
    if any(term.low is not None for term in terms):
        terms = [term for term in terms if term.low is None]
        if not terms:
            raise QuantityError(f"{what} cannot carry a tolerance letter", hint="write the limits as a range")
    return terms


def _bound(word: str, rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    word = word.lower().rstrip(".")
    for term in _plain_terms(rest, asked, "a bound"):
        value = float(term.value)
        if word in _BELOW:
            quantity = Quantity(text, "bound", term.unit, high=value, high_open=_BELOW[word], qualifier=term.qualifier)
        else:
            quantity = Quantity(text, "bound", term.unit, low=value, low_open=_ABOVE[word], qualifier=term.qualifier)
        yield Reading(quantity, term.because)


def _approx(rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    for term in _plain_terms(rest, asked, "an approximate value"):
        yield Reading(Quantity(text, "approx", term.unit, float(term.value), qualifier=term.qualifier), term.because)


def _dual(rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    for term in _plain_terms(rest, asked, "a pair of rails"):
        if term.value < 0:
            raise QuantityError("a pair of rails is written ±15 V, without a further sign")
        if term.unit == "%":
            raise QuantityError("a tolerance needs the value it belongs to", hint="write 24 V ±10 %")
        value = float(term.value)
        yield Reading(Quantity(text, "dual", term.unit, value, -value, value, qualifier=term.qualifier), term.because)


def _qualified(word: str, rest: str, text: str, asked: Asked) -> Iterator[Reading]:
    found = qualifier(word)
    for term in _terms(rest, asked):
        if term.qualifier in {None, found} and term.unit in {"V", "A", "W"}:
            yield Reading(Quantity(text, "value", term.unit, float(term.value), qualifier=found), term.because)


def _swings(rest: str, state: str, text: str, asked: Asked) -> Iterator[Reading]:
    match = _RANGE.fullmatch(rest)
    if match:
        for reading in _range(match[1], match[2], text, asked):
            q = reading.quantity
            yield Reading(Quantity(text, "state", q.unit, None, q.low, q.high, qualifier=q.qualifier, state=state), reading.because)


def _range(first: str, second: str, text: str, asked: Asked) -> Iterator[Reading]:
    try:
        highs = read_terms(second, asked)
    except QuantityError:
        return
    for high in highs:
        if high.low is not None:
            raise QuantityError("a limit of a range cannot carry a tolerance letter")
        if high.bare and (lows := _with_own_unit(first, asked)):
            pairs = [(low, partner) for low in lows for partner in read_terms(second, asked, lambda low=low: low.scale)]
        else:
            asked_low = asked if asked.wanted else Asked(high.unit)
            pairs = [(low, high) for low in read_terms(first, asked_low, lambda: high.scale)]
        for low, high_term in pairs:
            if low.unit != high_term.unit:
                raise QuantityError("the two ends of a range must be in the same unit")
            limits = sorted((float(low.value), float(high_term.value)))
            found = low.qualifier or high_term.qualifier
            because = "; ".join(dict.fromkeys(why for why in (low.because, high_term.because) if why))
            yield Reading(Quantity(text, "range", high_term.unit, None, *limits, qualifier=found), because)


def _with_own_unit(plain: str, asked: Asked) -> list[Term]:
    return [term for term in read_terms(plain, asked) if not term.bare]


def _tolerance(nominal: str, spread: str, text: str, asked: Asked) -> Iterator[Reading]:
    if spread.endswith("%") and spread[:-1].strip():
        for number, because in _numbers(spread[:-1].strip()):
            for term in _plain_terms(nominal, asked, "a value with a written tolerance"):
                yield _limits(term, -number * abs(term.value) / 100, number * abs(term.value) / 100, text, because)
        return
    for term in _plain_terms(nominal, asked, "a value with a written tolerance"):
        yield from _absolute(nominal, term, spread, text, asked)


def _absolute(nominal: str, term: Term, spread: str, text: str, asked: Asked) -> Iterator[Reading]:
    for partner in _terms(spread, Asked(term.unit) if not term.bare or asked.wanted else asked):
        nominal_term = term
        if partner.bare:
            if not term.bare:
                number = partner.value
                percent = number * abs(term.value) / 100
                size = difference(number, term.scale)
                yield _limits(term, -size, size, text, "the tolerance is in the unit of the value")
                yield _limits(term, -percent, percent, text, "the tolerance is in per cent")
                continue
        elif term.bare and term.unit is None:
            nominal_term = read_terms(nominal, asked, lambda partner=partner: partner.scale)[0]
        size = partner.value if partner.scale.shift is None else partner.value - difference(-partner.scale.shift, partner.scale)
        if not _same_difference(partner.unit, nominal_term.unit):
            raise QuantityError("the tolerance and its value must be in the same unit")
        yield _limits(nominal_term, -abs(size), abs(size), text, term.because)


def _same_difference(one: str | None, other: str | None) -> bool:
    return one == other or {one, other} == {"degC", "K"}


def _unequal(match: re.Match[str], text: str, asked: Asked) -> Iterator[Reading]:
    nominal, sign, first, first_unit, _, second, second_unit = match.groups()
    unit_text = (second_unit or first_unit or "").strip()
    if first_unit and second_unit and first_unit.strip() != second_unit.strip():
        raise QuantityError("the two sides of a tolerance must be in the same unit")
    up, down = (first, second) if sign == "+" else (second, first)
    (plus, _), (minus, _) = _numbers(up)[0], _numbers(down)[0]
    for term in _plain_terms(nominal, asked, "a value with a written tolerance"):
        if unit_text == "%":
            yield _limits(term, -minus * abs(term.value) / 100, plus * abs(term.value) / 100, text)
        elif unit_text:
            spread = _terms(f"1 {unit_text}", Asked(term.unit))[0].scale
            if not _same_difference(spread.unit, term.unit):
                raise QuantityError("the tolerance and its value must be in the same unit")
            yield _limits(term, -difference(minus, spread), difference(plus, spread), text)
        else:
            yield _limits(term, -difference(minus, term.scale), difference(plus, term.scale), text, "in the unit of the value")
            yield _limits(term, -minus * abs(term.value) / 100, plus * abs(term.value) / 100, text, "in per cent")


def _numbers(plain: str) -> list[tuple[Decimal, str]]:
    numbers = number_choices(plain)
    if not numbers:
        raise QuantityError(f"“{plain[:30]}” is not a number")
    return numbers


def _limits(term: Term, low: Decimal, high: Decimal, text: str, because: str = "") -> Reading:
    because = "; ".join(why for why in (term.because, because) if why)
    quantity = Quantity(
        text,
        "tolerance",
        term.unit,
        float(term.value),
        float(term.value + low),
        float(term.value + high),
        qualifier=term.qualifier,
    )
    return Reading(quantity, because)


def _duration(plain: str, text: str) -> Iterator[Reading]:
    match = _HOURS_MINUTES.fullmatch(plain)
    if match:
        yield Reading(Quantity(text, "value", "s", int(match[1]) * 3600.0 + int(match[2]) * 60.0), "")
        return
    match = _DURATION.fullmatch(plain)
    if match and sum(group is not None for group in match.groups()) > 1:
        hours, minutes, seconds = (int(group or 0) for group in match.groups())
        yield Reading(Quantity(text, "value", "s", float(Decimal(hours * 3600 + minutes * 60 + seconds))), "")


_ = Scale
