"""What a value text or a marking means: every reading of it, and what can be said of the value it states."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.quantity.colours import ColourReading, band_names, bands_for, read_bands
from benchlore.quantity.format import format_quantity, format_value
from benchlore.quantity.markings import date_code, dielectric_code, marking_readings
from benchlore.quantity.model import Quantity, QuantityError, Reading
from benchlore.quantity.parse import readings_of
from benchlore.quantity.preferred import coarsest_series, is_preferred, nearest

_AMBIGUOUS = "say which component it is printed on, or which unit it is in"
_PREFERRED_UNITS = frozenset({"ohm", "F", "H"})


@dataclass(frozen=True, slots=True)
class Meaning:
    """The meaning of a text.

    ``kind`` is the quantity's kind, or ``ambiguous`` or ``error``; ``quantity`` is what it states when that is clear;
    ``readings`` are all it could state, likeliest first; ``dates`` the (year, month) it could be as a date code;
    ``message`` and ``hint`` are for people when it is not clear.
    """

    kind: str
    quantity: Quantity | None
    readings: tuple[Reading, ...]
    dates: tuple[tuple[int, int], ...] = ()
    message: str = ""
    hint: str = ""


def meaning_of(text: str, *, unit: str | None = None, component: str | None = None) -> Meaning:
    """Reads a value text, a letter-digit code, a number code or a row of colour bands.

    ``unit`` and ``component`` as for :func:`benchlore.quantity.parse.parse`. Letter-digit codes win where a chip code
    would fit too; a bare number is ambiguous when it could be a code. Raises ValueError for an unknown unit or
    component.
    """
    if band_names(text) is not None and len(text.split()) > 1:
        return _bands(text)
    error = None
    try:
        written = readings_of(text, unit=unit, component=component)
    except QuantityError as found:
        written, error = (), found
    marked = marking_readings(text, component) if unit is None and component != "inductor" else ()
    dates = date_code(text) if unit is None and component is None else ()
    others = tuple(reading for reading in (*marked, *_dielectric(text)) if not _has(written, reading))
    readings = (*written, *others)
    is_bare = len(written) == 1 and written[0].quantity.unit is None and written[0].quantity.kind == "value"
    if len(written) == 1 and not (is_bare and others):
        return Meaning(written[0].quantity.kind, written[0].quantity, readings, dates)
    if len(readings) == 1 and not written:
        return Meaning(readings[0].quantity.kind, readings[0].quantity, readings, dates)
    if readings:
        if is_bare:
            readings = (*others, Reading(written[0].quantity, "a bare number"))
        message = f"“{text.strip()}” can be read in {len(readings)} ways"
        hint = _AMBIGUOUS if others else f"write the one you mean, for example {format_quantity(readings[0].quantity)}"
        return Meaning("ambiguous", None, readings, dates, message, hint)
    if dates:
        return Meaning("ambiguous", None, (), dates, f"“{text.strip()}” may be a date code")
    assert error is not None
    return Meaning("error", None, (), (), error.message, error.hint)


def preferred_note(quantity: Quantity) -> tuple[str | None, dict[str, float]]:
    """The coarsest E series a resistance, capacitance or inductance is in, and else the nearest values of E24 and E96.

    (None, {}) for anything else.
    """
    value = quantity.value
    if quantity.unit not in _PREFERRED_UNITS or not value or value < 0:
        return None, {}
    series = coarsest_series(value)
    return series, {} if series else {name: nearest(value, name) for name in ("E24", "E96")}


def colour_bands(quantity: Quantity) -> tuple[str, ...]:
    """The bands of a resistance: two figures with ±5 % or three with ±1 %, or the tolerance it states; else nothing."""
    value = quantity.value
    if quantity.unit != "ohm" or quantity.kind not in {"value", "tolerance"} or not value or value < 0:
        return ()
    figures = 2 if is_preferred(value, "E24") else 3
    percent = 5.0 if figures == 2 else 1.0
    if quantity.high is not None:
        percent = float(f"{(quantity.high / value - 1) * 100:.6g}")
    try:
        return bands_for(value, figures=figures, tolerance_percent=percent)
    except ValueError:
        return ()


def _bands(text: str) -> Meaning:
    try:
        found = read_bands(text)
    except QuantityError as error:
        return Meaning("error", None, (), (), error.message, error.hint)
    forwards = [reading for reading in found if not reading.reversed] or list(found)
    ordered = [*forwards, *(reading for reading in found if reading not in forwards)]
    readings = tuple(Reading(reading.quantity, _told(reading)) for reading in ordered)
    if len(forwards) == 1:
        return Meaning(forwards[0].quantity.kind, forwards[0].quantity, readings)
    message = f"these bands can be read in {len(readings)} ways"
    return Meaning("ambiguous", None, readings, (), message, "measure it, or compare with its neighbours")


def _told(reading: ColourReading) -> str:
    parts = ["read from the other end" if reading.reversed else "in the order given"]
    if reading.tcr_ppm is not None:
        parts.append(format_value(reading.tcr_ppm, "ppm/K"))
    if len(reading.lists) == 1 or "older lists" not in reading.lists:
        parts += [f"tolerance by {' and '.join(reading.lists)}"] if reading.lists else ["no tolerance band"]
    if not reading.preferred:
        parts.append("not a preferred number")
    return ", ".join(parts)


def _dielectric(text: str) -> tuple[Reading, ...]:
    found = dielectric_code(text)
    if found is None:
        return ()
    if found.change_ppm is not None:
        change = f"±{found.change_ppm:g} ppm/K"
    else:
        change = f"{found.change_low_percent:+g} % to {found.change_high_percent:+g} %".replace("-", "−")
    span = Quantity(text, "range", "degC", None, found.low_degc, found.high_degc)
    return (Reading(span, f"a ceramic capacitor's dielectric: its capacitance changes by {change} over this span"),)


def _has(readings: tuple[Reading, ...], wanted: Reading) -> bool:
    q = wanted.quantity
    return any(
        (r.quantity.unit, r.quantity.value, r.quantity.low, r.quantity.high) == (q.unit, q.value, q.low, q.high)
        for r in readings
    )
