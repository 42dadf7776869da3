"""Settles the letters written against a number: a multiplier, a unit, or a tolerance letter (IEC 60062)."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from benchlore.quantity import tolerance_letters
from benchlore.quantity.units import PREFIXES, TAKES_PREFIX, Scale, unit_choices

COMPONENT_UNITS: dict[str, str] = {"resistor": "ohm", "capacitor": "F", "inductor": "H"}
"""The unit that a component's marking is in, when it does not say."""


class Asked(NamedTuple):
    """What the caller knows: the unit expected, and the kind of component marked."""

    unit: str | None = None
    component: str | None = None

    @property
    def wanted(self) -> str | None:
        """The unit that settles doubts."""
        return self.unit or (COMPONENT_UNITS[self.component] if self.component else None)


class Meaning(NamedTuple):
    """One meaning of the letters after a number: the scale, a tolerance letter if one is among them, and why.

    ``bare`` says that there were no letters; ``code`` that the number is figures and noughts.
    """

    scale: Scale
    letter: str = ""
    because: str = ""
    bare: bool = False
    code: bool = False


_MULTIPLIERS = frozenset("kKMGTpnu")
_FIRM = frozenset("FHVAWN")
"""Last letters of units too common to be taken for a tolerance (nF, mH, kV, uA, mW, kN)."""
_USUAL_TOLERANCES = frozenset("BCDFGJKMZ")
"""Letters taken for a tolerance right after a multiplier (100nM); the rest are likelier slips, as kH for kHz."""
_POINT = {"R": ("ohm", 0), "E": ("ohm", 0), "L": ("ohm", -3), "F": ("F", 0), "V": ("V", 0), "A": ("A", 0)}
_CODE_EXPONENTS = {"ohm": 0, "F": -12, "H": -6}


def prefix_scale(letter: str, asked: Asked) -> Scale:
    """The scale of a bare multiplier: ohms from k up, farads from m down, unless the caller wants another unit."""
    usual = "F" if letter in "pnum" else "ohm"
    wanted = asked.wanted if asked.wanted in TAKES_PREFIX else None
    return Scale(wanted or usual, PREFIXES[letter], prefixed=True, implied=True)


def point_scale(letter: str, asked: Asked) -> Scale:
    """The scale of a letter that stands for the decimal point itself: R, E, L (milliohm), F, V, A."""
    if letter == "R" and asked.component == "inductor":  # not in the standard; common on moulded chokes
        return Scale("H", -6, prefixed=True)
    unit, exponent = _POINT[letter]
    return Scale(unit, exponent, prefixed=letter == "L")


def glued_meanings(letters: str, digits: str, asked: Asked) -> list[Meaning]:
    """What ``letters`` written against ``digits`` can mean; nothing when they are no unit, multiplier or tolerance."""
    component = asked.component
    code = _ceramic(letters, digits, component)
    if code and component == "capacitor":
        return [code]
    plain = _plain(letters, asked)
    marked = _marked(letters, asked)
    if plain and marked:
        if (len(letters) == 2 and letters[-1] in _FIRM) or (component == "capacitor" and letters == "F"):
            marked = None
        elif component in {"resistor", "capacitor"}:
            plain = []
    return plain + [meaning for meaning in (marked, code) if meaning]


def bare_meanings(digits: str, component: str) -> list[Meaning]:
    """A number alone on a component: figures and a number of noughts, or the value as it stands."""
    unit = COMPONENT_UNITS[component]
    is_code = digits.isdigit() and len(digits) in ({3, 4} if unit == "ohm" else {3})
    coded = Meaning(Scale(unit, _CODE_EXPONENTS[unit], prefixed=unit != "ohm"), because="a number code", code=True)
    if unit == "ohm":
        plain = Meaning(Scale("ohm"), because="the value in ohms", bare=True)
        return [coded, plain] if is_code else [plain]
    if is_code:
        plain = Meaning(coded.scale, because="the value as it stands", bare=True)
        return [coded, plain] if digits.endswith("0") else [coded]
    exponent = -12 if unit == "F" and digits.isdigit() else -6
    return [Meaning(Scale(unit, exponent, prefixed=True), because="the value as it stands", bare=True)]


def _plain(letters: str, asked: Asked) -> list[Meaning]:
    if letters in _MULTIPLIERS:
        return [Meaning(prefix_scale(letters, asked), because=f"{letters} is the multiplier")]
    if letters in {"E", "R", "L"}:
        return [Meaning(point_scale(letters, asked))]
    if letters == "m":
        if asked.wanted not in {None, "m", "s"}:
            return [Meaning(prefix_scale("m", asked))]
        return [
            Meaning(Scale("m"), because="m is the metre (10 m, with a space)"),
            Meaning(Scale("s", 0, Decimal(60)), because="m for minutes, which are written min"),
            Meaning(Scale("F", -3, prefixed=True), because="a capacitor marked in thousandths of a farad"),
        ]
    return [Meaning(choice.scale, because=choice.because or "a unit") for choice in unit_choices(letters)]


def _marked(letters: str, asked: Asked) -> Meaning | None:
    letter = letters[-1]
    if letter not in tolerance_letters.LETTERS or len(letters) > 2:
        return None
    because = f"{letter} is a tolerance letter"
    point = letters[0]
    if len(letters) == 1:
        on_resistor = asked.component == "resistor" and letter not in _MULTIPLIERS and letter not in "ELHWN"
        perhaps = letter in "JF" and asked.component is None and asked.wanted in {None, "ohm"}
        return Meaning(Scale("ohm"), letter, because) if on_resistor or perhaps else None
    if point in {"R", "E", "L"}:
        return Meaning(point_scale(point, asked), letter, because)
    if letter not in _USUAL_TOLERANCES:
        return None
    if point in _MULTIPLIERS or (point == "m" and asked.component == "capacitor"):
        return Meaning(prefix_scale(point, asked), letter, because)
    return None


def _ceramic(letters: str, digits: str, component: str | None) -> Meaning | None:
    if component not in {None, "capacitor"} or len(letters) != 1 or letters not in tolerance_letters.LETTERS:
        return None
    if len(digits) != 3 or not digits.isdigit():
        return None
    likely = letters in "JKMZ" and digits[2] in "123456" and int(digits[:2]) in tolerance_letters.E24
    if component is None and not likely:
        return None
    return Meaning(Scale("F", -12, prefixed=True), letters, "a ceramic capacitor's number code", code=True)
