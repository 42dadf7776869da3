"""Makes text from an entry harmless to a terminal: nothing that moves, hides, colours or reorders gets through."""

from __future__ import annotations

import unicodedata

_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


def visible(text: str) -> str:
    """``text`` with control, format, surrogate and unassigned characters written as escapes, tabs as one space."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_shown(character) for character in text)


def _shown(character: str) -> str:
    if character == "\t":
        return " "
    if unicodedata.category(character) not in _UNSEEN:
        return character
    code = ord(character)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def width(text: str) -> int:
    """The columns that visible ``text`` takes in a terminal: wide characters two, combining marks none."""
    return sum(
        0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text
    )
