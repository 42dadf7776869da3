"""What an index store offers, what is kept of every entry beside it, and the store that lives in memory alone."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from functools import cached_property, lru_cache
from typing import Any, NamedTuple, Protocol

from benchlore.index.documents import Card, Document, count_pair
from benchlore.index.facets import FacetIndex
from benchlore.index.fields import FIELDS, LENGTH_FIELDS, NUMBERS, fields_holding
from benchlore.index.rank import Statistics
from benchlore.index.tokens import analyse, terms_of
from benchlore.terms.recogniser import KINDS_RECOGNISED
from benchlore.terms.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True)
class Kept:
    """What is kept of an entry beside its terms: identity, field lengths, facet values, the card of a hit."""

    slug: str
    rel: str
    digest: str
    lengths: Sequence[int]
    facets: Sequence[Sequence[tuple[str, str]]]
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
        return [*kept, [getattr(self.card, field.name) for field in fields(Card)]]

    @classmethod
    def from_json(cls, row: list[Any]) -> Kept:
        """From :meth:`to_json`, after a trip through JSON."""
        slug, rel, digest, lengths, facets, plain_marks, card = row
        return cls(slug, rel, digest, lengths, facets, plain_marks, Card(*card))


class Catalogue:
    """All live entries in the order of their slugs, with the statistics that ranking needs."""

    def __init__(self, entries: Iterable[Kept]) -> None:
        self.entries = sorted(entries, key=lambda kept: kept.slug)
        """Entry number to what is kept of it."""
        at = {field: place for place, field in enumerate(LENGTH_FIELDS)}
        lengths = [kept.lengths for kept in self.entries]
        totals, having = [0] * len(FIELDS), [0] * len(FIELDS)
        for field, place in at.items():
            column = [row[place] for row in lengths]
            totals[field] = sum(column)
            having[field] = sum(1 for length in column if length)
        self.statistics = Statistics(len(self.entries), totals, having, lambda entry, field: lengths[entry][at[field]])

    @cached_property
    def facets(self) -> FacetIndex:
        """Facet values by entry number."""
        return FacetIndex([kept.facets for kept in self.entries])

    @cached_property
    def plain_marks(self) -> frozenset[str]:
        """Folded models and board markings without a digit."""
        return frozenset(mark for kept in self.entries for mark in kept.plain_marks)


class Text(NamedTuple):
    """The running text of an entry: ``items`` and ``words`` of its :class:`Document`, the words as one string."""

    items: str
    words: str


class Store(Protocol):
    """Where terms are found. Entries are numbered by the place of their slug in ``catalogue``."""

    catalogue: Catalogue

    def postings(self, field: str, term: str) -> Sequence[tuple[int, int]]:
        """Live entries that have the term in the field, as (entry number, term frequency), in rising order."""

    def prefix_terms(self, field: str, start: str) -> Iterable[str]:
        """Terms of the field that start so, by code point; may include terms that no live entry has any more."""

    def texts(self) -> Sequence[Text]:
        """What is kept of the running text of each live entry, by entry number."""

    def close(self) -> None:
        """Let go of files."""


class MemoryStore:
    """An index built anew in memory; nothing is written."""

    def __init__(self, documents: Sequence[Document]) -> None:
        self.catalogue = Catalogue(Kept.of(d) for d in documents)
        by_slug = sorted(documents, key=lambda d: d.slug)
        self._postings: list[dict[str, list[tuple[int, int]]]] = [{} for _ in FIELDS]
        for number, document in enumerate(by_slug):
            for postings, counts in zip(self._postings, document.fields, strict=True):
                for term, tf in counts.items():
                    postings.setdefault(term, []).append((number, tf))
        self._sorted: dict[str, list[str]] = {}
        self._texts = [Text(d.items, " ".join(d.words)) for d in by_slug]

    def postings(self, field: str, term: str) -> Sequence[tuple[int, int]]:
        """See :class:`Store`."""
        return self._postings[NUMBERS[field]].get(term, ())

    def prefix_terms(self, field: str, start: str) -> Iterable[str]:
        """See :class:`Store`."""
        if field not in self._sorted:
            self._sorted[field] = sorted(self._postings[NUMBERS[field]])
        terms = self._sorted[field]
        for index in range(bisect_left(terms, start), len(terms)):
            if not terms[index].startswith(start):
                break
            yield terms[index]

    def texts(self) -> Sequence[Text]:
        """See :class:`Store`."""
        return self._texts

    def close(self) -> None:
        """Nothing to let go of."""


@lru_cache(maxsize=4)
def known_words(vocabulary: Vocabulary) -> dict[str, list[str]]:
    """Letter to the words of the vocabulary that begin with it: those of which texts make ``raw:`` terms."""
    found: set[str] = set()
    for kind in KINDS_RECOGNISED:
        for term in vocabulary.terms(kind).values():
            for phrase in (term.label, *term.phrases):
                found.update(t for t in terms_of(analyse(phrase, None)) if t.startswith("raw:"))
    by_letter: dict[str, list[str]] = {}
    for term_ in sorted(found):
        word = term_.removeprefix("raw:")
        by_letter.setdefault(word[0], []).append(word)
    return by_letter


class StoreLookup:
    """What the query reader and the ranking ask (:class:`benchlore.index.query_terms.Lookup`), answered by a store."""

    def __init__(self, store: Store, vocabulary: Vocabulary) -> None:
        self._store = store
        self._vocabulary = vocabulary
        self.plain_marks = store.catalogue.plain_marks
        self._occurrences: dict[str, dict[int, list[tuple[int, int]]]] = {}
        self._spellings: dict[str, dict[str, int]] = {}

    def occurrences(self, term: str) -> dict[int, list[tuple[int, int]]]:
        """Entry number to (field number, term frequency) pairs; both in rising order."""
        found = self._occurrences.get(term)
        if found is None:
            gathered: dict[int, list[tuple[int, int]]] = {}
            for field in fields_holding(term):
                postings = self._pair(term) if field == "pairs" else self._store.postings(field, term)
                for entry, tf in postings:
                    gathered.setdefault(entry, []).append((NUMBERS[field], tf))
            found = self._occurrences[term] = dict(sorted(gathered.items()))
        return found

    def _pair(self, term: str) -> list[tuple[int, int]]:
        counted = ((entry, count_pair(text.items, term)) for entry, text in enumerate(self._store.texts()))
        return [(entry, count) for entry, count in counted if count]

    def has(self, term: str) -> bool:
        """Whether a live entry has the term."""
        return bool(self.occurrences(term))

    def starts(self, start: str, limit: int) -> list[str]:
        """The first ``limit`` live terms that start so, by code point; without a colon in ``start``, words alone."""
        found: set[str] = set()
        for field in fields_holding(start):
            live = 0
            for term in self._store.prefix_terms(field, start):
                if live == limit:
                    break
                if ":" in term and ":" not in start:
                    continue
                if self._store.postings(field, term):
                    found.add(term)
                    live += 1
        return sorted(found)[:limit]

    def spellings(self, letter: str) -> dict[str, int]:
        """Words of the entries and of the vocabulary that begin with the letter, to the number of entries with them."""
        if not self._spellings:
            counted = Counter(word for text in self._store.texts() for word in text.words.split())
            known = known_words(self._vocabulary)
            self._spellings = {first: dict.fromkeys(words, 0) for first, words in known.items()}
            for word, count in counted.items():
                self._spellings.setdefault(word[0], {})[word] = count
        return self._spellings.get(letter, {})
