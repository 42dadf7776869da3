"""Preferred numbers (IEC 60063): the E series, whether a value is one of them, and the nearest that is."""

from __future__ import annotations

import json
import math
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Literal

Distance = Literal["absolute", "log"]

_DATA = json.loads(files("benchlore.quantity").joinpath("data/preferred.json").read_text(encoding="utf-8"))
SERIES: tuple[str, ...] = tuple(_DATA["figures"])
"""The names of the series, coarsest first: E3 to E192."""
TOLERANCE_PERCENT: dict[str, float] = {name: float(percent) for name, percent in _DATA["tolerances"].items()}
"""The tolerance each series was made for, in per cent either way; E192 also serves tighter ones."""


@cache
def figures(series: str) -> tuple[int, ...]:
    """The figures of one decade, two or three digits each: ``figures("E6")`` is 10, 15, 22, 33, 47, 68.

    Computed as 10^(i/n), with the standard's exceptions (E24 and what descends from it, and 920 in E192).
    Raises ValueError for a series that does not exist.
    """
    if series not in _DATA["figures"]:
        raise ValueError(f"there is no series {series!r}; there are {', '.join(SERIES)}")
    count, digits = int(series[1:]), _DATA["figures"][series]
    if digits == 2 and count < 24:
        return figures("E24")[:: 24 // count]
    if digits == 3 and count < 192:
        return figures("E192")[:: 192 // count]
    exceptions = _DATA["exceptions"][series]
    computed = (round(10 ** (digits - 1 + step / count)) for step in range(count))
    return tuple(exceptions.get(str(value), value) for value in computed)


def is_preferred(value: float, series: str = "E24") -> bool:
    """Whether ``value`` (positive, any unit) is in the series, to the figures of its shortest decimal form."""
    if not value > 0 or math.isinf(value):
        return False
    digits = len(str(figures(series)[0]))
    mantissa = Decimal(repr(float(f"{value:.9g}"))).normalize()
    scaled = mantissa.scaleb(digits - 1 - mantissa.adjusted())
    return scaled == scaled.to_integral_value() and int(scaled) in figures(series)


def coarsest_series(value: float) -> str | None:
    """The coarsest series that holds the value: ``E6`` for 6800, ``E96`` for 4990; None when no series does."""
    return next((series for series in SERIES if is_preferred(value, series)), None)


def nearest(value: float, series: str = "E24", *, distance: Distance = "absolute") -> float:
    """The value of the series nearest to ``value``, in the same unit.

    ``distance`` says what near means: the smallest difference (``absolute``) or the smallest ratio (``log``). Midway,
    the smaller one. Raises ValueError unless ``value`` is positive and finite.
    """
    below, above = neighbours(value, series)
    if distance == "log":
        return below if value / below <= above / value else above
    return below if value - below <= above - value else above


def neighbours(value: float, series: str = "E24") -> tuple[float, float]:
    """The largest value of the series that is not above ``value``, and the smallest that is not below it.

    Raises ValueError unless ``value`` is positive and finite.
    """
    if not (value > 0 and math.isfinite(value)):
        raise ValueError("preferred numbers are positive and finite")
    exact = Decimal(repr(float(value)))
    one_decade = [Decimal(figure) for figure in figures(series)]
    digits = len(str(figures(series)[0]))
    decade = exact.adjusted() - digits + 1
    candidates = [figure.scaleb(decade) for figure in one_decade] + [one_decade[0].scaleb(decade + 1)]
    below = max(candidate for candidate in candidates if candidate <= exact)
    above = min(candidate for candidate in candidates if candidate >= exact)
    return float(below), float(above)
