"""The marks of a test's outcome: circle normal, diamond abnormal, half-filled circle inconclusive."""

from __future__ import annotations

from typing import Literal

from markupsafe import Markup

from benchlore.publish.drawings.svg import Svg, drawing, element

Outcome = Literal["normal", "abnormal", "inconclusive"]
RADIUS = 6.0


def mark(outcome: str, x: float, y: float) -> Svg:
    """The mark for ``outcome``, centred on (x, y), 12 units wide."""
    r = RADIUS
    if outcome == "abnormal":
        return diamond(x, y, r + 1.5, filled=True)
    ring = element("circle", cx=x, cy=y, r=r, class_="mark-open")
    if outcome == "normal":
        return ring
    half = element("path", d=f"M{x:g} {y - r:g}a{r:g} {r:g} 0 0 0 0 {2 * r:g}z", class_="mark-full")
    return Svg(ring + half)


def diamond(x: float, y: float, r: float, *, filled: bool) -> Svg:
    """A diamond of half-width ``r`` centred on (x, y)."""
    path = f"M{x:.1f} {y - r:.1f}L{x + r:.1f} {y:.1f}L{x:.1f} {y + r:.1f}L{x - r:.1f} {y:.1f}z"
    return element("path", d=path, class_="mark-full" if filled else "mark-open")


def lone_mark(outcome: str) -> Markup:
    """The mark by itself, as it stands beside a line of text that says the same in words."""
    return drawing([mark(outcome, 9.0, 9.0)], width=18, height=18, label="", class_="mark")


def scale_key() -> dict[str, Markup]:
    """The marks of the limit scale by themselves, for the key under the readings."""
    bracket = element("path", d="M5 4h-3v12h3M13 4h3v12h-3", class_="bracket")
    return {
        "limits": drawing([bracket], width=18, height=20, label="", class_="scale-key"),
        "before": drawing([diamond(9.0, 10.0, 5.5, filled=False)], width=18, height=20, label="", class_="scale-key"),
        "after": drawing(
            [element("circle", cx=9.0, cy=10.0, r=4.5, class_="mark-full")],
            width=18,
            height=20,
            label="",
            class_="scale-key",
        ),
    }
