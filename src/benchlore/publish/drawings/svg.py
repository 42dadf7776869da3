"""Builds SVG text: escaped attributes and text, short numbers, no style attributes."""

from __future__ import annotations

from markupsafe import Markup, escape

Attribute = str | float | int


def number(value: float) -> str:
    """A coordinate with at most one decimal, as short as can be."""
    text = f"{value:.1f}"
    return "0" if text == "-0.0" else text.removesuffix(".0")


def element(name: str, content: Markup | str = "", /, **attributes: Attribute) -> Markup:
    """One element; ``class_`` is written ``class``, underscores become hyphens, text content is escaped."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{number(value) if isinstance(value, float) else escape(value)}"'
        for key, value in attributes.items()
    )
    inside = escape(content)
    return Markup(f"<{name}{written}>{inside}</{name}>" if inside else f"<{name}{written}/>")


def drawing(parts: list[Markup], *, width: float, height: float, label: str, class_: str) -> Markup:
    """The whole drawing, with ``label`` as its text equivalent; an empty label hides it from screen readers."""
    spoken = f'role="img" aria-label="{escape(label)}"' if label else 'aria-hidden="true"'
    size = f'width="{number(width)}" height="{number(height)}" viewBox="0 0 {number(width)} {number(height)}"'
    opening = f'<svg class="{escape(class_)}" {size} preserveAspectRatio="xMinYMid" {spoken} focusable="false">'
    return Markup(f"{opening}{Markup('').join(parts)}</svg>")
