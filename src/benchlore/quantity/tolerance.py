"""Reads a value with a written tolerance: ``24 V ±10 %``, ``5 V ±0.25 V``, ``3.3 V +5/-10 %``, ``4k7 1 %``."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from benchlore.quantity.glued import Asked
from benchlore.quantity.model import Quantity, QuantityError, Reading
from benchlore.quantity.terms import Term, difference, number_choices, read_terms
from benchlore.quantity.units import unit_choices

_EQUAL = re.compile(r"([^±]*[^± (]) ?\(? ?± ?([^±() ][^±()]*)\)?")
_NUMBER = r"([0-9][0-9.]{0,12}|\.[0-9]{1,12})"
_UNIT = r"([A-Za-z%°][^0-9+/±-]{0,20}?)?"
_UNEQUAL = re.compile(rf"(.*[^ +/-]) ?([+-]) ?{_NUMBER} ?{_UNIT} ?/? ?([+-]) ?{_NUMBER} ?{_UNIT}")
_PERCENT_AFTER = re.compile(r"([^%]*[^ %]) ([0-9]{1,3}(?:\.[0-9]{1,3})?) ?%|([^% ]*[A-Za-z][^% ]*)([0-9]{1,3}) ?%")
_NO_NOMINAL = re.compile(rf"[+-]{_NUMBER} ?%? ?/ ?[+-]{_NUMBER} ?%?")
_PER_CENT = frozenset({"%", "%RH"})


class _Spread(NamedTuple):
    """A deviation each way, in the nominal's unit or (``relative``) as parts of the nominal."""

    plus: Decimal
    minus: Decimal
    relative: bool
    because: str = ""


def tolerance_readings(plain: str, text: str, asked: Asked) -> list[Reading]:
    """Every meaning of a normalised text as a value with a tolerance; none when it is something else.

    Raises QuantityError for a tolerance that does not fit its value.
    """
    if "±" in plain:
        match = _EQUAL.fullmatch(plain)
        return _equal(match[1], match[2], text, asked) if match else []
    if _NO_NOMINAL.fullmatch(plain):
        raise QuantityError("a tolerance needs the value it belongs to", hint="write 3.3 V +5/-10 %")
    if "+" in plain[1:] and "-" in plain[1:]:
        match = _UNEQUAL.fullmatch(plain)
        return _unequal(match, text, asked) if match and match[2] != match[5] else []
    if plain[-1] == "%" and (match := _PERCENT_AFTER.fullmatch(plain)) and match[1]:
        if not any(character.isalpha() or character == "°" for character in match[1]):
            return []  # a bare number before the per cent, as in "10 20 %"
        return _equal(match[1], match[2] + "%", text, asked)
    return []


def _equal(nominal: str, spread: str, text: str, asked: Asked) -> list[Reading]:
    readings = []
    for term in _nominals(nominal, asked):
        expected = None if term.bare and not asked.wanted else "K" if term.unit == "degC" else term.unit
        for partner in read_terms(spread, Asked(expected)):
            if partner.low is not None or partner.value < 0:
                raise _no_tolerance(spread)
            if term.bare and term.unit is None and not partner.bare and partner.unit not in _PER_CENT:
                carried = read_terms(nominal, asked, partner.scale)
                readings += [_limits(whole, _absolute(partner), text) for whole in carried]
            else:
                readings += [_limits(term, size, text) for size in _sizes(term, partner)]
    if not readings:
        raise _no_tolerance(spread)
    return readings


def _sizes(term: Term, partner: Term) -> list[_Spread]:
    relative = _Spread(partner.value / 100, partner.value / 100, True)
    if partner.unit == "%" and not partner.bare:
        if term.unit in _PER_CENT:
            points = _Spread(partner.value, partner.value, False, "the tolerance is in points of per cent")
            return [points, relative._replace(because="the tolerance is a part of the value")]
        return [relative]
    if partner.bare and not term.bare:
        size = difference(partner.value, term.scale)
        return [
            _Spread(size, size, False, "the tolerance is in the unit of the value"),
            relative._replace(because="the tolerance is in per cent"),
        ]
    if not _fits(partner.unit, term.unit):
        raise QuantityError("the tolerance and its value must be in the same unit")
    return [_absolute(partner)]


def _absolute(partner: Term) -> _Spread:
    size = partner.value
    if partner.scale.shift is not None:
        size -= difference(partner.scale.shift, partner.scale)
    return _Spread(size, size, False)


def _fits(one: str | None, other: str | None) -> bool:
    return one == other or {one, other} == {"degC", "K"}


def _unequal(match: re.Match[str], text: str, asked: Asked) -> list[Reading]:
    nominal, sign, first, first_unit, _, second, second_unit = match.groups()
    if first_unit and second_unit and first_unit.strip() != second_unit.strip():
        raise QuantityError("the two sides of a tolerance must be in the same unit")
    up, down = (_number(number) for number in ((first, second) if sign == "+" else (second, first)))
    unit_text = (second_unit or first_unit or "").strip()
    relative = _Spread(up / 100, down / 100, True)
    readings = []
    for term in _nominals(nominal, asked):
        if not unit_text:
            size = _Spread(difference(up, term.scale), difference(down, term.scale), False, "in the unit of the value")
            readings += [_limits(term, size, text), _limits(term, relative._replace(because="in per cent"), text)]
            continue
        for scale in (choice.scale for choice in unit_choices(unit_text)):
            size = _Spread(difference(up, scale), difference(down, scale), False)
            if scale.unit == "%":
                readings.append(_limits(term, relative, text))
            elif term.bare and not asked.wanted:
                readings += [_limits(whole, size, text) for whole in read_terms(nominal, asked, scale)]
            elif _fits(scale.unit, term.unit):
                readings.append(_limits(term, size, text))
    if not readings:
        raise QuantityError("the tolerance and its value must be in the same unit")
    return readings


def _no_tolerance(spread: str) -> QuantityError:
    return QuantityError(f"“{spread[:40]}” is not a tolerance", hint="write ±10 % or ±0.25 V after the value")


def _number(plain: str) -> Decimal:
    numbers = number_choices(plain)
    if not numbers:
        raise QuantityError(f"“{plain[:30]}” is not a number")
    return numbers[0][0]


def _nominals(plain: str, asked: Asked) -> list[Term]:
    terms = read_terms(plain, asked)
    if not terms:
        raise QuantityError(f"“{plain[:60]}” is not a value that a tolerance could belong to")
    unmarked = [term for term in terms if term.low is None]
    if not unmarked:
        raise QuantityError("there is a tolerance letter and a written tolerance", hint="keep one of the two")
    return unmarked


def _limits(term: Term, spread: _Spread, text: str) -> Reading:
    scale = abs(term.value) if spread.relative else Decimal(1)
    low, high = float(term.value - spread.minus * scale), float(term.value + spread.plus * scale)
    because = "; ".join(why for why in (term.because, spread.because) if why)
    value = float(term.value) + 0.0
    return Reading(
        Quantity(text, "tolerance", term.unit, value, low + 0.0, high + 0.0, qualifier=term.qualifier), because
    )
