"""What a query is read as: groups of terms with their expansions; and what the reader asks the index."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, Protocol

if TYPE_CHECKING:
    from benchlore.index.rank import Occurrences

TermKind = Literal["word", "mark", "value", "term", "not", "pair", "state"]
GroupKind = Literal["word", "mark", "value", "term", "phrase"]


class Lookup(Protocol):
    """What the reader of a query asks the index."""

    plain_marks: frozenset[str]
    """Folded models and board markings without a digit."""

    def has(self, term: str) -> bool:
        """Whether a live entry has the term, in any field."""

    def starts(self, start: str, limit: int) -> Sequence[str]:
        """The first ``limit`` live terms that start so, by code point; without a colon in ``start``, words alone."""

    def spellings(self, letter: str) -> Iterable[str]:
        """Known words that begin with the letter (folded, unstemmed); of some, ``count`` may say that they are not."""

    def count(self, word: str) -> int:
        """How many entries have the unstemmed word; -1 when it is not known."""

    def occurrences(self, term: str) -> Occurrences:
        """Entry number to where the entry has the term."""


@dataclass(frozen=True, slots=True)
class Expansion:
    """A term of the index that a query term stands for; ``direct`` is the marking itself, for a sister's."""

    term: str
    weight: float = 1.0
    kind: Literal["exact", "start", "near", "sister"] = "exact"
    direct: str = ""


@dataclass(frozen=True, slots=True)
class QueryTerm:
    """One thing to look for: the best of its expansions counts.

    ``text`` is the term, or for words the folded word as typed. ``part`` terms are words of a recognised phrase.
    """

    kind: TermKind
    text: str
    expansions: tuple[Expansion, ...]
    weight: float = 1.0
    part: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """What belongs together in a query, and is said to be missed as a whole.

    An entry matches a required group when it has all its terms. It matches another one when it has one of its terms
    that are not parts, or when ``parts_suffice`` and it has all its parts. ``parts_suffice`` holds when there are two
    part terms or more, or when the phrase is a single word.
    """

    kind: GroupKind
    text: str
    terms: tuple[QueryTerm, ...]
    required: bool = False
    parts_suffice: bool = False


@dataclass(frozen=True, slots=True)
class Correction:
    """A typing mistake as written, and the word that was read instead."""

    typed: str
    read: str


@dataclass(frozen=True, slots=True)
class Sisters:
    """A marking of the query: as it is written in the entries, its boards, and the models that share them."""

    marking: str
    boards: tuple[str, ...]
    models: tuple[str, ...]


@dataclass(slots=True)
class Reading:
    """How a query was read."""

    groups: list[Group] = field(default_factory=list)
    filters: dict[str, list[str]] = field(default_factory=dict)
    corrections: list[Correction] = field(default_factory=list)
    sisters: list[Sisters] = field(default_factory=list)


def exact(kind: TermKind, term: str, weight: float = 1.0, *, text: str = "", part: bool = False) -> QueryTerm:
    """A query term that stands for one term of the index."""
    return QueryTerm(kind, text or term, (Expansion(term),), weight, part)
