"""Reads one number with its unit, in any notation, into the values it can mean."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

from benchlore.quantity import tolerance_letters
from benchlore.quantity.model import Qualifier, QuantityError
from benchlore.quantity.units import PREFIXES, Scale, unit_choices

Component = str
COMPONENT_UNITS: dict[str, str] = {"resistor": "ohm", "capacitor": "F", "inductor": "H"}
"""The unit that a component's marking is in, when it does not say."""


class Asked(NamedTuple):
    """What the caller knows: the unit expected, and the kind of component marked."""

    unit: str | None = None
    component: Component | None = None

    @property
    def wanted(self) -> str | None:
        """The unit that settles doubts."""
        return self.unit or (COMPONENT_UNITS[self.component] if self.component else None)


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
        return self.scale.unit

    @property
    def qualifier(self) -> Qualifier | None:
        return self.scale.qualifier


_TERM = re.compile(
    r"([+–-]? ?)"
    r"((?:[0-9]{1,3} )?[0-9]{1,2}/[0-9]{1,2}(?= ?[A-Za-z\"])|[0-9][0-9., ]*[0-9]\.?|[0-9]\.?|\.[0-9]+)"
    r"([eE][+-]?[0-9]{1,3})?"
    r"( ?)([^0-9+±<>≤≥,;(].*)?"
)
_RKM = re.compile(
    r"([+–-]?)([0-9]{0,9})(R|E|L|F|V|A|[kKMGTpnum])([0-9]{1,9})([A-Z]?)( ?(?:ohms?|F|H|V|A)(?: ?[a-zA-Z.-]+)?)?"
)
_CODE_EXPONENTS = {"ohm": 0, "F": -12, "H": -6}
_LEADING = frozenset("RkKMGLTpnum")
_RKM_UNITS = {"R": "ohm", "E": "ohm", "L": "ohm", "F": "F", "V": "V", "A": "A"}
_RKM_EXPONENTS = {"R": 0, "E": 0, "L": -3, "F": 0, "V": 0, "A": 0}
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


def _si(number: Decimal, scale: Scale) -> Decimal:
    if scale.shift is not None:
        number += scale.shift
    if scale.times is not None:
        number *= scale.times
    return number.scaleb(scale.exponent) if scale.exponent else number


def difference(number: Decimal, scale: Scale) -> Decimal:
    """A difference in SI units: as a value, but 5 °F of tolerance is 2.8 kelvin, not minus 15 °C."""
    return _si(number, scale._replace(shift=None))


class _Meaning(NamedTuple):
    """One meaning of the letters after a number: the scale, a tolerance letter if one is among them, and why."""

    scale: Scale
    letter: str = ""
    because: str = ""
    bare: bool = False
    code: bool = False


_MULTIPLIERS = frozenset("kKMGTpnu")
_FIRM = frozenset("FHVAWN")
"""Last letters of units too common to be taken for a tolerance (nF, mH, kV, uA, mW, kN)."""


def _glued_meanings(unit_text: str, digits: str, asked: Asked) -> list[_Meaning]:
    """What letters written against their number can mean: a multiplier, a unit, or a tolerance letter (IEC 60062)."""
    component = asked.component
    code = _ceramic_meaning(unit_text, digits, component)
    if code and component == "capacitor":
        return [code]
    plain = _plain_meanings(unit_text, asked)
    marked = _marked_meaning(unit_text, asked)
    if plain and marked:
        if len(unit_text) == 2 and unit_text[-1] in _FIRM or component == "capacitor" and unit_text == "F":
            marked = None
        elif component in {"resistor", "capacitor"}:
            plain = []
    found = plain + [meaning for meaning in (marked, code) if meaning]
    return found


def _plain_meanings(letters: str, asked: Asked) -> list[_Meaning]:
    if letters in _MULTIPLIERS:
        return [_Meaning(_prefix_scale(letters, asked), because=f"{letters} is the multiplier")]
    if letters in {"E", "R", "L"}:
        return [_Meaning(_point_scale(letters, asked))]
    if letters == "m":
        if asked.wanted not in {None, "m", "s"}:
            return [_Meaning(_prefix_scale("m", asked))]
        return [
            _Meaning(Scale("m"), because="m is the metre (10 m, with a space)"),
            _Meaning(Scale("s", 0, Decimal(60)), because="m for minutes, which are written min"),
            _Meaning(Scale("F", -3, prefixed=True), because="a capacitor marked in thousandths of a farad"),
        ]
    return [_Meaning(choice.scale, because=choice.because or "a unit") for choice in unit_choices(letters)]


def _marked_meaning(letters: str, asked: Asked) -> _Meaning | None:
    letter = letters[-1]
    if letter not in tolerance_letters.LETTERS or len(letters) > 2:
        return None
    because = f"{letter} is a tolerance letter"
    if len(letters) == 1:
        if asked.component == "resistor" and letter not in _MULTIPLIERS and letter not in "ELHWN" or (
            letter in "JF" and asked.component is None and asked.wanted in {None, "ohm"}
        ):
            return _Meaning(Scale("ohm"), letter, because)
        return None
    point = letters[0]
    if point in {"R", "E", "L"}:
        return _Meaning(_point_scale(point, asked), letter, because)
    if point in _MULTIPLIERS or (point == "m" and asked.component == "capacitor"):
        return _Meaning(_prefix_scale(point, asked), letter, because)
    return None


def _ceramic_meaning(letters: str, digits: str, component: Component | None) -> _Meaning | None:
    if component not in {None, "capacitor"} or len(letters) != 1 or letters not in tolerance_letters.LETTERS:
        return None
    if len(digits) != 3 or not digits.isdigit():
        return None
    if component is None and (letters not in "JKMZ" or digits[2] not in "123456" or int(digits[:2]) not in tolerance_letters.E24):
        return None
    return _Meaning(Scale("F", -12, prefixed=True), letters, "a ceramic capacitor's number code", code=True)


def _bare_meanings(digits: str, component: Component) -> list[_Meaning]:
    """A number alone on a component: figures and a number of noughts, or the value as it stands."""
    unit = COMPONENT_UNITS[component]
    is_code = digits.isdigit() and len(digits) in ({3, 4} if unit == "ohm" else {3})
    coded = _Meaning(Scale(unit, _CODE_EXPONENTS[unit], prefixed=unit != "ohm"), because="a number code", code=True)
    if unit == "ohm":
        plain = _Meaning(Scale("ohm"), because="the value in ohms", bare=True)
        return [coded, plain] if is_code else [plain]
    if is_code:
        plain = _Meaning(coded.scale, because="the value as it stands", bare=True)
        return [coded, plain] if digits.endswith("0") else [coded]
    exponent = -12 if unit == "F" and digits.isdigit() else -6
    return [_Meaning(Scale(unit, exponent, prefixed=True), because="the value as it stands", bare=True)]


def _prefix_scale(letter: str, asked: Asked) -> Scale:
    usual = "F" if letter in "pnum" else "ohm"
    return Scale(asked.wanted or usual, PREFIXES[letter], prefixed=True, implied=True)


def _point_scale(letter: str, asked: Asked) -> Scale:
    if letter == "R" and asked.component == "inductor":  # not in the standard; common on moulded chokes
        return Scale("H", -6, prefixed=True)
    return Scale(_RKM_UNITS[letter], _RKM_EXPONENTS[letter], prefixed=letter == "L")


def _finish(number: Decimal, scale: Scale, letter: str, because: str, bare: bool = False) -> Term:
    value = _si(number, scale)
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
    if not before and letter not in _LEADING:
        return []
    if tolerance and tolerance not in tolerance_letters.LETTERS:
        return []
    number = Decimal(f"{before or 0}.{after}")
    if sign and sign != "+":
        number = -number
    scale = _point_scale(letter, asked) if letter in _RKM_UNITS else _prefix_scale(letter, asked)
    if unit_text:
        choices = unit_choices(unit_text.strip())
        if letter in "RELFVA" and any(c.scale.unit != scale.unit or c.scale.exponent for c in choices):
            return []
        return [_finish(number, c.scale._replace(exponent=scale.exponent, prefixed=True), tolerance, "") for c in choices]
    terms = [_finish(number, scale, tolerance, "")]
    if tolerance == "F" and letter in "pnum" and asked.component != "resistor":
        with_unit = scale._replace(implied=False)
        terms = [_finish(number, with_unit, "", "F is the farad"), terms[0]._replace(because="F is a tolerance letter, ±1 %")]
    if letter == "E" and asked.component != "resistor":
        terms = [
            terms[0]._replace(because="E in place of the point, for ohms"),
            Term(Decimal(f"{sign if sign == '-' else ''}{before}e{after}"), Scale(asked.unit), because="e for a power of ten"),
        ]
    return terms


def read_terms(text: str, asked: Asked = Asked(), guess_unit: Callable[[], Scale | None] | None = None) -> list[Term]:  # noqa: B008
    """Every value the text can have, in SI units; one when it is clear, none when it is not a number with a unit.

    ``asked`` settles doubts where it can; ``guess_unit`` supplies the scale of a number that stands without a unit
    (the other end of a range, say). Raises QuantityError for a number with an unknown unit.
    """
    terms = _rkm_terms(text, asked)
    if not terms:
        match = _TERM.fullmatch(text)
        if not match:
            return []
        sign, number_text, exponent, space, unit_text = match.groups()
        numbers = number_choices(number_text)
        if not numbers:
            return []
        meanings = _meanings(unit_text, number_text, bool(space), asked, guess_unit)
        terms = []
        for number, why_number in numbers:
            if exponent:
                number = number.scaleb(int(exponent[1:]))
            if sign.strip() in {"-", "–"}:
                number = -number
            for meaning in meanings:
                value = tolerance_letters.number_code(number_text, meaning.scale.unit) if meaning.code else number
                because = "; ".join(why for why in (why_number, meaning.because) if why)
                terms.append(_finish(value, meaning.scale, meaning.letter, because, meaning.bare))
    if len(terms) > 1 and asked.wanted:
        terms = [term for term in terms if term.unit == asked.wanted] or terms
    return terms


def _meanings(
    unit_text: str | None, digits: str, spaced: bool, asked: Asked, guess_unit: Callable[[], Scale | None] | None
) -> list[_Meaning]:
    if not unit_text:
        scale = guess_unit() if guess_unit else None
        if scale is None and asked.component and asked.unit is None:
            return _bare_meanings(digits, asked.component)
        return [_Meaning(scale or Scale(asked.unit), bare=True)]
    if not spaced and (glued := _glued_meanings(unit_text, digits, asked)):
        return glued
    choices = unit_choices(unit_text)
    if not choices:
        raise unknown_unit(unit_text)
    found = []
    for scale, because in choices:
        if scale.implied and asked.wanted:
            scale = scale._replace(unit=asked.wanted)
        found.append(_Meaning(scale, because=because))
    return found


def unknown_unit(unit_text: str) -> QuantityError:
    """The error for a unit that nothing is known about, with the nearest ones that are."""
    import difflib

    from benchlore.quantity.units import spellings

    shown = unit_text if len(unit_text) <= 30 else unit_text[:30] + "…"
    near = difflib.get_close_matches(unit_text[:12], sorted(spellings()), n=3, cutoff=0.6) if len(unit_text) < 20 else []
    hint = f"did you mean {' or '.join(near)}?" if near else "write a number and a unit, such as 4.7 kΩ, 24 V ±10 % or 9..23 V"
    return QuantityError(f"“{shown}” is not a unit known here", hint=hint)
