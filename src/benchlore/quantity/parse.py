"""Reads a quantity as technicians write it: values, tolerances, ranges, bounds, rails, marking codes and states.

    expr    = state | bound | approx | dual | range | tolerance | value
    bound   = ("<" | ">" | "≤" | "≥" | "over" | "at least" ...) value  |  value ("max" | "min")
    approx  = ("~" | "≈" | "ca." | "about") value
    dual    = "±" value                                   two rails: there is no nominal before the sign
    range   = value? (".." | "…" | "-" | "–" | "to") value
    tol     = value ("±" (number "%" | value) | number "%" | "+" n "/-" n)
    value   = sign? number prefix? unit? qualifier?       or a letter-digit code: 4k7, R22, 2u2, 12V6

What cannot be read without guessing is an error that carries the readings it could have had.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import lru_cache

from benchlore.quantity.compound import compound_readings
from benchlore.quantity.glued import COMPONENT_UNITS, Asked
from benchlore.quantity.model import Quantity, QuantityError, Reading
from benchlore.quantity.normalise import normalise
from benchlore.quantity.states import state_of
from benchlore.quantity.terms import Term, read_terms
from benchlore.quantity.units import canonical_unit

LONGEST = 200
"""A longer text is refused unread."""


def parse(text: str, *, unit: str | None = None, component: str | None = None) -> Quantity:
    """The quantity that ``text`` states, in SI units.

    ``unit`` is the unit expected: it completes a bare number or prefix (``100``, ``10k``) and settles doubts, but never
    overrules a unit that is written. ``component`` (``resistor``, ``capacitor`` or ``inductor``) settles marking
    letters. Raises :class:`QuantityError`, with ``readings`` when the text has more than one meaning; ValueError when
    ``unit`` or ``component`` is itself unknown.
    """
    return _parse(text, unit, component)


@lru_cache(maxsize=8192)
def _parse(text: str, unit: str | None, component: str | None) -> Quantity:
    readings = readings_of(text, unit=unit, component=component)
    if len(readings) == 1:
        return readings[0].quantity
    from benchlore.quantity.format import format_quantity

    shown = [format_quantity(reading.quantity) for reading in readings]
    raise QuantityError(
        f"“{text.strip()}” can be read in {len(readings)} ways: {' or '.join(shown)}",
        hint=f"write the one you mean, for example {shown[0]}",
        readings=readings,
    )


def readings_of(text: str, *, unit: str | None = None, component: str | None = None) -> tuple[Reading, ...]:
    """Every meaning of the text, likeliest first; exactly one when it is clear.

    Raises QuantityError when there is none.
    """
    asked = _asked(unit, component)
    if len(text) > LONGEST:
        raise QuantityError(f"a quantity of {len(text)} characters is not read; {LONGEST} is the most")
    plain = normalise(text)
    if not plain:
        raise QuantityError("there is no quantity here", hint="write a number and a unit, such as 24 V ±10 %")
    state = state_of(plain, text, asked)
    if state is not None:
        return (Reading(state, ""),)
    readings = list(_unique(compound_readings(plain, text, asked)))
    if not readings:
        readings = list(_unique(_value(term, text) for term in read_terms(plain, asked)))
    if not readings:
        raise QuantityError(
            f"“{text.strip()[:60]}” is not a quantity",
            hint="write a number with its unit (4.7 kΩ, 4k7, 24 V ±10 %, 9..23 V, over 1 MΩ) or a state (OL, open)",
        )
    return tuple(readings) if len(readings) > 1 else (Reading(readings[0].quantity, ""),)


@lru_cache(maxsize=64)
def _asked(unit: str | None, component: str | None) -> Asked:
    if component is not None and component not in COMPONENT_UNITS:
        raise ValueError(f"component must be one of {', '.join(COMPONENT_UNITS)}, not {component!r}")
    if unit is None:
        return Asked(None, component)
    known = canonical_unit(unit)
    if known is None:
        raise ValueError(f"{unit!r} is not a unit known here")
    return Asked(known, component)


def _value(term: Term, text: str) -> Reading:
    if term.low is not None and term.high is not None:
        low, high = sorted((float(term.low), float(term.high)))
        quantity = Quantity(text, "tolerance", term.unit, _float(term.value), low, high, qualifier=term.qualifier)
    else:
        quantity = Quantity(text, "value", term.unit, _float(term.value), qualifier=term.qualifier)
    return Reading(quantity, term.because)


def _float(value: Decimal) -> float:
    return float(value) + 0.0  # no negative zero


def _unique(readings: Iterable[Reading]) -> Iterator[Reading]:
    seen = set()
    for reading in readings:
        if reading.quantity not in seen:
            seen.add(reading.quantity)
            yield reading
