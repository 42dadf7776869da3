"""The resistor colour code (IEC 60062), both ways: bands to values, and a value to its bands."""

from __future__ import annotations

import json
from dataclasses import dataclass
from decimal import Decimal
from importlib.resources import files

from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.preferred import is_preferred

_DATA = json.loads(files("benchlore.quantity").joinpath("data/colours.json").read_text(encoding="utf-8"))
_COLOURS: dict[str, dict[str, object]] = _DATA["colours"]
COLOURS: tuple[str, ...] = tuple(_COLOURS)
"""The colours a band can have."""
_NAMES: dict[str, str] = {
    **{name: name for name in _COLOURS},
    **{str(colour["code"]).lower(): name for name, colour in _COLOURS.items()},
    **_DATA["also_called"],
}
_LISTS = {
    "tolerance_newer": "newer lists",
    "tolerance_older": "older lists",
    "tolerance_metal_free": "high-voltage parts without metal in the lacquer",
}
_USUAL_LAST = frozenset({"gold", "silver", "brown", "red", "green", "blue", "violet"})


@dataclass(frozen=True, slots=True)
class ColourReading:
    """One way to read a row of bands.

    ``quantity`` has the ohms and the limits of the tolerance band; ``tcr_ppm`` the temperature coefficient of a sixth
    band in ppm/K; ``reversed`` says that it was read from the other end; ``lists`` names the tables that agree on the
    tolerance (they differ on grey, orange and yellow); ``preferred`` whether the value is in an E series.
    """

    quantity: Quantity
    tolerance_percent: float
    tcr_ppm: float | None
    bands: tuple[str, ...]
    reversed: bool
    lists: tuple[str, ...]
    preferred: bool


def band_names(text: str) -> tuple[str, ...] | None:
    """The colours named in a text (``brown black red gold``, ``BN-BK-RD-GD``); None when a word is no colour."""
    words = text.lower().replace("-", " ").replace(",", " ").replace("/", " ").split()
    names = tuple(_NAMES.get(word, "") for word in words)
    return names if names and all(names) else None


def read_bands(text: str) -> tuple[ColourReading, ...]:
    """Every reading of three to six bands, from both ends, likeliest first.

    Values outside the E series (E24 for two figures; E24, E96 and E192 for three) are dropped when another reading is
    inside. Three bands mean ±20 %. Raises QuantityError when the words are no bands or cannot be a resistor.
    """
    names = band_names(text)
    if names is None or not 3 <= len(names) <= 6:
        raise QuantityError(
            "a resistor has three to six bands", hint="write their colours in order: brown black red gold"
        )
    found = _one_way(text, names, False) + (_one_way(text, names[::-1], True) if names != names[::-1] else [])
    if not found:
        raise QuantityError("no resistor has these bands in this order", hint="gold or silver is never the first band")
    if any(reading.preferred for reading in found):
        found = [reading for reading in found if reading.preferred]
    return tuple(sorted(found, key=_unlikeliness))


def bands_for(
    value: float, *, figures: int = 2, tolerance_percent: float = 5.0, tcr_ppm: float | None = None
) -> tuple[str, ...]:
    """The bands of a resistance in ohms: ``bands_for(4700)`` is yellow, violet, red, gold.

    ``figures`` is 2 or 3; ±20 % has no tolerance band. Raises ValueError when the value has more figures, is out of the
    range of the multipliers, or the tolerance or temperature coefficient has no colour.
    """
    if figures not in {2, 3} or not value > 0:
        raise ValueError("bands show two or three figures of a positive value")
    exact = Decimal(repr(float(value))).normalize()
    power = exact.adjusted() - figures + 1
    digits = exact.scaleb(-power)
    if digits != digits.to_integral_value():
        raise ValueError(f"{value} has more than {figures} figures")
    names = [_find("digit", int(digit), "figure") for digit in str(int(digits))]
    names.append(_find("power", power, "multiplier"))
    if Decimal(repr(float(tolerance_percent))) != Decimal(_DATA["no_band_tolerance"]):
        names.append(_find_tolerance(tolerance_percent))
    if tcr_ppm is not None:
        if figures != 3:
            raise ValueError("a temperature coefficient goes with three figures")
        names.append(_find("tcr", int(tcr_ppm), "temperature coefficient"))
    return tuple(names)


def _one_way(text: str, names: tuple[str, ...], is_reversed: bool) -> list[ColourReading]:
    count = 2 if len(names) <= 4 else 3
    figures = [_COLOURS[name]["digit"] for name in names[:count]]
    if any(figure is None for figure in figures) or figures[0] == 0:
        return []
    power = _COLOURS[names[count]]["power"]
    assert isinstance(power, int)
    value = Decimal("".join(str(figure) for figure in figures)).scaleb(power)
    tolerances = _tolerances(names[count + 1]) if len(names) > count + 1 else {Decimal(_DATA["no_band_tolerance"]): ()}
    tcr = None
    if len(names) == 6:
        written = _COLOURS[names[5]]["tcr"]
        if written is None:
            return []
        tcr = float(str(written))
    series = ("E24",) if count == 2 else ("E24", "E192")
    preferred = any(is_preferred(float(value), name) for name in series)
    readings = []
    for percent, lists in tolerances.items():
        low, high = value * (100 - percent) / 100, value * (100 + percent) / 100
        quantity = Quantity(text, "tolerance", "ohm", float(value), float(low), float(high))
        readings.append(ColourReading(quantity, float(percent), tcr, names, is_reversed, lists, preferred))
    return readings


def _tolerances(name: str) -> dict[Decimal, tuple[str, ...]]:
    """Per cent: the lists that give it to this colour."""
    found: dict[Decimal, tuple[str, ...]] = {}
    for key, lists in _LISTS.items():
        written = _COLOURS[name].get(key)
        if written is not None:
            percent = Decimal(str(written))
            found[percent] = (*found.get(percent, ()), lists)
    return found


def _unlikeliness(reading: ColourReading) -> tuple[bool, bool, bool]:
    tolerance_band = reading.bands[-2 if len(reading.bands) == 6 else -1]
    ohms = reading.quantity.value or 0.0
    unusual = len(reading.bands) > 3 and tolerance_band not in _USUAL_LAST
    return (not 0.001 <= ohms <= 1e9, unusual, reading.reversed)


def _find(key: str, wanted: int, what: str) -> str:
    for name, colour in _COLOURS.items():
        if colour[key] == wanted:
            return name
    raise ValueError(f"no colour stands for the {what} {wanted}")


def _find_tolerance(percent: float) -> str:
    wanted = Decimal(repr(float(percent))).normalize()
    for name, colour in _COLOURS.items():
        written = colour.get("tolerance_newer")
        if written is not None and Decimal(str(written)) == wanted:
            return name
    raise ValueError(f"no colour stands for a tolerance of {percent} %")
