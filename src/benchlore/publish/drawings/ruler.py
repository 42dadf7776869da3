"""The minute ruler: the tests of a repair along a line of minutes, each with its mark, and words where they fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from benchlore.publish.drawings.marks import mark
from benchlore.publish.drawings.svg import Svg, drawing, element

WIDTH = 660.0
_LEFT, _RIGHT = 16.0, 628.0
_CHARACTER = 6.6
"""Mean advance of a character at the size labels are set in, on the wide side so that labels never touch."""
_LINE = 15.0
_STEPS = (1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 960)


@dataclass(frozen=True, slots=True)
class Stop:
    """One test: its outcome, the minute it ended at (None when minutes are not all known), and its label's lines."""

    outcome: str
    ended: float | None
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Label:
    x: float
    start: float
    end: float
    lines: tuple[str, ...]
    lane: int
    """1, 2 above the line, -1, -2 below."""


def minute_ruler(stops: Sequence[Stop]) -> Markup:
    """The ruler for ``stops`` in order; hidden from screen readers, since the list beside it says the same.

    Marks stand at the minute a test ended, or evenly where not every test has minutes.
    """
    timed = [s.ended for s in stops if s.ended is not None]
    by_time = len(timed) == len(stops) and bool(timed) and timed[-1] > 0
    places = _by_time(timed) if by_time else _evenly(len(stops))
    labels = _place_labels(places, [s.lines for s in stops])
    above = max((label.lane for label in labels), default=0)
    below = -min((label.lane for label in labels), default=0)
    y = 14.0 + max(1, above) * 2 * _LINE
    height = y + 30.0 + max(0, below) * 2 * _LINE
    parts = [element("path", d=f"M{_LEFT:g} {y:g}H{_RIGHT:g}", class_="axis")]
    if by_time:
        parts += _ticks(timed[-1], y)
    for label in labels:
        parts += _label(label, y)
    parts += [mark(stop.outcome, x, y) for stop, x in zip(stops, places, strict=True)]
    return drawing(parts, width=WIDTH, height=height, label="", class_="ruler")


def _by_time(ended: Sequence[float]) -> list[float]:
    scale = (_RIGHT - _LEFT) / ended[-1]
    places: list[float] = []
    for minute in ended:
        x = _LEFT + minute * scale
        places.append(max(x, places[-1] + 17.0) if places else max(x, _LEFT + 8))
    overflow = places[-1] - _RIGHT
    return [x - overflow * (x - _LEFT) / (places[-1] - _LEFT) for x in places] if overflow > 0 else places


def _evenly(count: int) -> list[float]:
    step = (_RIGHT - _LEFT) / (count + 1)
    return [_LEFT + step * (n + 1) for n in range(count)]


def _ticks(total: float, y: float) -> list[Svg]:
    step = next((s for s in _STEPS if total / s <= 8), _STEPS[-1])
    scale = (_RIGHT - _LEFT) / total
    parts = []
    for n in range(int(total // step) + 1):
        x = _LEFT + n * step * scale
        parts.append(element("path", d=f"M{x:.1f} {y - 4:g}v8", class_="tick"))
        text = str(n * step) if n else "0 min"
        parts.append(element("text", text, x=x, y=y + 22, class_="tick-label", text_anchor="middle"))
    return parts


def _place_labels(places: Sequence[float], texts: Sequence[tuple[str, ...]]) -> list[_Label]:
    """Labels on the first lane where they touch no other; those that fit nowhere are left to the list."""
    lanes: dict[int, float] = {1: -1.0, -1: -1.0, 2: -1.0}
    labels = []
    for x, lines in zip(places, texts, strict=True):
        width = max((len(line) for line in lines), default=0) * _CHARACTER
        start = min(max(2.0, x - width / 2), WIDTH - width - 2)
        for lane, free_from in lanes.items():
            if width and start >= free_from:
                lanes[lane] = start + width + 10
                labels.append(_Label(x, start, start + width, lines, lane))
                break
    return labels


def _label(label: _Label, y: float) -> list[Svg]:
    centre = (label.start + label.end) / 2
    if label.lane > 0:
        top = y - 12 - label.lane * 2 * _LINE + _LINE
        leader = f"M{label.x:.1f} {y - 9:g}V{top + _LINE + 4:g}"
    else:
        top = y + 26 + _LINE + (-label.lane - 1) * 2 * _LINE
        leader = ""
    parts = [element("path", d=leader, class_="leader")] if leader and label.lane > 1 else []
    for row, line in enumerate(label.lines[:2]):
        offset = (2 - len(label.lines[:2])) if label.lane > 0 else 0
        parts.append(
            element("text", line, x=centre, y=top + (row + offset) * _LINE, class_="stop-label", text_anchor="middle")
        )
    return parts
