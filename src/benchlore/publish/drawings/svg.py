"""Builds SVG text: escaped attributes and text, short numbers, no style attributes."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import NewType

from markupsafe import Markup

Svg = NewType("Svg", str)
"""Finished SVG text: whatever came from an entry is escaped in it."""


def number(value: float) -> str:
    """A coordinate with at most one decimal, as short as can be."""
    text = f"{value:.1f}"
    return "0" if text == "-0.0" else text.removesuffix(".0")


def element(name: str, text: str = "", /, **attributes: str | float) -> Svg:
    """One element with ``text`` in it; ``class_`` is written ``class``, and underscores become hyphens."""
    written = [
        f' {key.rstrip("_").replace("_", "-")}="{escape(value) if isinstance(value, str) else number(value)}"'
        for key, value in attributes.items()
    ]
    opening = f"<{name}{''.join(written)}"
    return Svg(f"{opening}>{escape(text)}</{name}>" if text else f"{opening}/>")


def drawing(parts: Iterable[Svg], *, width: float, height: float, label: str, class_: str) -> Markup:
    """The whole drawing, with ``label`` as its text equivalent; an empty label hides it from screen readers."""
    spoken = f'role="img" aria-label="{escape(label)}"' if label else 'aria-hidden="true"'
    size = f'width="{number(width)}" height="{number(height)}" viewBox="0 0 {number(width)} {number(height)}"'
    opening = f'<svg class="{escape(class_)}" {size} preserveAspectRatio="xMinYMid" {spoken} focusable="false">'
    return Markup(f"{opening}{''.join(parts)}</svg>")
