"""Search: a query over a base, to ranked hits with their reasons, facets, and how the query was read.

CONTRACT for the browser. Facets are counted over all entries that the query ranks; filters are applied after ranking
and change no score. A hit has one reason for each group that it matches (its strongest evidence: terms before
``part`` words, then by score, of equals the first), with the group's text; and for a group that it matches partly one
reason for each term it has, with that term's text. Evidence from an expansion that is not exact has that expansion's
kind, else in a phrase ``phrase``, else the kind of its term. What was found is
shown as typed for values and exact markings, boards under their facet labels, other markings in capitals, terms of the
vocabulary under their labels.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from benchlore.errors import BenchloreError
from benchlore.index.documents import Card, Document, document
from benchlore.index.facets import FACET_NAMES, FacetCounts, chosen_keys
from benchlore.index.fields import FIELDS, WEIGHTS
from benchlore.index.fingerprint import fingerprint, signature
from benchlore.index.query import QueryReader
from benchlore.index.query_terms import Expansion, Group, Reading, Sisters
from benchlore.index.rank import Evidence, Ranker, Scored
from benchlore.index.spelling import correct
from benchlore.index.store import MemoryStore, Store, StoreLookup
from benchlore.terms.fold import compact
from benchlore.terms.nearest import nearest
from benchlore.terms.vocabulary import Vocabulary

if TYPE_CHECKING:
    from benchlore.read.base import Base, Record

_BOARD = FACET_NAMES.index("board")
ReasonKind = Literal["term", "not-seen", "word", "marking", "value", "phrase", "start", "sister"]


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an entry is a hit: what of the query it matches, as typed, as what, and in which field it counts most."""

    kind: ReasonKind
    text: str
    found: str
    field: str


@dataclass(frozen=True, slots=True)
class Hit:
    """An entry that matches. ``missed`` are the parts of the query that it does not match, as typed.

    ``sister_of`` is a marking of the query whose board this entry's unit shares, without being that unit itself.
    """

    slug: str
    rel: str
    title: str
    score: float
    reasons: tuple[Reason, ...]
    missed: tuple[str, ...]
    sister_of: str | None
    card: Card


@dataclass(frozen=True, slots=True)
class ReadAs:
    """One part of a query as it was read: the text as typed, what it was taken for, and that thing's label."""

    kind: Literal["term", "not-seen", "word", "marking", "value", "phrase"]
    text: str
    label: str


@dataclass(frozen=True, slots=True)
class SisterNote:
    """A marking of the query, its boards, and the other models on them."""

    marking: str
    boards: tuple[str, ...]
    models: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a search found. ``total`` counts all hits, ``hits`` holds the first of them.

    ``corrected`` are (as typed, as read); ``filters`` are the chosen facet values as keys.
    """

    query: str
    total: int
    hits: tuple[Hit, ...]
    facets: tuple[FacetCounts, ...]
    read_as: tuple[ReadAs, ...]
    sisters: tuple[SisterNote, ...]
    corrected: tuple[tuple[str, str], ...]
    filters: Mapping[str, Sequence[str]]


def open_store(base: Base, cache: Path | None = None) -> Store:
    """The base's index: from the user's cache, brought up to date; from memory when that cannot be done now."""
    from benchlore.index.whoosh_store import StoreUnavailableError, WhooshCache

    licence, currency = base.shop.licence, base.shop.currency

    def make(record: Record) -> Document:
        return document(record, base.vocabulary, licence=licence, currency=currency)

    try:
        stored = WhooshCache(base.root, fingerprint(base.vocabulary, licence, currency), cache)
        return stored.open(signature(base.root, base.entry_paths()), base.records, make)
    except StoreUnavailableError:
        return MemoryStore([make(record) for record in base.records()])


class Searcher:
    """An open index that answers queries."""

    def __init__(self, store: Store, vocabulary: Vocabulary) -> None:
        self._catalogue = store.catalogue
        self._lookup = StoreLookup(store, vocabulary)
        self._reader = QueryReader(vocabulary.recogniser, self._lookup, FACET_NAMES, correct)
        self._vocabulary = vocabulary
        self._boards = frozenset(self._catalogue.facets.keys(_BOARD))

    def search(
        self, query: str, filters: Mapping[str, Sequence[str]] | None = None, limit: int | None = 20
    ) -> Answer:
        """The first ``limit`` hits (None: all) for any string; ``filters`` are facet values as written.

        A query without words gives all entries that fit the filters, by slug, with score 0. Raises
        :class:`BenchloreError` for a filter that is no facet.
        """
        reading = self._reader.read(query)
        for name, values in (filters or {}).items():
            if name not in FACET_NAMES:
                close = nearest(name, FACET_NAMES, limit=1)
                raise BenchloreError(
                    f"there is no facet {name!r}",
                    hint=f"Did you mean {close[0]}?" if close else f"The facets are: {', '.join(FACET_NAMES)}",
                )
            reading.filters.setdefault(name, []).extend(values)
        chosen = chosen_keys(reading.filters)
        ranker = Ranker(WEIGHTS, self._catalogue.statistics, self._lookup.occurrences)
        facets = self._catalogue.facets
        if reading.groups:
            ranked = ranker.rank(reading.groups)
        else:
            ranked = [Scored(entry, 0.0, frozenset(), frozenset()) for entry in range(len(self._catalogue.entries))]
        allowed = facets.allowed(chosen)
        shown = [scored for scored in ranked if allowed is None or scored.entry in allowed]
        return Answer(
            query=query,
            total=len(shown),
            hits=tuple(self._hit(scored, reading, ranker) for scored in shown[:limit]),
            facets=tuple(facets.count({scored.entry for scored in ranked}, chosen)),
            read_as=tuple(self._read_as(group) for group in reading.groups),
            sisters=tuple(self._sister_note(sisters) for sisters in reading.sisters),
            corrected=tuple((c.typed, c.read) for c in reading.corrections),
            filters=chosen,
        )

    def _hit(self, scored: Scored, reading: Reading, ranker: Ranker) -> Hit:
        kept = self._catalogue.entries[scored.entry]
        evidence = ranker.evidence(reading.groups, scored.entry)
        reasons: list[Reason] = []
        for number, group in enumerate(reading.groups):
            found = [e for e in evidence if e.group == number]
            if number in scored.matched:
                strongest = max(found, key=lambda e: (not e.term.part, e.score))
                reasons.append(self._reason(group, strongest, group.text))
            else:
                reasons += [self._reason(group, e, e.term.text) for e in found]
        return Hit(
            slug=kept.slug,
            rel=kept.rel,
            title=kept.card.title,
            score=scored.score,
            reasons=tuple(reasons),
            missed=tuple(g.text for n, g in enumerate(reading.groups) if n not in scored.matched),
            sister_of=next((g.text for g in reading.groups if ranker.is_sister(g, scored.entry)), None),
            card=kept.card,
        )

    def _reason(self, group: Group, evidence: Evidence, text: str) -> Reason:
        kind: ReasonKind
        if evidence.expansion.kind != "exact":
            kind = evidence.expansion.kind
        elif group.kind == "phrase":
            kind = "phrase"
        else:
            kind = _KINDS[evidence.term.kind]
        return Reason(kind, text, self._found(evidence.expansion, text), FIELDS[evidence.field].name)

    def _found(self, expansion: Expansion, text: str) -> str:
        kind, _, mark = expansion.term.partition(":")
        as_typed = kind == "value" or (kind == "mark" and expansion.kind == "exact" and mark not in self._boards)
        return text if as_typed else self._label(expansion.term)

    def _sister_note(self, sisters: Sisters) -> SisterNote:
        boards = dict.fromkeys(self._label(f"mark:{compact(board)}") for board in sisters.boards)
        return SisterNote(sisters.marking, tuple(boards), sisters.models)

    def _read_as(self, group: Group) -> ReadAs:
        first = group.terms[0]
        if group.kind == "phrase":
            return ReadAs("phrase", group.text, group.text)
        label = group.text
        if first.kind in ("term", "not"):
            named = [t.expansions[0].term for t in group.terms if not t.part]
            label = ", ".join(dict.fromkeys(self._label(term) for term in named))
        return ReadAs(_KINDS[first.kind], group.text, label)

    def _label(self, term: str) -> str:
        """A term of the index in words."""
        if ":" not in term:
            return term
        kind, _, rest = term.removeprefix("not:").partition(":")
        if kind == "mark":
            return self._catalogue.facets.label(_BOARD, rest) if rest in self._boards else rest.upper()
        if kind == "value":
            return rest
        if kind == "pair":
            return " ".join(part.partition(":")[2] or part for part in rest.split("+"))
        return self._vocabulary.label(kind, rest)


_KINDS: dict[str, Literal["term", "not-seen", "word", "marking", "value", "phrase"]] = {
    "word": "word",
    "mark": "marking",
    "value": "value",
    "term": "term",
    "not": "not-seen",
    "pair": "phrase",
}


def search(
    base: Base, query: str, filters: Mapping[str, Sequence[str]] | None = None, limit: int | None = 20
) -> Answer:
    """Search a base once; see :meth:`Searcher.search`."""
    store = open_store(base)
    try:
        return Searcher(store, base.vocabulary).search(query, filters, limit)
    finally:
        store.close()
