"""Path in an entry, or problem, to its place for a person: line, column, and the text that stands there."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

from benchlore.read.place import Place, place
from benchlore.read.problem import Path, Problem
from benchlore.read.yaml_nodes import compose

SHOWN = 120
"""Characters of the offending text that a span carries at most."""


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a file. Lines and columns count from 1, columns in characters; the end column is the one after
    the last character. ``text`` is what stands there: its first line, cut to :data:`SHOWN` characters.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int
    text: str


class Lines:
    """Offsets of a text to lines and columns. Lines end with LF or CR LF."""

    def __init__(self, text: str, file: str = "") -> None:
        self.text = text
        self.file = file
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]

    def at(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset; beyond the end, those of the end. A byte-order mark takes no column."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self._starts, offset)
        column = offset - self._starts[line - 1] + 1
        if line == 1 and column > 1 and self.text.startswith("\ufeff"):
            column -= 1
        return line, column

    def span(self, where: Place) -> Span:
        """The span of a place."""
        line, column = self.at(where.start)
        end_line, end_column = self.at(max(where.end, where.start))
        shown = self.text[where.start : where.end].lstrip("\ufeff").split("\n", 1)[0].rstrip()
        if len(shown) > SHOWN:
            shown = shown[: SHOWN - 1] + "…"
        return Span(self.file, line, column, end_line, end_column, shown)


def locate(text: str, targets: Iterable[Problem | Path], file: str = "") -> list[Span]:
    """A span for each problem or path, in their order; ``text`` is composed again only if a path needs it.

    A path that leads nowhere gets the nearest key above it; a text that cannot be composed, its first character.
    """
    lines = Lines(text, file)
    root, composed = None, False
    spans = []
    for target in targets:
        if isinstance(target, Problem) and target.offset is not None:
            spans.append(lines.span(Place(target.offset, target.end if target.end is not None else target.offset)))
            continue
        if not composed:
            root, composed = compose(text)[0], True
        if isinstance(target, Problem):
            path, on_key = target.path, target.on_key
        else:
            path, on_key = target, False
        spans.append(lines.span(place(root, text, path, on_key=on_key) if root is not None else Place(0, 0)))
    return spans
