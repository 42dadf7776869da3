"""Writes quantities in the trade's style: engineering prefix, no-break space before the unit, ``24 V ±10 %``."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from benchlore.quantity.model import Quantity
from benchlore.quantity.normalise import normalise

NBSP = "\u00a0"
MINUS = "−"


class _Step(NamedTuple):
    """Write values of at least ``least`` as a number of ``one`` (both in SI units), with this sign."""

    least: Decimal
    one: Decimal
    sign: str


def _steps(sign: str, prefixes: str, **least: str) -> tuple[_Step, ...]:
    """Steps for SI prefixes, largest first; ``-`` stands for none; ``least`` moves where a step begins."""
    powers = {"p": -12, "n": -9, "µ": -6, "m": -3, "-": 0, "k": 3, "M": 6, "G": 9, "T": 12}
    steps = []
    for prefix in prefixes:
        one = Decimal(1).scaleb(powers[prefix])
        begin = Decimal(least["none"]) if prefix == "-" and "none" in least else one
        steps.append(_Step(begin, one, ("" if prefix == "-" else prefix) + sign))
    return tuple(sorted(steps, reverse=True))


def _single(sign: str) -> tuple[_Step, ...]:
    return (_Step(Decimal(0), Decimal(1), sign),)


# Farads stay in µF up to 0.1 F, since mF is read two ways; MV, MA and MW are avoided for the same reason.
_SHOWN: dict[str, tuple[_Step, ...]] = {
    "V": _steps("V", "nµm-k"),
    "A": _steps("A", "pnµm-k"),
    "ohm": _steps("Ω", "nµm-kMGT", none="0.1"),
    "F": _steps("F", "pnµ-", none="0.1"),
    "H": _steps("H", "pnµm-"),
    "Hz": _steps("Hz", "-kMG"),
    "m": _steps("m", "nµm-k"),
    "W": _steps("W", "pnµm-k", none="0.1"),
    "J": _steps("J", "nµm-k"),
    "C": _steps("C", "pnµm"),
    "s": (
        _Step(Decimal(7200), Decimal(3600), "h"),
        _Step(Decimal(120), Decimal(60), "min"),
        *_steps("s", "pnµm-"),
    ),
    "Pa": (_Step(Decimal(10000), Decimal(100000), "bar"), *_steps("Pa", "-k")),
    "kg": (
        _Step(Decimal(1), Decimal(1), "kg"),
        _Step(Decimal("1e-3"), Decimal("1e-3"), "g"),
        _Step(Decimal("1e-6"), Decimal("1e-6"), "mg"),
        _Step(Decimal("1e-9"), Decimal("1e-9"), "µg"),
    ),
    "l": _steps("l", "µm-"),
    "N": _steps("N", "-k"),
    "Nm": _steps("Nm", "-"),
    "lm": _steps("lm", "-"),
    "lx": _steps("lx", "-"),
    "cd": _steps("cd", "-"),
    "VA": _steps("VA", "-k"),
    "var": _steps("var", "-k"),
    "Ah": _steps("Ah", "m-"),
    "Wh": _steps("Wh", "m-kM"),
    "T": _steps("T", "nµm-"),
    "Bd": _steps("Bd", "-kM"),
    "m2": (_Step(Decimal("0.01"), Decimal(1), "m²"), _Step(Decimal(0), Decimal("1e-6"), "mm²")),
    "V/s": (_Step(Decimal("1e6"), Decimal("1e6"), "V/µs"), _Step(Decimal(0), Decimal(1), "V/s")),
    "S": _single("siemens"),
    "K": _single("kelvin"),
    "degC": _single("°C"),
    "deg": _single("° angle"),
    "A2s": _single("A²s"),
    "turn": _single("turns"),
    "cycle": _single("cycles"),
}
_QUALIFIERS = {"ac": "ac", "dc": "dc", "rms": "rms", "peak": "pk", "pp": "p-p"}
_STATES = {
    "open": "open", "short": "short", "swings": "swings", "drifting": "drifting", "no-pulses": "no pulses",
    "no-reading": "no reading", "over-range": "OL",
}  # fmt: skip
_WRITTEN_NUMBER = re.compile(r"[^0-9]*([0-9]+\.[0-9]+)(?![0-9,])(?![eE][0-9+-])")
_RELATIVE = re.compile(r"[%％]|per ?cent|pct")
_MOST_WHOLE_DIGITS = 12
_EXACT_DIGITS = 9
_ROUNDED_DIGITS = 6


def shown_steps(unit: str) -> tuple[tuple[str, str, str], ...]:
    """How values of a unit are written, largest step first: from which value on (SI), the value of one, and the sign.

    Decimal texts, for whoever shows values elsewhere as :func:`format_value` does.
    """
    return tuple((str(step.least), str(step.one), step.sign) for step in _SHOWN.get(unit) or _single(unit))


def format_value(value: float, unit: str | None, digits: int = 3, *, keep_zeros: bool = False) -> str:
    """A value in SI units with its engineering prefix, rounded half to even to ``digits`` significant digits.

    ``format_value(4700, "ohm")`` is ``4.7 kΩ``; number and unit are joined by a no-break space. Digits before the
    point are never rounded away (1425 rpm, 12345 µF). Trailing zeros are dropped unless ``keep_zeros``. A value that
    is not finite is written as a word.
    """
    number = Decimal(repr(float(value)))
    if not number.is_finite():
        return "not a number" if number.is_nan() else ("unlimited" if number > 0 else "minus unlimited")
    step = _step(_round(number, digits), unit)
    scaled = number / step.one
    digits = max(digits, scaled.adjusted() + 1) if scaled.adjusted() < _MOST_WHOLE_DIGITS else digits
    text = _number(_round(scaled, digits), digits, keep_zeros)
    return f"{text}{NBSP}{step.sign}" if step.sign else text


def format_quantity(quantity: Quantity) -> str:
    """The quantity as a technician would write it: ``24 V ±10 %``, ``9…23 V``, ``over 200 MΩ``, ``OL``.

    Parsing the result gives the same quantity again (its ``text`` aside): every digit is kept up to nine, and a
    number written with a decimal point keeps its trailing zeros.
    """
    unit, tail = quantity.unit, _tail(quantity)
    match quantity.kind:
        case "value":
            return _written(quantity) + tail
        case "approx":
            return f"about {_written(quantity)}{tail}"
        case "dual":
            return f"±{_exact(quantity.value, unit)}{tail}"
        case "tolerance" if unit in {"%", "%RH"}:  # "50 % ±5 %" can be read two ways, limits cannot
            return _range(quantity.low, quantity.high, unit)
        case "tolerance":
            return f"{_exact(quantity.value, unit)}{tail} {_spread(quantity)}"
        case "range":
            return _range(quantity.low, quantity.high, unit) + tail
        case "bound":
            if quantity.high is not None:
                return f"{'under' if quantity.high_open else 'at most'} {_exact(quantity.high, unit)}{tail}"
            return f"{'over' if quantity.low_open else 'at least'} {_exact(quantity.low, unit)}{tail}"
        case "overload":
            return f"OL{NBSP}{_step(Decimal(0), unit).sign}" if unit else "OL"
        case "state":
            word = _STATES.get(quantity.state or "", quantity.state or "")
            if quantity.low is None or quantity.high is None:
                return word
            return f"{word} {_range(quantity.low, quantity.high, unit)}{tail}"


def _tail(quantity: Quantity) -> str:
    return NBSP + _QUALIFIERS[quantity.qualifier] if quantity.qualifier else ""


def _round(number: Decimal, digits: int) -> Decimal:
    if not number:
        return number
    return number.quantize(Decimal(1).scaleb(number.adjusted() - digits + 1)) if _digits(number) > digits else number


def _digits(number: Decimal) -> int:
    return len(number.normalize().as_tuple().digits)


def _step(number: Decimal, unit: str | None) -> _Step:
    if unit is None:
        return _Step(Decimal(0), Decimal(1), "")
    steps = _SHOWN.get(unit) or _single(unit)
    size = abs(number)
    if not size:
        return next((step for step in steps if step.one == 1), steps[-1])
    return next((step for step in steps if size >= step.least), steps[-1])


def _number(number: Decimal, digits: int, keep_zeros: bool) -> str:
    number = _round(number, max(digits, 15))
    if not number:
        return "0"
    if not -12 <= number.adjusted() <= 15:
        text = f"{number.normalize():e}".replace("e+", "e")
    elif keep_zeros and _digits(number) <= digits:
        text = f"{number:.{max(0, digits - 1 - number.adjusted())}f}"
    else:
        text = f"{number.normalize():f}"
    return text.replace("-", MINUS, 1) if number < 0 else text


def _exact(value: float | None, unit: str | None) -> str:
    value = value or 0.0
    if unit == "s" and abs(value) >= 120:
        return _exact_time(Decimal(repr(value)))
    return format_value(value, unit, _needed(value))


def _exact_time(seconds: Decimal) -> str:
    for step in _SHOWN["s"]:
        number = seconds / step.one
        if abs(seconds) >= step.least and _digits(number) <= _ROUNDED_DIGITS:
            return f"{_number(number, 15, keep_zeros=False)}{NBSP}{step.sign}"
    return f"{_number(seconds, 15, keep_zeros=False)}{NBSP}s"


def _needed(value: float) -> int:
    needed = _digits(Decimal(repr(value)))
    return needed if needed <= _EXACT_DIGITS else _ROUNDED_DIGITS


def _written(quantity: Quantity) -> str:
    """The value with the digits that its text had, where that was a plain decimal number."""
    value = quantity.value or 0.0
    match = _WRITTEN_NUMBER.match(normalise(quantity.text)) if quantity.unit != "s" else None
    if not match:
        return _exact(value, quantity.unit)
    written = min(len(match[1].replace(".", "").lstrip("0")), _EXACT_DIGITS)
    return format_value(value, quantity.unit, max(_needed(value), written), keep_zeros=True)


def _range(low: float | None, high: float | None, unit: str | None) -> str:
    low, high = low or 0.0, high or 0.0
    shared = _step(max(Decimal(repr(abs(low))), Decimal(repr(abs(high)))), unit)
    ends = [_round(Decimal(repr(end)), _needed(end)) / shared.one for end in (low, high)]
    if all(end == 0 or -1 <= end.adjusted() <= 12 for end in ends):
        first, last = (_number(end, 15, keep_zeros=False) for end in ends)
        return f"{first}…{last}{NBSP}{shared.sign}" if shared.sign else f"{first}…{last}"
    return f"{_exact(low, unit)}…{_exact(high, unit)}"


def _spread(quantity: Quantity) -> str:
    value, low, high = (Decimal(repr(number or 0.0)) for number in (quantity.value, quantity.low, quantity.high))
    plus, minus = high - value, value - low
    if value and (_RELATIVE.search(quantity.text) or not re.search(r"[±+]", quantity.text)):
        up, down = (_round(part * 100 / abs(value), _EXACT_DIGITS) for part in (plus, minus))
        if all(_digits(part) <= _ROUNDED_DIGITS for part in (up, down)):
            if up == down:
                return f"±{up.normalize():f}{NBSP}%"
            return f"+{up.normalize():f}/{MINUS}{down.normalize():f}{NBSP}%"
    if plus == minus:
        return f"±{_exact(float(plus), quantity.unit)}"
    step = _step(max(plus, minus), quantity.unit)
    up_text, down_text = (_number(part / step.one, 15, keep_zeros=False) for part in (plus, minus))
    return f"+{up_text}/{MINUS}{down_text}" + (f"{NBSP}{step.sign}" if step.sign else "")
