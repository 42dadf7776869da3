"""Edits of a text: stretches of it that are replaced; everything else stays to the last byte."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Edit:
    """Characters ``start`` to ``end`` (not included), counted from 0, become ``text``."""

    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Mend:
    """How one finding is set right.

    ``said`` tells a person what was done. ``sure``: there is one right answer; otherwise it is only done when
    everything is asked for. ``move_to`` renames the file, to a path from the base's root with ``/``.
    """

    said: str
    edits: tuple[Edit, ...] = ()
    sure: bool = True
    move_to: str | None = None


def applied(text: str, edits: Iterable[Edit]) -> str:
    """``text`` with ``edits``, which must not overlap."""
    pieces, position = [], 0
    for edit in sorted(edits):
        if edit.start < position or edit.end < edit.start or edit.end > len(text):
            raise ValueError(f"edits overlap or leave the text at {edit.start}")
        pieces += [text[position : edit.start], edit.text]
        position = edit.end
    return "".join([*pieces, text[position:]])


def disjoint(mends: Iterable[Mend]) -> list[Mend]:
    """Those of ``mends``, the first in the text first, that can be applied together."""
    kept: list[Mend] = []
    taken: list[Edit] = []
    for mend in sorted((m for m in mends if m.edits), key=lambda m: min(m.edits)):
        if all(edit.end < other.start or edit.start > other.end for edit in mend.edits for other in taken):
            kept.append(mend)
            taken += mend.edits
    return kept
