"""The ratings of an entry's parts, and whether a fitted part falls short of the original's rating."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.check.finding import Path
from benchlore.quantity.format import format_quantity
from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse
from benchlore.read.entry import FaultEntry, Original
from benchlore.terms.fold import compact
from benchlore.terms.model import RatingRule

_ROOM = 0.005
"""Relative room in which two ratings count as the same (rounding of what is printed on the part)."""


def ratings_of(entry: FaultEntry) -> Iterator[tuple[Path, str, str]]:
    """Place, name and text of every rating, of the parts and of the originals they replace."""
    for index, part in enumerate(entry.parts):
        for rating, written in part.ratings.items():
            yield ("parts", index, "ratings", rating), rating, written
        if isinstance(part.original, Original):
            for rating, written in part.original.ratings.items():
                yield ("parts", index, "original", "ratings", rating), rating, written


def shortfall(rule: RatingRule, old: str, new: str) -> str | None:
    """Why ``new`` may not stand for ``old`` under ``rule``, in words; None when it may or when it cannot be told."""
    if rule.compare == "same-or-higher-class":
        order = [compact(name) for name in rule.order]
        if compact(old) in order and compact(new) in order and order.index(compact(new)) < order.index(compact(old)):
            return f"{new} is a lower class than {old}"
        return None
    try:
        before, after = parse(old), parse(new)
    except QuantityError:
        return f"{old} became {new}" if rule.compare == "equal" and compact(old) != compact(new) else None
    if before.value is None or after.value is None or before.unit != after.unit:
        return None
    return _numbers(rule, before, after, before.value, after.value)


def _numbers(rule: RatingRule, before: Quantity, after: Quantity, old: float, new: float) -> str | None:
    room = _ROOM * abs(old)
    shown = f"{format_quantity(after)} in place of {format_quantity(before)}"
    if rule.compare == "equal" and abs(new - old) > room:
        return shown
    if rule.compare == "at-least" and new < old - room:
        return f"{shown}, which is less"
    if rule.compare == "at-most" and new > old + room:
        return f"{shown}, which is more"
    return None
