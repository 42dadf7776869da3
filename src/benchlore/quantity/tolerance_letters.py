"""Tolerance letters of IEC 60062 and the ceramic number code: from a letter and a value to the limits."""

from __future__ import annotations

import json
from decimal import Decimal
from importlib.resources import files

_DATA = json.loads(files("benchlore.quantity").joinpath("data/tolerance_letters.json").read_text(encoding="utf-8"))
PERCENT: dict[str, tuple[Decimal, Decimal]] = {
    letter: (Decimal(low), Decimal(high)) for letter, (low, high) in _DATA["percent"].items()
}
"""Letter: lower and upper deviation in per cent."""
PICOFARADS: dict[str, Decimal] = {letter: Decimal(pf) for letter, pf in _DATA["picofarads"].items()}
"""Letter: deviation either way in picofarads, for capacitors below 10 pF."""
LETTERS = frozenset(PERCENT)
E24 = frozenset((10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91))
_TEN_PICOFARADS = Decimal("10e-12")


def limits(letter: str, value: Decimal, unit: str | None) -> tuple[Decimal, Decimal]:
    """Lower and upper limit of a value marked with a tolerance letter (IEC 60062, table seen at second hand).

    Below 10 pF the letters B, C, D, F and G are absolute: ``9p1C`` is ±0.25 pF, ``11pC`` ±0.25 %.
    """
    if unit == "F" and value < _TEN_PICOFARADS and letter in PICOFARADS:
        spread = PICOFARADS[letter].scaleb(-12)
        return value - spread, value + spread
    low, high = PERCENT[letter]
    return value * (100 + low) / 100, value * (100 + high) / 100


def number_code(digits: str, unit: str | None) -> Decimal:
    """Figures followed by a number of noughts, as on chips and ceramics (``472`` is 47 and two noughts).

    The result is in the code's own unit: ohms, picofarads or microhenries. On capacitors 8 and 9 in the last place
    mean ×0.01 and ×0.1 (from memory, high confidence).
    """
    last = int(digits[-1])
    noughts = {8: -2, 9: -1}.get(last, last) if unit == "F" else last
    return Decimal(digits[:-1]).scaleb(noughts)
