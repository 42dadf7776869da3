"""The limit scale of a reading: brackets at the limits, open diamond before, filled dot after, a bar where it swung.

The axis is linear, or logarithmic where the figures span more than a factor of thirty.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from markupsafe import Markup

from benchlore.publish.drawings.marks import diamond
from benchlore.publish.drawings.svg import Svg, drawing, element
from benchlore.quantity.model import Quantity

WIDTH, HEIGHT = 168.0, 28.0
_LEFT, _RIGHT, _Y = 14.0, 154.0, 14.0
_ENDLESS = {"open": math.inf, "over-range": math.inf, "short": 0.0, "no-pulses": 0.0}


@dataclass(frozen=True, slots=True)
class Extent:
    """Where a quantity lies on the axis: from ``low`` to ``high`` (equal for a point, infinite when open-ended)."""

    low: float
    high: float

    @property
    def is_point(self) -> bool:
        """Whether it is one figure."""
        return self.low == self.high


def extent(quantity: Quantity | None) -> Extent | None:
    """The extent of a reading or of limits; None for what has no place on an axis."""
    if quantity is None or quantity.kind == "dual":
        return None
    if quantity.kind == "overload":
        return Extent(math.inf, math.inf)
    if quantity.kind == "state" and quantity.low is None:
        end = _ENDLESS.get(quantity.state or "")
        return None if end is None else Extent(end, end)
    if quantity.kind in {"value", "approx"}:
        return None if quantity.value is None else Extent(quantity.value, quantity.value)
    low = -math.inf if quantity.low is None else quantity.low
    high = math.inf if quantity.high is None else quantity.high
    return None if math.isinf(low) and math.isinf(high) else Extent(low, high)


def limit_scale(
    expected: Quantity | None, before: Quantity | None, after: Quantity | None, *, label: str
) -> Markup | None:
    """The drawing for one reading; None when there are no limits or nothing to set against them.

    ``label`` is the text equivalent.
    """
    limits = extent(expected)
    was, now = extent(before), extent(after)
    if limits is None or (was is None and now is None):
        return None
    place = _axis([limits, *(e for e in (was, now) if e is not None)])
    parts = [element("path", d=f"M2 {_Y:g}H{WIDTH - 2:g}", class_="axis")]
    parts += _brackets(limits, place)
    if was is not None:
        parts += _reading(was, place, before=True)
    if now is not None:
        parts += _reading(now, place, before=False)
    return drawing(parts, width=WIDTH, height=HEIGHT, label=label, class_="scale")


def _axis(extents: list[Extent]) -> Callable[[float], float]:
    finite = sorted({v for e in extents for v in (e.low, e.high) if math.isfinite(v)})
    if not finite:
        return lambda value: _RIGHT if value > 0 else _LEFT
    low, high = finite[0], finite[-1]
    logarithmic = low > 0 and high / low > 30
    ends = (math.log(low), math.log(high)) if logarithmic else (low, high)
    open_low = any(e.low == -math.inf for e in extents)
    open_high = any(e.high == math.inf for e in extents)
    span = ends[1] - ends[0] or abs(ends[1]) or 1.0
    start = ends[0] - span * (0.6 if open_low and len(finite) == 1 else 0.25 if open_low else 0.08)
    end = ends[1] + span * (0.6 if open_high and len(finite) == 1 else 0.25 if open_high else 0.08)

    def place(value: float) -> float:
        if math.isinf(value):
            return _RIGHT if value > 0 else _LEFT
        if logarithmic and value <= 0:
            return _LEFT
        share = ((math.log(value) if logarithmic else value) - start) / (end - start)
        return _LEFT + min(1.0, max(0.0, share)) * (_RIGHT - _LEFT)

    return place


def _brackets(limits: Extent, place: Callable[[float], float]) -> list[Svg]:
    if limits.is_point:
        return [element("path", d=f"M{place(limits.low):.1f} {_Y - 8:g}v16", class_="bracket")]
    parts = []
    low = place(limits.low)
    high = place(limits.high)
    parts.append(element("path", d=f"M{low:.1f} {_Y:g}H{high:.1f}", class_="allowed"))
    if math.isfinite(limits.low):
        parts.append(element("path", d=f"M{low + 4:.1f} {_Y - 8:g}h-4v16h4", class_="bracket"))
    if math.isfinite(limits.high):
        parts.append(element("path", d=f"M{high - 4:.1f} {_Y - 8:g}h4v16h-4", class_="bracket"))
    return parts


def _reading(reading: Extent, place: Callable[[float], float], *, before: bool) -> list[Svg]:
    if reading.is_point and math.isinf(reading.low):
        x = _RIGHT if reading.low > 0 else _LEFT
        return [element("path", d=f"M{x:g} {_Y - 5:g}l7 5l-7 5z", class_="mark-open" if before else "mark-full")]
    low, high = place(reading.low), place(reading.high)
    parts = []
    if not reading.is_point:
        parts.append(element("path", d=f"M{low:.1f} {_Y:g}H{high:.1f}", class_="swing"))
    ends = [place(v) for v in dict.fromkeys((reading.low, reading.high)) if math.isfinite(v)]
    for x in ends:
        parts.append(
            diamond(x, _Y, 5.5, filled=False) if before else element("circle", cx=x, cy=_Y, r=4.5, class_="mark-full")
        )
    return parts
