"""Values near the one that was asked for: 4.6 k finds 4k7; and what a number without a unit can only mean.

CONTRACT (mirrored in JavaScript). All in whole numbers. A ``value:`` term is ``value:UNIT:MeE``, M times ten to the E.
*Near* a value that is not nought are those of the same unit and sign that differ from it by at most ``window`` per cent
of it: of the terms that start with ``value:UNIT:``, a minus for negative ones, and each first digit that the window
touches (at most ``MOST_OF_A_DIGIT`` of each), in the order of the digits and then of the terms. Those within ``CLOSE``
per cent weigh ``CLOSE_WEIGHT``, the others ``FAR_WEIGHT``.

A number without a unit stands for the one of ``BARE_UNITS`` (volts, amperes, ohms, microfarads) that makes a value
which the index holds; when none or several do, for nothing.
"""

from __future__ import annotations

from benchlore.index.query_terms import Expansion, Lookup

WINDOW, WIDEST, CLOSE = 10, 20, 5
CLOSE_WEIGHT, FAR_WEIGHT = 0.5, 0.3
MOST_OF_A_DIGIT = 256
BARE_UNITS = (("V", 0), ("A", 0), ("ohm", 0), ("F", -6))
_MOST_SHIFT = 6
_SIGNS = {"ohm": "Ω", "degC": "°C", "degree": "°"}
_PREFIXES = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}


def parse(term: str) -> tuple[str, int, int]:
    """Unit, M and E of a ``value:`` term; M has the sign."""
    _, unit, number = term.split(":", 2)
    mantissa, _, exponent = number.partition("e")
    return unit, int(mantissa), int(exponent)


def near(term: str, lookup: Lookup, window: int = WINDOW) -> list[Expansion]:
    """The terms of the index near a value, itself left out."""
    unit, mantissa, exponent = parse(term)
    if not mantissa:
        return []
    sign, size = ("-", -mantissa) if mantissa < 0 else ("", mantissa)
    low, high = str(size * (100 - window)), str(size * (100 + window))
    first, last = int(low[0]), int(high[0])
    figures = range(first, last + 1) if len(low) == len(high) else [*range(first, 10), *range(1, last + 1)]
    found = []
    for figure in figures:
        for other in lookup.starts(f"value:{unit}:{sign}{figure}", MOST_OF_A_DIGIT):
            away = _apart(size, exponent, *_size(other))
            if other != term and away is not None and away <= window * 100:
                weight = CLOSE_WEIGHT if away <= CLOSE * 100 else FAR_WEIGHT
                found.append(Expansion(other, weight, "near"))
    return found


def _size(term: str) -> tuple[int, int]:
    _, mantissa, exponent = parse(term)
    return abs(mantissa), exponent


def _apart(size: int, exponent: int, other: int, other_exponent: int) -> int | None:
    """How far two numbers are apart, in hundredths of a per cent of the first, rounded up; None when very far."""
    shift = other_exponent - exponent
    if abs(shift) > _MOST_SHIFT:
        return None
    if shift > 0:
        other *= 10**shift
    else:
        size *= 10**-shift
    return -(-abs(other - size) * 10_000 // size)


def bare(digits: str, decimals: str, lookup: Lookup) -> str | None:
    """The ``value:`` term that a number without a unit can only mean; None when there is none, or more than one."""
    written = (digits + decimals).lstrip("0")
    exponent = -len(decimals)
    if len(written) > 3 and written[3:].strip("0"):
        return None
    stripped = written.rstrip("0")
    exponent += len(written) - len(stripped)
    if not stripped:
        return None
    terms = [f"value:{unit}:{stripped}e{exponent + scale}" for unit, scale in BARE_UNITS]
    held = [term for term in terms if lookup.has(term)]
    return held[0] if len(held) == 1 else None


def in_words(term: str) -> str:
    """A value as people write it: ``value:ohm:47e2`` is ``4.7 kΩ``."""
    unit, mantissa, exponent = parse(term)
    digits = str(abs(mantissa))
    power = max(-12, min(9, (len(digits) - 1 + exponent) // 3 * 3))
    places = exponent - power
    if places >= 0:
        written = digits + "0" * places
    else:
        digits = digits.rjust(1 - places, "0")
        written = f"{digits[:places]}.{digits[places:]}"
    return f"{'−' if mantissa < 0 else ''}{written}\u00a0{_PREFIXES[power]}{_SIGNS.get(unit, unit)}"
