"""Reads what is printed on components: number codes, EIA-96, voltage, dielectric and date codes."""

from __future__ import annotations

import contextlib
import json
import re
from dataclasses import dataclass
from decimal import Decimal
from importlib.resources import files

from benchlore.quantity import tolerance_letters
from benchlore.quantity.model import Quantity, QuantityError, Reading
from benchlore.quantity.parse import readings_of
from benchlore.quantity.preferred import figures

_DATA = json.loads(files("benchlore.quantity").joinpath("data/markings.json").read_text(encoding="utf-8"))
_EIA96: dict[str, int] = _DATA["eia96"]["multipliers"]
_EIA96_DOUBTFUL: dict[str, list[int]] = _DATA["eia96"]["doubtful"]
_LINK = re.compile(r"0{1,4}")
_RESISTOR_DIGITS = re.compile(r"[0-9]{3,4}")
_WITH_R = re.compile(r"[0-9]{0,3}R[0-9]{0,3}")
_CERAMIC = re.compile(r"([0-9]{2}[0-689])([A-Z]?)")
_EIA96_CODE = re.compile(r"(0[1-9]|[1-8][0-9]|9[0-6])([A-Z])")
_VOLTAGE = re.compile(r"([0-3])([A-Z])")
_DIELECTRIC = re.compile(r"([XYZ])([5678])([PRSTUV])")
_NPO = frozenset({"C0G", "COG", "NP0", "NPO"})
_LAST_YEAR = 2039


@dataclass(frozen=True, slots=True)
class Dielectric:
    """What an EIA dielectric code promises: temperatures in °C, and the change over them in per cent.

    ``change_ppm`` is set instead of the per cents for class 1 (C0G: 0 ±30 ppm/K).
    """

    code: str
    low_degc: float
    high_degc: float
    change_low_percent: float | None = None
    change_high_percent: float | None = None
    change_ppm: float | None = None


def resistor_code(text: str) -> Quantity | None:
    """The ohms of a chip resistor's three- or four-digit code, or of a code with R; None when it is neither.

    ``334`` is 330 kΩ, ``4992`` 49.9 kΩ, ``100`` 10 Ω, ``R300`` 0.3 Ω, ``000`` a link. Common practice of chip
    resistors, second-hand from public lists.
    """
    code = text.strip()
    if _LINK.fullmatch(code):
        return Quantity(text, "value", "ohm", 0.0)
    if _RESISTOR_DIGITS.fullmatch(code) and code[0] != "0":
        return Quantity(text, "value", "ohm", float(tolerance_letters.number_code(code, "ohm")))
    if _WITH_R.fullmatch(code) and len(code) > 1:
        return Quantity(text, "value", "ohm", float("0" + code.replace("R", ".") + "0"))
    return None


def eia96(text: str, *, letters_r_and_s: bool = False) -> tuple[Quantity, ...]:
    """The ohms of an EIA-96 code such as ``68X`` (49.9 Ω ±1 %); empty when it is none.

    Two figures give the place in the E96 series, the letter a power of ten. Lists disagree on R and S, which are read
    only with ``letters_r_and_s``, and then both ways.
    """
    match = _EIA96_CODE.fullmatch(text.strip().upper())
    if not match:
        return ()
    powers = [_EIA96[match[2]]] if match[2] in _EIA96 else _EIA96_DOUBTFUL.get(match[2], []) if letters_r_and_s else []
    figure = Decimal(figures("E96")[int(match[1]) - 1])
    return tuple(_with_percent(text, figure.scaleb(power), "ohm") for power in powers)


def _with_percent(text: str, value: Decimal, unit: str) -> Quantity:
    percent = Decimal(_DATA["eia96"]["tolerance_percent"])
    low, high = value * (100 - percent) / 100, value * (100 + percent) / 100
    return Quantity(text, "tolerance", unit, float(value), float(low), float(high))


def ceramic_code(text: str) -> Quantity | None:
    """The farads of a ceramic capacitor's code in picofarads: ``104`` is 100 nF, ``229`` 2.2 pF, ``104K`` ±10 %.

    None when it is no such code. 8 and 9 as the last figure mean ×0.01 and ×0.1 (from memory, high confidence).
    """
    match = _CERAMIC.fullmatch(text.strip().upper())
    if not match or match[1] == "000":
        return None
    value = tolerance_letters.number_code(match[1], "F").scaleb(-12)
    if not match[2]:
        return Quantity(text, "value", "F", float(value))
    if match[2] not in tolerance_letters.LETTERS:
        return None
    low, high = tolerance_letters.limits(match[2], value, "F")
    return Quantity(text, "tolerance", "F", float(value), float(low), float(high))


def voltage_code(text: str) -> Quantity | None:
    """The rated d.c. volts of a capacitor's voltage code: ``1H`` is 50 V, ``0J`` 6.3 V; None when it is none."""
    match = _VOLTAGE.fullmatch(text.strip().upper())
    mantissa = _DATA["voltage"]["mantissas"].get(match[2]) if match else None
    if match is None or mantissa is None:
        return None
    return Quantity(text, "value", "V", float(Decimal(mantissa).scaleb(int(match[1]))), qualifier="dc")


def dielectric_code(text: str) -> Dielectric | None:
    """What an EIA dielectric code such as ``X7R`` promises; None when it is no such code."""
    code = text.strip().upper()
    if code in _NPO:
        return Dielectric("C0G", -55.0, 125.0, change_ppm=30.0)
    match = _DIELECTRIC.fullmatch(code)
    if not match:
        return None
    low, high = _DATA["dielectric"]["change"][match[3]]
    return Dielectric(
        code, _DATA["dielectric"]["low"][match[1]], _DATA["dielectric"]["high"][match[2]], float(low), float(high)
    )


def date_code(text: str, *, made: int | None = None, latest: int = _LAST_YEAR) -> tuple[tuple[int, int], ...]:
    """Every (year, month) that a two-character date code can mean, oldest first; empty when it is none.

    Year letters come round every twenty years, so one code has several meanings: ``made``, the year the equipment was
    made, keeps the latest that is not after it, ``latest`` leaves out years yet to come. IEC 60062, the table from
    memory (medium confidence): never judge by it alone.
    """
    code, data = text.strip().upper(), _DATA["date"]
    if len(code) != 2 or code[0] not in data["years"] or code[1] not in data["months"]:
        return ()
    first = data["first_year"] + data["years"].index(code[0])
    month = data["months"][code[1]]
    years = [year for year in range(first, _LAST_YEAR + 1, data["cycle"]) if year <= latest]
    if made is not None:
        years = [year for year in years if year <= made][-1:]
    return tuple((year, month) for year in years)


def marking_readings(text: str, component: str | None = None) -> tuple[Reading, ...]:
    """Every value that a marking can state on the components it could be on, likeliest first; never raises.

    Letter-digit codes win over EIA-96 where both fit (``22R`` is 22 Ω, and perhaps 16.5 Ω or 1.65 Ω).
    """
    found: list[Reading] = []
    if not _RESISTOR_DIGITS.fullmatch(text.strip()):
        with contextlib.suppress(QuantityError):
            found += (
                Reading(reading.quantity, reading.because or "as written")
                for reading in readings_of(text, component=component)
            )
    if component in {None, "resistor"}:
        if (ohms := resistor_code(text)) is not None:
            found.append(Reading(ohms, "a link" if ohms.value == 0 else "a chip resistor's number code"))
        exact = eia96(text)
        coded = [Reading(quantity, "a chip resistor's EIA-96 code") for quantity in exact]
        found = coded + found if component == "resistor" else found + coded
        if not exact:
            found += (
                Reading(quantity, "EIA-96, by lists that use R and S")
                for quantity in eia96(text, letters_r_and_s=True)
            )
    if component in {None, "capacitor"}:
        if (farads := ceramic_code(text)) is not None:
            found.append(Reading(farads, "a ceramic capacitor's number code, in picofarads"))
        if (volts := voltage_code(text)) is not None:
            found.append(Reading(volts, "a capacitor's voltage code"))
    return tuple(_unique(found))


def _unique(readings: list[Reading]) -> list[Reading]:
    seen: dict[tuple[object, ...], Reading] = {}
    for reading in readings:
        quantity = reading.quantity
        seen.setdefault((quantity.kind, quantity.unit, quantity.value, quantity.low, quantity.high), reading)
    return list(seen.values())
