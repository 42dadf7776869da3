"""Finds values in running text and names each by a search term. Mirrored in JavaScript, step by step.

The contract (``tests/vectors/quantity_scan.json`` holds both sides to it)
=========================================================================
Give it the text as it was written: after lower-casing, ``4M7`` and ``4m7`` would be one. Positions count characters
(code points in Python, UTF-16 units in JavaScript: the same outside emoji and rare scripts).

1. *Look* for the next match of ``PATTERN`` from position ``at`` (at first 0). None: done.
2. *Before.* Let ``p``, ``q``, ``r`` be the one, two and three characters before the match (nothing at the start). The
   match is refused when

   a. ``p`` is a word character (class ``W`` below): BD139, Q3, C12;
   b. ``p`` is ``.`` or ``,`` and ``q`` a digit: 1,000 and 1.2.3;
   c. ``p`` is ``-`` and ``q`` an ASCII letter (BWC-02), unless the last value taken ended at ``p`` (24V-10A);
   d. ``p`` is ``/``, ``q`` is ``1`` or ``3``, and ``r`` is not a digit: 1/4 W.

3. *Sign.* When ``p`` is ``-`` or U+2212 and ``q`` is nothing, white space (space, tab, line end, U+00A0, U+2009,
   U+202F) or ``(``, the value is negative and the span begins at ``p``.
4. *Value*, by the group that matched, all in integers and powers of ten:

   ==== ============================ =================================================================
   A    ``4k7 59R04 4K7J 4k7 ohm``   ``A1`` digits, ``A2`` letter (R 0, k K 3, M 6), ``A3`` digits; ohm
   B    ``2u2 4n7J``                 ``B1``, letter ``B2`` (p -12, n -9, u µ μ -6), one digit ``B3``; F
   C    ``12V6``                     ``C1``, ``C2``; V
   D    ``R22 R047``                 ``0.D1``; ohm
   E    ``n47 µ33``                  letter ``E1``, ``0.E2``; F
   F    ``24 V 470n 0,47 uF``        number ``F1``, space ``F2``, letters ``F3``
   ==== ============================ =================================================================

   A number ``d.e`` (or ``0,e``) is the integer ``de`` times ten to minus the length of ``e``. For F the letters are
   looked up in :func:`scan_table`: ``[unit, times, exponent, glued, spaced]``; refused when they are not there, when
   ``F2`` is empty and ``glued`` false, or when ``F2`` is there and ``spaced`` false. Refused, too, are three digits of
   which the last is not 0 right before ``K`` or ``M``: 104K is a ceramic capacitor's code as well as a resistor.
   Multiply the integer by
   ``times`` and add ``exponent``. Refuse an integer of more than eleven digits (leading noughts not counted).
5. The value is the number nearest to ``integer × 10^exponent`` (``float(f"{integer}e{exponent}")``; in JavaScript
   ``Number(integer + "e" + exponent)``: both round correctly). Refused: go on from the match's start plus one.
   Taken: go on from the match's end.

The search term (:func:`value_term`) of a value: write its shortest round-trip digits (``repr``; JavaScript's
``String``) as an integer without trailing noughts times a power of ten; when the integer has more than three digits,
round it to three, halves away from zero, and strip noughts again; then ``unit:integer e exponent`` without spaces, as
in ``ohm:47e2``, ``F:47e-8``, ``V:-12e0``; nought is ``V:0e0``; no unit leaves the part before the colon empty.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from benchlore.quantity.model import Quantity

WORD = "0-9A-Za-z_\u00b5\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u024f\u0370-\u03ff\u0400-\u04ff\u2126"
"""Class W: the characters that a word is made of, to be put inside square brackets."""
SPACE = " \u00a0\u2009\u202f"
"""The spaces that may stand between a number and its unit, at most one of them."""
LETTERS = "A-Za-z\u00b5\u03bc\u03a9\u2126\u00b0%~"
"""The characters that unit spellings are made of, ``/`` and the hyphen of ``p-p`` aside."""

PATTERN = (
    rf"(?:([0-9]{{1,4}})([RkKM])([0-9]{{1,2}})[FGJKM]?(?:[{SPACE}]?(?:ohms?|\u03a9|\u2126))?"
    rf"|([0-9]{{1,4}})([pnu\u00b5\u03bc])([0-9])[FGJKM]?"
    rf"|([0-9]{{1,3}})V([0-9]{{1,2}})"
    rf"|R(0?[0-9]{{2}})"
    rf"|([n\u00b5\u03bc])([0-9]{{2}})"
    rf"|(0,[0-9]{{1,9}}|[0-9]{{1,9}}(?:\.[0-9]{{1,9}})?|\.[0-9]{{1,9}})([{SPACE}]?)"
    rf"([{LETTERS}]{{1,11}}(?:/[a-z]{{1,6}}|-p)?))(?![{WORD}])"
)
"""The one regular expression, the same in both languages; its groups are A1 A2 A3 B1 B2 B3 C1 C2 D1 E1 E2 F1 F2 F3."""

_PATTERN = re.compile(PATTERN)
_WORD = re.compile(f"[{WORD}]")
_EXPONENTS = {"R": 0, "k": 3, "K": 3, "M": 6, "p": -12, "n": -9, "u": -6, "\u00b5": -6, "\u03bc": -6}
_MINUS = "-\u2212"
_BEFORE_SIGN = " \t\n\r(\u00a0\u2009\u202f"
_MOST_DIGITS = 11


@dataclass(frozen=True, slots=True)
class QuantitySpan:
    """A value found in running text: ``text[start:end]`` reads as ``quantity`` (always a single value)."""

    start: int
    end: int
    quantity: Quantity


@cache
def scan_table() -> dict[str, tuple[str, int, int, bool, bool]]:
    """Unit spelling: (unit, times, exponent, may be glued to its number, may stand after a space).

    The browser's copy is made from this table; a spelling is added in ``data/scan_units.json`` only.
    """
    data = json.loads(files("benchlore.quantity").joinpath("data/scan_units.json").read_text(encoding="utf-8"))
    table: dict[str, tuple[str, int, int, bool, bool]] = {}
    for row in data["rows"]:
        for spelling in row["spellings"]:
            for prefix in ("", *row["prefixes"]):
                exponent = row["exponent"] + data["prefixes"].get(prefix, 0)
                table[prefix + spelling] = (row["unit"], row["times"], exponent, row.get("glued", True), row["spaced"])
    return table


def find_quantities(text: str) -> list[QuantitySpan]:
    """The values with units, or in letter-digit code, in running text, in order; never overlapping.

    Finds ``24 V``, ``0.47uF``, ``470n``, ``4k7``, ``R22``, ``12V6``; leaves part numbers and markings alone
    (``BD139``, ``IRF840``, ``1N4007``, ``BWC-02``, ``Q3``, ``3D``). What is doubtful (``10 mF``, ``4,7k``) is no value.
    """
    spans: list[QuantitySpan] = []
    at = taken_until = 0
    while match := _PATTERN.search(text, at):
        found = _value(match) if _may_begin(text, match.start(), taken_until) else None
        if found is None:
            at = match.start() + 1
            continue
        unit, integer, exponent = found
        start, at = match.start(), match.end()
        taken_until = at
        if _is_negative(text, start):
            integer, start = -integer, start - 1
        value = float(f"{integer}e{exponent}") + 0.0
        spans.append(QuantitySpan(start, at, Quantity(text[start:at], "value", unit, value)))
    return spans


def value_term(quantity: Quantity) -> str | None:
    """The search term of a single value (``ohm:47e2``), nominal of a tolerance included; None for anything else."""
    if quantity.value is None or quantity.kind not in {"value", "approx", "tolerance"}:
        return None
    mantissa, _, power = repr(quantity.value).partition("e")
    whole, _, part = mantissa.lstrip("-").partition(".")
    if part == "0":
        part = ""
    digits, exponent = (whole + part).lstrip("0"), int(power or 0) - len(part)
    if len(digits) > 3:
        exponent += len(digits) - 3
        digits = str(int(digits[:3]) + (digits[3] >= "5"))
    stripped = digits.rstrip("0")
    exponent += len(digits) - len(stripped)
    if not stripped:
        return f"{quantity.unit or ''}:0e0"
    sign = "-" if quantity.value < 0 else ""
    return f"{quantity.unit or ''}:{sign}{stripped}e{exponent}"


def _may_begin(text: str, start: int, taken_until: int) -> bool:
    before, earlier, earliest = (text[start - n : start - n + 1] if start >= n else "" for n in (1, 2, 3))
    if not before:
        return True
    if _WORD.match(before):
        return False
    if before in ".,":
        return not _is_digit(earlier)
    if before == "-":
        return taken_until == start - 1 or not (earlier.isascii() and earlier.isalpha())
    if before == "/":
        return earlier not in {"1", "3"} or _is_digit(earliest)
    return True


def _is_negative(text: str, start: int) -> bool:
    return start > 0 and text[start - 1] in _MINUS and (start == 1 or text[start - 2] in _BEFORE_SIGN)


def _is_digit(character: str) -> bool:
    return "0" <= character <= "9"


def _value(match: re.Match[str]) -> tuple[str, int, int] | None:
    """The match as (unit, integer, power of ten), or None when it is no value after all."""
    a1, a2, a3, b1, b2, b3, c1, c2, d1, e1, e2, f1, f2, f3 = match.groups()
    if a1:
        return _decimal("ohm", a1, a3, _EXPONENTS[a2])
    if b1:
        return _decimal("F", b1, b3, _EXPONENTS[b2])
    if c1:
        return _decimal("V", c1, c2, 0)
    if d1:
        return _decimal("ohm", "0", d1, 0)
    if e1:
        return _decimal("F", "0", e2, _EXPONENTS[e1])
    row = scan_table().get(f3)
    if row is None or not (row[4] if f2 else row[3]):
        return None
    if f3 in {"K", "M"} and len(f1) == 3 and f1.isdigit() and f1[2] != "0":
        return None
    unit, times, exponent, _, _ = row
    whole, _, part = f1.replace(",", ".").partition(".")
    return _decimal(unit, whole, part, exponent, times)


def _decimal(unit: str, whole: str, part: str, exponent: int, times: int = 1) -> tuple[str, int, int] | None:
    digits = (whole + part).lstrip("0")
    if len(digits) > _MOST_DIGITS:
        return None
    return unit, int(digits or 0) * times, exponent - len(part)
