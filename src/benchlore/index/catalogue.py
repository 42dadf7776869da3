"""What is known of all live entries beside their terms: identity, statistics for ranking, facets, dates."""

from __future__ import annotations

import base64
import sys
from array import array
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from benchlore.index.card import Card
from benchlore.index.facets import Choice, Column, FacetIndex, columns
from benchlore.index.fields import FIELDS, LENGTH_FIELDS
from benchlore.index.rank import Statistics

if TYPE_CHECKING:
    from benchlore.index.documents import Document


@dataclass(frozen=True, slots=True)
class Kept:
    """What is kept of an entry beside its terms: identity, rounded field lengths, facet values, the card of a hit."""

    slug: str
    rel: str
    digest: str
    lengths: Sequence[int]
    facets: Sequence[Sequence[Choice]]
    plain_marks: Sequence[str]
    card: Card

    @classmethod
    def of(cls, document: Document) -> Kept:
        """What is kept of a document."""
        d = document
        return cls(d.slug, d.rel, d.digest, d.lengths, d.facets, d.plain_marks, d.card)

    def to_json(self) -> list[Any]:
        """As JSON values."""
        kept = (self.slug, self.rel, self.digest, self.lengths, self.facets, self.plain_marks)
        return [*kept, list(asdict(self.card).values())]

    @classmethod
    def from_json(cls, row: list[Any]) -> Kept:
        """From :meth:`to_json`, after a trip through JSON."""
        slug, rel, digest, lengths, facets, plain_marks, card = row
        choices = [[(key, label) for key, label in of_facet] for of_facet in facets]
        return cls(slug, rel, digest, lengths, choices, plain_marks, Card(*card))


class Catalogue:
    """All live entries in the order of their slugs: entry number 0 has the first slug."""

    def __init__(self, slugs: Sequence[str], dates: Sequence[str], marks: Iterable[str], statistics: Statistics,
                 packed: Sequence[Any]) -> None:  # fmt: skip
        """``dates`` are ISO dates by entry; ``packed`` are the facets' columns as :meth:`to_json` gives them."""
        self.slugs = slugs
        self.dates = dates
        self.plain_marks = frozenset(marks)
        """Folded models and board markings without a digit."""
        self.statistics = statistics
        self._packed = packed

    @classmethod
    def of(cls, entries: Iterable[Kept]) -> Catalogue:
        """The catalogue of these entries, in any order."""
        ordered = sorted(entries, key=lambda kept: kept.slug)
        totals, having = [0] * len(FIELDS), [0] * len(FIELDS)
        for place, field in enumerate(LENGTH_FIELDS):
            column = [kept.lengths[place] for kept in ordered]
            totals[field] = sum(column)
            having[field] = sum(1 for length in column if length)
        return cls(
            [kept.slug for kept in ordered],
            [kept.card.date for kept in ordered],
            sorted({mark for kept in ordered for mark in kept.plain_marks}),
            Statistics(len(ordered), totals, having),
            [_packed(column) for column in columns([kept.facets for kept in ordered])],
        )

    @cached_property
    def facets(self) -> FacetIndex:
        """Facet values by entry number."""
        return FacetIndex([_unpacked(column) for column in self._packed])

    def to_json(self) -> list[Any]:
        """As JSON values."""
        statistics = [self.statistics.totals, self.statistics.having]
        return [self.slugs, self.dates, sorted(self.plain_marks), statistics, self._packed]

    @classmethod
    def from_json(cls, row: list[Any]) -> Catalogue:
        """From :meth:`to_json`, after a trip through JSON."""
        slugs, dates, marks, (totals, having), packed = row
        return cls(slugs, dates, marks, Statistics(len(slugs), totals, having), packed)


def _packed(column: Column) -> list[Any]:
    values = array("I", column.values)
    if sys.byteorder == "big":
        values.byteswap()
    return [column.choices, column.combos, base64.b64encode(values.tobytes()).decode()]


def _unpacked(row: Sequence[Any]) -> Column:
    choices, combos, coded = row
    values = array("I")
    values.frombytes(base64.b64decode(coded))
    if sys.byteorder == "big":
        values.byteswap()
    return Column([(key, label) for key, label in choices], [tuple(combo) for combo in combos], values)
