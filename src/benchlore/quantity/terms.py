"""Reads one number with its unit, in any notation, into the values it can mean."""

from __future__ import annotations

import difflib
import re
from decimal import Decimal
from typing import NamedTuple

from benchlore.quantity import tolerance_letters
from benchlore.quantity.glued import Asked, Meaning, bare_meanings, glued_meanings, point_scale, prefix_scale
from benchlore.quantity.model import Qualifier, QuantityError
from benchlore.quantity.units import TAKES_PREFIX, Scale, spellings, unit_choices


class Term(NamedTuple):
    """One value in SI units; ``low`` and ``high`` when a tolerance letter came with it; ``because`` when in doubt."""

    value: Decimal
    scale: Scale
    low: Decimal | None = None
    high: Decimal | None = None
    because: str = ""
    bare: bool = False

    @property
    def unit(self) -> str | None:
        """The symbol of the unit, or None for a number without one."""
        return self.scale.unit

    @property
    def qualifier(self) -> Qualifier | None:
        """What ``VAC`` or ``Vpp`` add to the unit."""
        return self.scale.qualifier


_NOTHING_ASKED = Asked()
_TERM = re.compile(
    r"([+–-]? ?)"
    r"((?:[0-9]{1,3} )?[0-9]{1,2}/[0-9]{1,2}(?= ?[A-Za-z\"])|[0-9][0-9., ]*[0-9]\.?|[0-9]\.?|\.[0-9]+)"
    r"([eE][+-]?[0-9]{1,3})?"
    r"( ?)([^0-9+±<>≤≥,;(][^±<>≤≥]*)?"
)
_RKM = re.compile(
    r"([+–-]?)([0-9]{0,9})([RELFVAkKMGTpnum])([0-9]{1,9})([A-Z]?)( ?(?:ohms?|F|H|V|A)(?: ?[a-zA-Z.-]{1,9})?)?"
)
_FIRST_LETTERS = frozenset("RkKMGLTpnum")
"""Letters that may stand before every digit (R47, n33); a leading E, F, V or A is more likely a designator."""
_POINT_LETTERS = frozenset("RELFVA")
_FRACTION = re.compile(r"(?:([0-9]{1,3}) )?([0-9]{1,2})/([0-9]{1,2})")
_PLAIN = re.compile(r"[0-9]+\.?[0-9]*|\.[0-9]+")
_SPACED = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+(?:\.[0-9]+)?")
_COMMA_THOUSANDS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3}){2,}(?:\.[0-9]+)?|[0-9]{1,3},[0-9]{3}\.[0-9]+")
_DOT_THOUSANDS = re.compile(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+|[0-9]{1,3}(?:\.[0-9]{3}){2,}")
_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_LARGEST = Decimal("1e30")


def number_choices(text: str) -> list[tuple[Decimal, str]]:
    """The values a number text can have: one when clear, two for ``4,7`` or ``1,000``, none when it is no number."""
    if _PLAIN.fullmatch(text):
        return [(Decimal(text), "")]
    if match := _FRACTION.fullmatch(text):
        whole, over, under = (int(group or 0) for group in match.groups())
        return [(Decimal(whole) + Decimal(over) / Decimal(under), "")] if 0 < over < under else []
    if _SPACED.fullmatch(text):
        return [(Decimal(text.replace(" ", "")), "")]
    if _COMMA_THOUSANDS.fullmatch(text):
        return [(Decimal(text.replace(",", "")), "")]
    if _DOT_THOUSANDS.fullmatch(text):
        return [(Decimal(text.replace(".", "").replace(",", ".")), "")]
    if match := _COMMA.fullmatch(text):
        decimal = Decimal(f"{match[1]}.{match[2]}")
        if match[1] == "0":
            return [(decimal, "")]
        return [(decimal, "the comma is a decimal comma"), (Decimal(match[1] + match[2]), "the comma parts thousands")]
    return []


def in_si(number: Decimal, scale: Scale) -> Decimal:
    """A written number in SI units."""
    if scale.shift is not None:
        number += scale.shift
    return difference(number, scale)


def difference(number: Decimal, scale: Scale) -> Decimal:
    """A written difference in SI units: 9 °F of tolerance is 5 kelvin, not minus 13 °C."""
    if scale.times is not None:
        number *= scale.times
    return number.scaleb(scale.exponent) if scale.exponent else number


def read_terms(text: str, asked: Asked = _NOTHING_ASKED, carried: Scale | None = None) -> list[Term]:
    """Every value the text can have, in SI units; one when it is clear, none when it is not a number with a unit.

    ``text`` is normalised. ``asked`` settles doubts where it can; ``carried`` is the scale of a number that stands
    without a unit (that of the other end of a range, say). Raises QuantityError for a number with an unknown unit.
    """
    terms = _rkm_terms(text, asked) or _plain_terms(text, asked, carried)
    if len(terms) > 1 and asked.wanted:
        return [term for term in terms if term.unit == asked.wanted] or terms
    return terms


def _plain_terms(text: str, asked: Asked, carried: Scale | None) -> list[Term]:
    match = _TERM.fullmatch(text)
    if not match:
        return []
    sign, digits, exponent, space, letters = match.groups()
    numbers = number_choices(digits)
    if not numbers:
        return []
    terms = []
    for meaning in _meanings(letters, digits, bool(space), asked, carried):
        for number, why_number in numbers:
            if meaning.code:
                number = tolerance_letters.number_code(digits, meaning.scale.unit)
            if exponent:
                number = number.scaleb(int(exponent[1:]))
            if sign[:1] in {"-", "–"}:
                number = -number
            because = "; ".join(why for why in (why_number, meaning.because) if why)
            terms.append(_finish(number, meaning.scale, meaning.letter, because, meaning.bare))
    return terms


def _meanings(
    letters: str | None, digits: str, spaced: bool, asked: Asked, carried: Scale | None
) -> list[Meaning]:
    if not letters:
        if carried is None and asked.component and asked.unit is None:
            return bare_meanings(digits, asked.component)
        return [Meaning(carried or Scale(asked.unit), bare=True)]
    if not spaced and (glued := glued_meanings(letters, digits, asked)):
        return glued
    found = []
    for scale, because in unit_choices(letters):
        if scale.implied and asked.wanted in TAKES_PREFIX:
            scale = scale._replace(unit=asked.wanted)
        found.append(Meaning(scale, because=because))
    if not found:
        raise unknown_unit(letters)
    return found


def _finish(number: Decimal, scale: Scale, letter: str, because: str, bare: bool = False) -> Term:
    value = in_si(number, scale)
    if abs(value) > _LARGEST:
        raise QuantityError("the number is too large to be a reading")
    if not letter:
        return Term(value, scale, because=because, bare=bare)
    low, high = tolerance_letters.limits(letter, value, scale.unit)
    return Term(value, scale, low, high, because)


def _rkm_terms(text: str, asked: Asked) -> list[Term]:
    match = _RKM.fullmatch(text)
    if not match:
        return []
    sign, before, letter, after, tolerance, unit_text = match.groups()
    if not before and letter not in _FIRST_LETTERS:
        return []
    if tolerance and tolerance not in tolerance_letters.LETTERS:
        return []
    number = Decimal(f"{before or 0}.{after}")
    if sign in {"-", "–"}:
        number = -number
    scale = point_scale(letter, asked) if letter in _POINT_LETTERS else prefix_scale(letter, asked)
    if unit_text:
        return [
            _finish(number, choice.scale._replace(exponent=scale.exponent, prefixed=True), tolerance, "")
            for choice in unit_choices(unit_text.strip())
            if choice.scale.exponent == 0 and (letter not in _POINT_LETTERS or choice.scale.unit == scale.unit)
        ]
    terms = [_finish(number, scale, tolerance, "")]
    if tolerance == "F" and letter in "pnum" and asked.component != "resistor":
        marked = terms[0]._replace(because="F is a tolerance letter, ±1 %")
        return [_finish(number, scale._replace(unit="F"), "", "F is the farad"), marked]
    if letter == "E" and not tolerance and asked.component != "resistor":
        power = Term(Decimal(f"{before}e{after}"), Scale(asked.unit), because="e for a power of ten")
        return [terms[0]._replace(because="E in place of the point, for ohms"), power]
    return terms


def unknown_unit(letters: str) -> QuantityError:
    """The error for letters that are no unit, with the nearest ones that are."""
    shown = letters if len(letters) <= 30 else letters[:30] + "…"
    if letters.startswith(":"):
        return QuantityError("a time with a colon can be read two ways", hint="write 12 h 30 min, or 12 min 30 s")
    if any(letter.isdigit() for letter in letters):
        return QuantityError(
            f"one value was expected, and there is more after it: “{shown}”",
            hint="write one quantity in each place; a range is 9..23 V, a tolerance 24 V ±10 %",
        )
    first, _, words = letters.partition(" ")
    if words and unit_choices(first):
        return QuantityError(f"“{words[:30]}” is more than a unit", hint="write the quantity alone, words in a note")
    near = difflib.get_close_matches(letters, sorted(spellings()), n=3, cutoff=0.6) if len(letters) < 20 else []
    hint = f"did you mean {' or '.join(near)}?" if near else "write a number and a unit, such as 4.7 kΩ or 24 V ±10 %"
    return QuantityError(f"“{shown}” is not a unit known here", hint=hint)
