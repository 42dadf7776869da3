"""Words that messages of several rules share."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from benchlore.quantity.units import canonical_unit

KIND_WORDS: dict[str, str] = {
    "class": "an equipment class",
    "symptom": "a symptom",
    "block": "a functional block",
    "component": "a component class",
    "failure-mode": "a failure mode",
    "mechanism": "a failure mechanism",
    "test": "a test",
    "hazard": "a hazard",
    "action": "an action",
    "quantity": "a measurable quantity",
    "rating": "a rating",
    "condition": "a condition that brings a fault on",
    "tool": "a tool",
}
"""Kind of term to what a message calls one of it."""


def one_of(words: Sequence[str]) -> str:
    """``a, b or c``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"

_UNITS = {"ohm": "Ω", "degC": "°C"}


@cache
def unit_symbol(unit: str) -> str | None:
    """The symbol that quantities have for a unit of the vocabulary; None when it is not known."""
    return canonical_unit(unit)


def unit_word(unit: str | None) -> str:
    """A unit symbol as people write it; ``no unit`` for None."""
    return _UNITS.get(unit, unit) if unit else "no unit"


def in_sentence(label: str) -> str:
    """A term's label inside a sentence: its capital goes, unless it belongs to the word (LED, X capacitor)."""
    return label[:1].lower() + label[1:] if label[1:2].islower() else label
