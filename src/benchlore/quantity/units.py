"""Which units there are, how technicians spell them, and what one of each is in SI units."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from benchlore.quantity.model import Qualifier

PREFIXES: dict[str, int] = {
    "f": -15, "p": -12, "n": -9, "u": -6, "m": -3, "c": -2, "h": 2, "k": 3, "K": 3, "M": 6, "G": 9, "T": 12
}  # fmt: skip
"""SI prefix letters and their powers of ten (BIPM SI brochure); ``K`` is what many write for kilo."""


class Scale(NamedTuple):
    """How a written unit becomes ours: ``si = (number + shift) * times * 10**exponent``, in ``unit``.

    ``prefixed`` tells ``kΩ`` from ``Ω``; ``implied`` marks a bare prefix letter (``10k``) whose unit is only the
    usual one; ``qualifier`` is what ``VAC`` or ``Vpp`` add.
    """

    unit: str | None
    exponent: int = 0
    times: Decimal | None = None
    shift: Decimal | None = None
    qualifier: Qualifier | None = None
    prefixed: bool = False
    implied: bool = False


class Choice(NamedTuple):
    """One meaning of a unit text, and in words why it could be meant (empty when there is no other)."""

    scale: Scale
    because: str = ""


# symbol: prefixes it takes, spellings that take them, spellings in words or with their own factor (never prefixed).
_SI: dict[str, tuple[str, tuple[str, ...]]] = {
    "V": ("numkKM", ("V", "v", "volt", "volts", "Volt", "Volts")),
    "A": ("pnumkK", ("A", "a", "amp", "amps", "Amp", "Amps", "ampere", "amperes")),
    "ohm": ("numkKMGT", ("ohm", "ohms", "Ohm", "Ohms", "OHM", "OHMS")),
    "F": ("fpnu", ("F", "f", "farad", "farads", "Farad")),
    "H": ("pnum", ("H", "henry", "henries")),
    "Hz": ("mkKMG", ("Hz", "hz", "HZ", "c/s", "hertz", "Hertz")),
    "s": ("fpnum", ("s", "sec", "secs", "second", "seconds")),
    "m": ("numck", ("m", "metre", "metres", "meter", "meters")),
    "W": ("pnumkKMG", ("W", "w", "watt", "watts", "Watt", "Watts")),
    "J": ("numkKM", ("J", "joule", "joules", "Joule")),
    "C": ("pnum", ("coulomb", "coulombs")),
    "K": ("m", ("kelvin", "Kelvin")),
    "Pa": ("mhkKM", ("Pa", "pascal")),
    "N": ("mkK", ("N", "newton", "newtons")),
    "Nm": ("mk", ("Nm", "N·m", "N m")),
    "l": ("um", ("l", "litre", "litres", "liter", "liters")),
    "lm": ("mk", ("lm", "lumen", "lumens")),
    "lx": ("mk", ("lx", "lux")),
    "cd": ("m", ("cd", "candela")),
    "VA": ("mkKM", ("VA", "va")),
    "var": ("kKM", ("var", "VAr", "VAR")),
    "Ah": ("umk", ("Ah", "AH", "ah")),
    "Wh": ("mkKM", ("Wh", "WH", "wh")),
    "S": ("numk", ("siemens", "Siemens")),
    "T": ("num", ("tesla", "Tesla")),
    "Bd": ("kM", ("Bd", "baud")),
    "rad": ("m", ("rad", "radian", "radians")),
}
TAKES_PREFIX = frozenset(_SI) - {"K", "S", "T", "C"}
"""Units that a bare prefix letter may stand for when one of them is expected."""
_D = Decimal
# spelling: unit, power of ten, factor, shift.
_OTHER: dict[str, tuple[str, int, Decimal | None, Decimal | None]] = {
    "g": ("kg", -3, None, None), "mg": ("kg", -6, None, None), "kg": ("kg", 0, None, None),
    "Kg": ("kg", 0, None, None), "KG": ("kg", 0, None, None),
    "gram": ("kg", -3, None, None), "grams": ("kg", -3, None, None),
    "ug": ("kg", -9, None, None), "t": ("kg", 3, None, None),
    "%": ("%", 0, None, None), "percent": ("%", 0, None, None), "per cent": ("%", 0, None, None),
    "pct": ("%", 0, None, None), "ppm": ("ppm", 0, None, None), "ppm/K": ("ppm/K", 0, None, None),
    "ppm/°C": ("ppm/K", 0, None, None),
    "%RH": ("%RH", 0, None, None), "% RH": ("%RH", 0, None, None), "%rh": ("%RH", 0, None, None),
    "% rh": ("%RH", 0, None, None), "%r.h.": ("%RH", 0, None, None),
    "°C": ("degC", 0, None, None), "degC": ("degC", 0, None, None), "deg C": ("degC", 0, None, None),
    "deg. C": ("degC", 0, None, None), "° C": ("degC", 0, None, None), "degrees C": ("degC", 0, None, None),
    "Celsius": ("degC", 0, None, None), "celsius": ("degC", 0, None, None), "°c": ("degC", 0, None, None),
    "degc": ("degC", 0, None, None),
    "°F": ("degC", 0, _D(5) / _D(9), _D(-32)), "degF": ("degC", 0, _D(5) / _D(9), _D(-32)),
    "deg F": ("degC", 0, _D(5) / _D(9), _D(-32)),
    "° angle": ("deg", 0, None, None), "deg angle": ("deg", 0, None, None), "angular degrees": ("deg", 0, None, None),
    "bar": ("Pa", 5, None, None), "mbar": ("Pa", 2, None, None), "psi": ("Pa", 0, _D("6894.757293168"), None),
    "mmHg": ("Pa", 0, _D("133.322387415"), None), "inHg": ("Pa", 0, _D("3386.388640341"), None),
    "min": ("s", 0, _D(60), None), "mins": ("s", 0, _D(60), None), "minute": ("s", 0, _D(60), None),
    "minutes": ("s", 0, _D(60), None), "h": ("s", 0, _D(3600), None), "hr": ("s", 0, _D(3600), None),
    "hrs": ("s", 0, _D(3600), None), "hour": ("s", 0, _D(3600), None), "hours": ("s", 0, _D(3600), None),
    "d": ("s", 0, _D(86400), None), "day": ("s", 0, _D(86400), None), "days": ("s", 0, _D(86400), None),
    "week": ("s", 0, _D(604800), None), "weeks": ("s", 0, _D(604800), None),
    "year": ("s", 0, _D(31557600), None), "years": ("s", 0, _D(31557600), None),
    "in": ("m", 0, _D("0.0254"), None), "inch": ("m", 0, _D("0.0254"), None), "inches": ("m", 0, _D("0.0254"), None),
    '"': ("m", 0, _D("0.0254"), None), "ft": ("m", 0, _D("0.3048"), None), "thou": ("m", 0, _D("0.0000254"), None),
    "micron": ("m", -6, None, None), "microns": ("m", -6, None, None),
    "m2": ("m2", 0, None, None), "cm2": ("m2", -4, None, None), "mm2": ("m2", -6, None, None),
    "rpm": ("rpm", 0, None, None), "RPM": ("rpm", 0, None, None), "r/min": ("rpm", 0, None, None),
    "1/min": ("rpm", 0, None, None), "rev/min": ("rpm", 0, None, None), "krpm": ("rpm", 3, None, None),
    "rps": ("rpm", 0, _D(60), None),
    "l/min": ("l/min", 0, None, None), "L/min": ("l/min", 0, None, None), "lpm": ("l/min", 0, None, None),
    "ml/min": ("l/min", -3, None, None), "l/s": ("l/min", 0, _D(60), None), "l/h": ("l/min", 0, _D(1) / _D(60), None),
    "m3/h": ("l/min", 0, _D(1000) / _D(60), None),
    "L": ("l", 0, None, None), "ml": ("l", -3, None, None), "mL": ("l", -3, None, None), "cl": ("l", -2, None, None),
    "m/s": ("m/s", 0, None, None), "Ncm": ("Nm", -2, None, None), "N cm": ("Nm", -2, None, None),
    "dB": ("dB", 0, None, None), "db": ("dB", 0, None, None), "dBm": ("dBm", 0, None, None),
    "dBV": ("dBV", 0, None, None), "dBu": ("dBu", 0, None, None), "dBA": ("dBA", 0, None, None),
    "K/W": ("K/W", 0, None, None), "°C/W": ("K/W", 0, None, None),
    "V/us": ("V/s", 6, None, None), "kV/us": ("V/s", 9, None, None), "V/s": ("V/s", 0, None, None),
    "A2s": ("A2s", 0, None, None), "A2 s": ("A2s", 0, None, None), "A^2s": ("A2s", 0, None, None),
    "turn": ("turn", 0, None, None), "turns": ("turn", 0, None, None),
    "cycle": ("cycle", 0, None, None), "cycles": ("cycle", 0, None, None),
    "C": ("C", 0, None, None), "T": ("T", 0, None, None), "K": ("K", 0, None, None), "S": ("S", 0, None, None),
    # Capacitors as old parts were marked (from memory, high confidence): MFD is microfarad, MMFD picofarad.
    "MFD": ("F", -6, None, None), "mfd": ("F", -6, None, None), "Mfd": ("F", -6, None, None),
    "MF": ("F", -6, None, None), "ufd": ("F", -6, None, None), "UF": ("F", -6, None, None),
    "MMFD": ("F", -12, None, None), "mmfd": ("F", -12, None, None), "MMF": ("F", -12, None, None),
    "mmf": ("F", -12, None, None), "uuF": ("F", -12, None, None), "PF": ("F", -12, None, None),
    "NF": ("F", -9, None, None), "UH": ("H", -6, None, None), "uh": ("H", -6, None, None), "mh": ("H", -3, None, None),
    "megohm": ("ohm", 6, None, None), "megohms": ("ohm", 6, None, None), "Megohm": ("ohm", 6, None, None),
    "Megohms": ("ohm", 6, None, None), "MEGOHM": ("ohm", 6, None, None), "meg ohm": ("ohm", 6, None, None),
    "Meg ohm": ("ohm", 6, None, None), "meg ohms": ("ohm", 6, None, None), "Megaohm": ("ohm", 6, None, None),
    "megaohm": ("ohm", 6, None, None), "kilohm": ("ohm", 3, None, None), "kilohms": ("ohm", 3, None, None),
    "k ohm": ("ohm", 3, None, None), "k ohms": ("ohm", 3, None, None), "K ohm": ("ohm", 3, None, None),
    "K ohms": ("ohm", 3, None, None), "M ohm": ("ohm", 6, None, None), "M ohms": ("ohm", 6, None, None),
    "KOHM": ("ohm", 3, None, None), "MOHM": ("ohm", 6, None, None), "KOHMS": ("ohm", 3, None, None),
    "milliohm": ("ohm", -3, None, None), "milliohms": ("ohm", -3, None, None),
    "kilovolt": ("V", 3, None, None), "millivolts": ("V", -3, None, None), "microfarad": ("F", -6, None, None),
    "microfarads": ("F", -6, None, None), "nanofarad": ("F", -9, None, None), "picofarad": ("F", -12, None, None),
}  # fmt: skip
_PREFIXED = {"mg", "kg", "Kg", "KG", "ug", "mbar", "krpm", "ml", "mL", "ml/min", "cm2", "mm2", "kV/us", "Ncm", "N cm",
             "cl"}  # fmt: skip


def _table() -> dict[str, Scale]:
    table: dict[str, Scale] = {}
    for unit, (prefixes, spellings) in _SI.items():
        for spelling in spellings:
            table[spelling] = Scale(unit)
            for prefix in prefixes:
                table[prefix + spelling] = Scale(unit, PREFIXES[prefix], prefixed=True)
    for spelling, (unit, exponent, times, shift) in _OTHER.items():
        prefixed = spelling in _PREFIXED or (unit in {"ohm", "F", "H", "V"} and exponent != 0)
        table[spelling] = Scale(unit, exponent, times, shift, prefixed=prefixed)
    for prefix in ("n", "u", "m", "p"):
        table[prefix + "C"] = Scale("C", PREFIXES[prefix], prefixed=True)
        table[prefix + "T"] = Scale("T", PREFIXES[prefix], prefixed=True)
    del table["f"]  # too little to go by
    for word, (default, exponent) in {
        "R": ("ohm", 0), "k": ("ohm", 3), "M": ("ohm", 6), "Meg": ("ohm", 6), "meg": ("ohm", 6), "MEG": ("ohm", 6),
        "mega": ("ohm", 6), "p": ("F", -12), "n": ("F", -9), "u": ("F", -6),
    }.items():  # fmt: skip
        table[word] = Scale(default, exponent, prefixed=exponent != 0, implied=word != "R")
    return table


_TABLE = _table()


def _doubtful() -> dict[str, tuple[Choice, ...]]:
    doubtful: dict[str, tuple[Choice, ...]] = {}

    def either(spelling: str, *choices: tuple[Scale, str]) -> None:
        doubtful[spelling] = tuple(Choice(scale, because) for scale, because in choices)

    milli_micro = (
        (Scale("F", -3, prefixed=True), "mF is millifarad in SI"),
        (Scale("F", -6, prefixed=True), "old parts say mF or MF for microfarad"),
    )
    for spelling in ("mF", "mf", "m F"):
        either(spelling, *milli_micro)
    kilo = Scale("ohm", 3, prefixed=True, implied=True)
    either("K", (kilo, "K for kilo, as on resistors"), (Scale("K"), "K is the kelvin"))
    either("C", (Scale("degC"), "C for degrees Celsius"), (Scale("C"), "C is the coulomb"))
    for spelling in ("°", "deg", "degs", "degree", "degrees"):
        either(spelling, (Scale("degC"), "degrees of temperature"), (Scale("deg"), "degrees of angle"))
    for spelling in ("mil", "mils"):
        either(
            spelling,
            (Scale("m", 0, Decimal("0.0000254")), "mil is a thousandth of an inch"),
            (Scale("m", -3, prefixed=True), "mil is also said for millimetre"),
        )
    for prefix in ("", "n", "u", "m"):
        exponent = PREFIXES.get(prefix, 0)
        either(
            prefix + "S",
            (Scale("S", exponent, prefixed=bool(prefix)), "S is the siemens"),
            (Scale("s", exponent, prefixed=bool(prefix)), "S for seconds, which are written s"),
        )
    for unit in ("V", "A", "W", "H", "VA", "Ah"):
        either(
            "M" + unit,
            (Scale(unit, 6, prefixed=True), "M is mega"),
            (Scale(unit, -3, prefixed=True), "M for milli, which is written m"),
        )
    for spelling in ("mhz", "mHZ"):
        either(
            spelling,
            (Scale("Hz", 6, prefixed=True), "m for mega, which is written M"),
            (Scale("Hz", -3, prefixed=True), "m is milli"),
        )
    either(
        "MM",
        (Scale("m", -3, prefixed=True), "capitals for mm"),
        (Scale("m", 6, prefixed=True), "M is mega"),
    )
    either(
        "MS",
        (Scale("s", -3, prefixed=True), "capitals for ms"),
        (Scale("S", 6, prefixed=True), "megasiemens"),
    )
    return doubtful


_DOUBTFUL = _doubtful()
_QUALIFIERS: dict[str, Qualifier] = {
    "ac": "ac", "dc": "dc", "rms": "rms", "trms": "rms", "pk": "peak", "peak": "peak", "p": "peak", "pp": "pp",
    "p-p": "pp", "pk-pk": "pp", "pkpk": "pp", "peak-to-peak": "pp", "peak to peak": "pp", "p to p": "pp",
    "=": "dc", "~": "ac",
}  # fmt: skip
_QUALIFIED = re.compile(
    r"(.*?) ?((?: ?(?:a\.?c\.?|d\.?c\.?|t?rms|peak[ -]to[ -]peak|p to p|peak|pk-?pk|pk|p-p|pp|p|=|~))+)", re.IGNORECASE
)
_QUALIFIER = re.compile(
    r"a\.?c\.?|d\.?c\.?|t?rms|peak[ -]to[ -]peak|p to p|peak|pk-?pk|pk|p-p|pp|p|=|~", re.IGNORECASE
)
_QUALIFIABLE = frozenset({"V", "A", "W"})
_LONGEST_UNIT_TEXT = 40


def known_units() -> frozenset[str]:
    """The symbols of every unit a quantity can end up in (``V``, ``ohm``, ``F``, ``degC`` ...)."""
    return frozenset(scale.unit for scale in _TABLE.values() if scale.unit) | {"deg"}


def spellings() -> frozenset[str]:
    """Every unit spelling that is understood, prefixes included, qualifiers such as ``ac`` left aside."""
    return frozenset(_TABLE) | frozenset(_DOUBTFUL)


def canonical_unit(text: str) -> str | None:
    """The symbol of a unit named in any known spelling (``Ω``, ``Ohm``, ``volts``); None when it is not known."""
    if text in known_units():
        return text
    choices = unit_choices(text.replace("Ω", "ohm").replace("Ω", "ohm").replace("µ", "u").replace("μ", "u"))
    return choices[0].scale.unit if len(choices) == 1 else None


@lru_cache(maxsize=4096)
def unit_choices(text: str) -> tuple[Choice, ...]:
    """What a unit text can mean: one choice when it is clear, several when it is not, none when it is unknown.

    ``text`` has been through :func:`benchlore.quantity.normalise.normalise`. Qualifiers (``VAC``, ``V p-p``) are
    taken off voltages, currents and powers.
    """
    if text in _DOUBTFUL:
        return _DOUBTFUL[text]
    if text in _TABLE:
        return (Choice(_TABLE[text]),)
    if len(text) > _LONGEST_UNIT_TEXT:
        return ()
    match = _QUALIFIED.fullmatch(text)
    if match and match[1]:
        qualifier = _one_qualifier(match[2])
        if qualifier is not None:
            return tuple(
                Choice(scale._replace(qualifier=qualifier), because)
                for scale, because in unit_choices(match[1])
                if scale.unit in _QUALIFIABLE and scale.qualifier is None
            )
    return ()


def _one_qualifier(text: str) -> Qualifier | None:
    found = [_QUALIFIERS[word.lower() if word[0] not in "aAdD" else word.lower().replace(".", "")]
             for word in _QUALIFIER.findall(text)]  # fmt: skip
    if len(found) == 2 and "ac" in found:  # "V ac rms" is what "V ac" means; "V ac pk" is a peak
        other = found[1 - found.index("ac")]
        return "ac" if other in {"ac", "rms"} else None if other == "dc" else other
    return found[0] if len(found) == 1 else None


def qualifier(word: str) -> Qualifier | None:
    """The qualifier that a word says (``AC``, ``d.c.``, ``p-p``), or None."""
    return _one_qualifier(word) if _QUALIFIER.fullmatch(word) else None
