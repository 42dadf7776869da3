"""The few facts of an entry that collection rules need: a small record that can pass between processes."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from benchlore.check.finding import Path
from benchlore.check.leaves import Leaf, leaves
from benchlore.quantity.model import Quantity
from benchlore.read.entry import FaultEntry
from benchlore.terms.fold import compact

SKETCH_SIZE = 32
"""How many shingle hashes are kept of an entry's words (a bottom-k sketch: its overlap estimates likeness)."""
_MIX = 0x9E3779B1
"""An odd number near 2³² over the golden ratio: spreads what is multiplied by it over the bits (Knuth, vol. 3, 6.4)."""
_RUN = re.compile(r"\w+")
"""Words, roughly: whether two texts are nearly the same does not hang on how they are folded."""
_NOT_PROSE = frozenset({"author", "licence", "formerly", "follows", "lint_ignore", "photos"})


class Name(NamedTuple):
    """A maker, model or board marking, as written and with case, spaces and punctuation folded."""

    what: str
    position: int
    """Position in the list of boards; 0 for maker and model."""
    written: str
    folded: str

    @property
    def key(self) -> str:
        """What names that are the same have in common."""
        return f"{self.what} {self.folded}"

    @property
    def path(self) -> Path:
        """Where it stands in the entry."""
        place: Path = ("boards", self.position, "marking") if self.what == "board" else (self.what,)
        return ("equipment", *place)


@dataclass(frozen=True, slots=True)
class Facts:
    """What collection rules know of one entry; strings, numbers and tuples only."""

    file: str
    slug: str
    date: str
    """ISO 8601, so that dates compare as text."""
    equipment_class: str
    names: tuple[Name, ...]
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
        names=tuple(_names(entry)),
        formerly=entry.formerly,
        follows=entry.follows,
        visits=tuple((i, visit.entry) for i, visit in enumerate(entry.follow_up) if visit.entry),
        words=len(shingles),
        sketch=tuple(sorted(shingles)[:SKETCH_SIZE]),
    )


def _names(entry: FaultEntry) -> Iterable[Name]:
    equipment = entry.equipment
    for what, written in (("maker", equipment.maker), ("model", equipment.model)):
        if written:
            yield Name(what, 0, written, compact(written))
    for index, board in enumerate(equipment.boards):
        yield Name("board", index, board.marking, compact(board.marking))


def _shingles(all_leaves: Iterable[Leaf]) -> Iterable[int]:
    texts = [
        leaf.value.text if isinstance(leaf.value, Quantity) else leaf.value
        for leaf in all_leaves
        if (leaf.free or isinstance(leaf.value, Quantity)) and leaf.path[0] not in _NOT_PROSE
    ]
    said = _RUN.findall("\n".join(texts).lower())
    hashes = [zlib.crc32(word.encode("utf-8", "surrogatepass")) for word in said]
    runs = zip(hashes, hashes[1:], hashes[2:], strict=False)
    return [((one * _MIX + two) * _MIX + three) * _MIX >> 16 & 0xFFFFFFFF for one, two, three in runs]
