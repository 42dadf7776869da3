"""The few facts of an entry that collection rules need: a small record that can pass between processes."""

from __future__ import annotations

import zlib
from collections.abc import Iterable
from dataclasses import dataclass

from benchlore.check.leaves import Leaf, leaves
from benchlore.quantity.model import Quantity
from benchlore.read.entry import FaultEntry
from benchlore.terms.fold import words

SKETCH_SIZE = 32
"""How many shingle hashes are kept of an entry's words (a bottom-k sketch: its overlap estimates likeness)."""
_SHINGLE = 3
_NOT_PROSE = frozenset({"author", "licence", "formerly", "follows", "lint_ignore", "photos"})


@dataclass(frozen=True, slots=True)
class Facts:
    """What collection rules know of one entry; strings, numbers and tuples only."""

    file: str
    slug: str
    date: str
    """ISO 8601, so that dates compare as text."""
    equipment_class: str
    maker: str | None
    model: str | None
    boards: tuple[str, ...]
    formerly: tuple[str, ...]
    follows: str | None
    visits: tuple[tuple[int, str], ...]
    """``follow_up[].entry``: position in the list, and the slug named."""
    words: int
    """How many runs of three words the entry's own text has."""
    sketch: tuple[int, ...]


def facts_of(entry: FaultEntry, file: str, slug: str, all_leaves: Iterable[Leaf] | None = None) -> Facts:
    """The facts of ``entry``, found in ``file``; ``all_leaves`` saves walking it again."""
    shingles = frozenset(_shingles(all_leaves or leaves(entry)))
    return Facts(
        file=file,
        slug=slug,
        date=entry.date.isoformat(),
        equipment_class=entry.equipment.class_,
        maker=entry.equipment.maker,
        model=entry.equipment.model,
        boards=tuple(board.marking for board in entry.equipment.boards),
        formerly=entry.formerly,
        follows=entry.follows,
        visits=tuple((i, visit.entry) for i, visit in enumerate(entry.follow_up) if visit.entry),
        words=len(shingles),
        sketch=tuple(sorted(shingles)[:SKETCH_SIZE]),
    )


def _shingles(all_leaves: Iterable[Leaf]) -> Iterable[int]:
    said: list[str] = []
    for leaf in all_leaves:
        if leaf.path[0] in _NOT_PROSE:
            continue
        if isinstance(leaf.value, Quantity):
            said += [word.text for word in words(leaf.value.text)]
        elif leaf.free:
            said += [word.text for word in words(leaf.value)]
    for start in range(len(said) - _SHINGLE + 1):
        yield zlib.crc32(" ".join(said[start : start + _SHINGLE]).encode("utf-8", "surrogatepass"))
