"""Search: a query over a base, to ranked hits with their reasons, facets, and how the query was read.

CONTRACT for the browser. Facets are counted over all entries that the query ranks; filters are applied after ranking
and change no score. Hits stand by score; ``newest`` sorts them by date first (the newest up), ``quickest`` by the
number of the facet ``minutes`` (entries without one last); what is equal then goes by score and slug as ever. A hit has
one reason for each group that it matches (its strongest evidence: terms before ``part`` words, then by score, of equals
the first), with the group's text; and for a group that it matches partly one reason for each term it has, with that
term's text. Evidence from an expansion that is not exact has that expansion's kind, else in a phrase ``phrase``, else
the kind of its term. What was found is shown as typed for exact values and markings and for readings, near values in
words, boards as most entries write them (the ``board:`` term with most entries, of equals the first, white space as a
space), other markings in capitals, terms of the vocabulary under their labels.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from benchlore.errors import BenchloreError
from benchlore.index.card import Card
from benchlore.index.facets import FACET_NAMES, FacetCounts, chosen_keys
from benchlore.index.fields import FIELDS, WEIGHTS
from benchlore.index.near_values import in_words
from benchlore.index.query import QueryReader
from benchlore.index.query_terms import Expansion, Group, Reading, Sisters
from benchlore.index.rank import Evidence, Ranker, Scored
from benchlore.index.spelling import correct
from benchlore.index.store import Store, StoreLookup
from benchlore.terms.fold import compact

if TYPE_CHECKING:
    from benchlore.index.lexicon import Lexicon
    from benchlore.read.base import Base

_MOST_SPELLINGS = 64
"""Ways of writing a board's marking that are looked at."""
SORTS = ("relevance", "newest", "quickest")
"""What hits can be sorted by."""
ReasonKind = Literal["term", "not-seen", "word", "marking", "value", "phrase", "start", "near", "sister"]


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

    ``corrected`` are (as typed, as read); ``filters`` are the chosen facet values as keys; ``unfiltered`` counts the
    hits that there would be without them.
    """

    query: str
    total: int
    hits: tuple[Hit, ...]
    facets: tuple[FacetCounts, ...]
    read_as: tuple[ReadAs, ...]
    sisters: tuple[SisterNote, ...]
    corrected: tuple[tuple[str, str], ...]
    filters: Mapping[str, Sequence[str]]
    unfiltered: int


class Searcher:
    """An open index that answers queries."""

    def __init__(self, store: Store, lexicon: Lexicon) -> None:
        self._store = store
        self._catalogue = store.catalogue
        self._lookup = StoreLookup(store, lexicon)
        self._reader = QueryReader(lexicon.recogniser, self._lookup, FACET_NAMES, correct)
        self._lexicon = lexicon

    def search(
        self,
        query: str,
        filters: Mapping[str, Sequence[str]] | None = None,
        limit: int | None = 20,
        sort: str = "relevance",
    ) -> Answer:
        """The first ``limit`` hits (None: all) for any string; ``filters`` are facet values as written.

        A query without words gives all entries that fit the filters, by slug, with score 0; ``sort`` is one of
        ``SORTS``. Raises :class:`BenchloreError` for a filter that is no facet, or a sort that is none.
        """
        reading = self._reader.read(query)
        for name, values in (filters or {}).items():
            if name not in FACET_NAMES:
                raise BenchloreError(f"there is no facet {name!r}", hint=_meant(name, FACET_NAMES))
            reading.filters.setdefault(name, []).extend(values)
        chosen = chosen_keys(reading.filters)
        ranker = Ranker(WEIGHTS, self._catalogue.statistics, self._lookup.occurrences)
        facets = self._catalogue.facets
        if reading.groups:
            ranked = ranker.rank(reading.groups)
        else:
            ranked = [Scored(entry, 0.0, 0, 0) for entry in range(len(self._catalogue.slugs))]
        allowed = facets.allowed(chosen)
        shown = self._sorted([s for s in ranked if allowed is None or s.entry in allowed], sort)
        return Answer(
            query=query,
            total=len(shown),
            hits=tuple(self._hit(scored, reading, ranker) for scored in shown[:limit]),
            facets=tuple(facets.count({scored.entry for scored in ranked}, chosen)),
            read_as=tuple(self._read_as(group) for group in reading.groups),
            sisters=tuple(self._sister_note(sisters) for sisters in reading.sisters),
            corrected=tuple((c.typed, c.read) for c in reading.corrections),
            filters=chosen,
            unfiltered=len(ranked),
        )

    def _sorted(self, ranked: list[Scored], sort: str) -> list[Scored]:
        if sort == "newest":
            dates = self._catalogue.dates
            return sorted(ranked, key=lambda scored: dates[scored.entry], reverse=True)
        if sort == "quickest":
            minutes = self._catalogue.facets.numbers("minutes")
            return sorted(ranked, key=lambda scored: (minutes[scored.entry] is None, minutes[scored.entry] or 0))
        if sort not in SORTS:
            raise BenchloreError(f"hits cannot be sorted by {sort!r}", hint=_meant(sort, SORTS))
        return ranked

    def _hit(self, scored: Scored, reading: Reading, ranker: Ranker) -> Hit:
        slug, shown = self._catalogue.slugs[scored.entry], self._store.shown(scored.entry)
        evidence = ranker.evidence(reading.groups, scored.entry)
        reasons: list[Reason] = []
        for number, group in enumerate(reading.groups):
            found = [e for e in evidence if e.group == number]
            if scored.matches(number):
                strongest = max(found, key=lambda e: (not e.term.part, e.score))
                reasons.append(self._reason(group, strongest, group.text))
            else:
                reasons += [self._reason(group, e, e.term.text) for e in found]
        return Hit(
            slug=slug,
            rel=shown.rel,
            title=shown.card.title,
            score=scored.score,
            reasons=tuple(reasons),
            missed=tuple(g.text for n, g in enumerate(reading.groups) if not scored.matches(n)),
            sister_of=next((g.text for g in reading.groups if ranker.is_sister(g, scored.entry)), None),
            card=shown.card,
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
        kind, sign, mark = expansion.term.partition(":")
        if not sign:
            return expansion.term
        if expansion.kind == "near":
            return in_words(expansion.term)
        if kind in ("value", "state"):
            return text
        own = kind == "mark" and expansion.kind == "exact" and self._board(mark) is None
        return text if own else self._label(expansion.term)

    def _sister_note(self, sisters: Sisters) -> SisterNote:
        boards = dict.fromkeys(self._label(f"mark:{compact(board)}") for board in sisters.boards)
        return SisterNote(sisters.marking, tuple(boards), sisters.models)

    def _read_as(self, group: Group) -> ReadAs:
        first = group.terms[0]
        if group.kind == "phrase":
            return ReadAs("phrase", group.text, group.text)
        label = group.text
        if first.kind in ("term", "not"):
            named = [t.expansions[0].term for t in group.terms if not t.part and t.kind not in ("state", "pair")]
            label = ", ".join(dict.fromkeys(self._label(term) for term in named))
        return ReadAs(_KINDS[first.kind], group.text, label)

    def _label(self, term: str) -> str:
        """A term of the index in words."""
        if ":" not in term:
            return term
        kind, _, rest = term.removeprefix("not:").partition(":")
        if kind == "mark":
            return self._board(rest) or rest.upper()
        if kind in ("value", "state"):
            return rest
        if kind == "pair":
            return " ".join(part.partition(":")[2] or part for part in rest.split("+"))
        return self._lexicon.label(kind, rest)

    def _board(self, mark: str) -> str | None:
        """How most entries write the board with this folded marking; None when no board has it."""
        start = f"board:{mark}:"
        written = self._lookup.starts(start, _MOST_SPELLINGS)
        usual = min(written, key=lambda term: (-len(self._lookup.occurrences(term)), term), default=None)
        return usual.removeprefix(start).replace("\u00a0", " ") if usual else None


_KINDS: dict[str, Literal["term", "not-seen", "word", "marking", "value", "phrase"]] = {
    "word": "word",
    "mark": "marking",
    "value": "value",
    "term": "term",
    "not": "not-seen",
    "pair": "phrase",
    "state": "value",
}


def _meant(written: str, known: Sequence[str]) -> str:
    from benchlore.terms.nearest import nearest

    close = nearest(written, known, limit=1)
    return f"Did you mean {close[0]}?" if close else f"There are: {', '.join(known)}"


def search(
    base: Base,
    query: str,
    filters: Mapping[str, Sequence[str]] | None = None,
    limit: int | None = 20,
    sort: str = "relevance",
) -> Answer:
    """Search a base once; see :meth:`Searcher.search`."""
    from benchlore.index.open_index import open_index

    store, lexicon = open_index(base)
    try:
        return Searcher(store, lexicon).search(query, filters, limit, sort)
    finally:
        store.close()
