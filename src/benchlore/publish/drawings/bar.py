"""A share as a bar with its interval as a whisker; the figures stand in words beside it."""

from __future__ import annotations

from markupsafe import Markup

from benchlore.publish.drawings.svg import drawing, element

WIDTH, HEIGHT = 240.0, 16.0


def share_bar(share: float, low: float, high: float) -> Markup:
    """A bar of length ``share`` (0..1) on a full-length rule, with a whisker from ``low`` to ``high``."""
    reach = WIDTH - 2
    y = HEIGHT / 2
    parts = [
        element("path", d=f"M1 {y:g}H{WIDTH - 1:g}", class_="axis"),
        element("rect", x=1.0, y=y - 4, width=max(1.0, share * reach), height=8.0, class_="share"),
        element(
            "path",
            d=f"M{1 + low * reach:.1f} {y - 5:g}v10M{1 + low * reach:.1f} {y:g}H{1 + high * reach:.1f}m0 -5v10",
            class_="whisker",
        ),
    ]
    return drawing(parts, width=WIDTH, height=HEIGHT, label="", class_="bar")
