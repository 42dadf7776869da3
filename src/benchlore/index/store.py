"""What an index store offers, the store that lives in memory alone, and the lookup that queries ask of either."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple, Protocol

from benchlore.index.card import Card
from benchlore.index.catalogue import Catalogue, Kept
from benchlore.index.fields import PAIRS
from benchlore.index.rank import Occurrences, Where
from benchlore.index.tokens import STOP_STEMS, count_pair

if TYPE_CHECKING:
    from benchlore.index.documents import Document
    from benchlore.index.lexicon import Lexicon


class Shown(NamedTuple):
    """What a hit shows of an entry: its path from the base's root, and its card."""

    rel: str
    card: Card


class Store(Protocol):
    """Where terms are found. Entries are numbered by the place of their slug in ``catalogue``."""

    catalogue: Catalogue

    def occurrences(self, term: str) -> Occurrences:
        """Live entries that have the term, pairs aside; in rising order."""

    def terms_from(self, start: str) -> Iterator[str]:
        """Terms from ``start`` on, by code point, pairs aside; may include terms that no live entry has any more."""

    def holding(self, item: str) -> Iterable[int]:
        """Entries whose running text may hold the item (:func:`benchlore.index.tokens.items_of`), no stop word."""

    def items(self, entry: int) -> str:
        """``items`` of the entry's :class:`benchlore.index.documents.Document`."""

    def words(self, letter: str) -> Iterable[str]:
        """Unstemmed words that begin with the letter; may include words that no live entry has any more."""

    def word_count(self, word: str) -> int:
        """How many live entries have the unstemmed word."""

    def shown(self, entry: int) -> Shown:
        """What a hit shows of an entry."""

    def close(self) -> None:
        """Let go of files."""


class MemoryStore:
    """An index built anew in memory; nothing is written."""

    def __init__(self, documents: Sequence[Document]) -> None:
        from benchlore.index.documents import occurrences_of

        self.catalogue = Catalogue.of(Kept.of(d) for d in documents)
        self._documents = sorted(documents, key=lambda d: d.slug)
        self._occurrences: dict[str, dict[int, Where]] = {}
        self._words: dict[str, int] = {}
        for number, document in enumerate(self._documents):
            for term, where in occurrences_of(document).items():
                self._occurrences.setdefault(term, {})[number] = where
            for word in document.words:
                self._words[word] = self._words.get(word, 0) + 1
        self._sorted: list[str] = []

    def occurrences(self, term: str) -> Occurrences:
        """See :class:`Store`."""
        return self._occurrences.get(term, {})

    def terms_from(self, start: str) -> Iterator[str]:
        """See :class:`Store`."""
        if not self._sorted:
            self._sorted = sorted(self._occurrences)
        for index in range(bisect_left(self._sorted, start), len(self._sorted)):
            yield self._sorted[index]

    def holding(self, item: str) -> Iterable[int]:
        """See :class:`Store`."""
        return range(len(self._documents))

    def items(self, entry: int) -> str:
        """See :class:`Store`."""
        return self._documents[entry].items

    def words(self, letter: str) -> Iterable[str]:
        """See :class:`Store`."""
        return [word for word in self._words if word[0] == letter]

    def word_count(self, word: str) -> int:
        """See :class:`Store`."""
        return self._words.get(word, 0)

    def shown(self, entry: int) -> Shown:
        """See :class:`Store`."""
        return Shown(self._documents[entry].rel, self._documents[entry].card)

    def close(self) -> None:
        """Nothing to let go of."""


class StoreLookup:
    """What the query reader and the ranking ask (:class:`benchlore.index.query_terms.Lookup`), answered by a store."""

    def __init__(self, store: Store, lexicon: Lexicon) -> None:
        self._store = store
        self._known = lexicon.words
        self.plain_marks = store.catalogue.plain_marks
        self._occurrences: dict[str, Occurrences] = {}
        self._starts = lru_cache(maxsize=500)(self._find_starts)

    def occurrences(self, term: str) -> Occurrences:
        """Entry number to where the entry has the term, in rising order."""
        found = self._occurrences.get(term)
        if found is None:
            found = self._pair(term) if term.startswith("pair:") else self._store.occurrences(term)
            self._occurrences[term] = found
        return found

    def _pair(self, term: str) -> dict[int, Where]:
        wanted = [item for item in term.removeprefix("pair:").split("+") if item not in STOP_STEMS]
        entries: Iterable[int] = range(len(self._store.catalogue.slugs))
        if wanted:
            entries = sorted(set.intersection(*(set(self._store.holding(item)) for item in wanted)))
        counted = ((entry, count_pair(self._store.items(entry), term)) for entry in entries)
        return {entry: ((PAIRS, count, 0),) for entry, count in counted if count}

    def has(self, term: str) -> bool:
        """Whether a live entry has the term."""
        return bool(self.occurrences(term))

    def starts(self, start: str, limit: int) -> Sequence[str]:
        """The first ``limit`` live terms that start so, by code point; without a colon in ``start``, words alone."""
        return self._starts(start, limit)

    def _find_starts(self, start: str, limit: int) -> Sequence[str]:
        found: list[str] = []
        since: str | None = start
        while since is not None and len(found) < limit:
            resume: str | None = None
            for term in self._store.terms_from(since):
                if not term.startswith(start):
                    break
                if ":" in term and ":" not in start:
                    resume = f"{term.partition(':')[0]};"  # ";" follows ":": behind all of its kind
                    break
                if self._store.occurrences(term):
                    found.append(term)
                    if len(found) == limit:
                        break
            since = resume
        return found

    def spellings(self, letter: str) -> Iterable[str]:
        """Unstemmed words of entries and vocabulary that begin with the letter; some may be gone (see ``count``)."""
        return {*self._known.get(letter, ()), *self._store.words(letter)}

    def count(self, word: str) -> int:
        """How many entries have the unstemmed word; -1 when neither they nor the vocabulary know it."""
        entries = self._store.word_count(word)
        return entries or (0 if word in self._known.get(word[:1], ()) else -1)

