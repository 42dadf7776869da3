"""What search needs of the vocabulary: the phrase recogniser, labels, and the words that need no correction."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Protocol

from benchlore.index.tokens import analyse, terms_of
from benchlore.terms.recogniser import KINDS_RECOGNISED, Recogniser

if TYPE_CHECKING:
    from benchlore.terms.vocabulary import Vocabulary


class Lexicon(Protocol):
    """The vocabulary as search sees it."""

    recogniser: Recogniser
    words: Mapping[str, frozenset[str]]
    """Letter to the unstemmed words of labels and phrases that begin with it."""

    def label(self, kind: str, term_id: str) -> str:
        """The term's label."""


class VocabularyLexicon:
    """The lexicon of a loaded vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.recogniser = vocabulary.recogniser
        self.words = words_of(vocabulary)
        self.label = vocabulary.label


@lru_cache(maxsize=4)
def words_of(vocabulary: Vocabulary) -> Mapping[str, frozenset[str]]:
    """Letter to the words of the vocabulary that begin with it: those of which texts make ``raw:`` terms."""
    found: set[str] = set()
    for kind in KINDS_RECOGNISED:
        for term in vocabulary.terms(kind).values():
            for phrase in (term.label, *term.phrases):
                found.update(t for t in terms_of(analyse(phrase, None)) if t.startswith("raw:"))
    return by_letter(term.removeprefix("raw:") for term in found)


def by_letter(words: Iterable[str]) -> Mapping[str, frozenset[str]]:
    """Words by their first letter."""
    found: dict[str, set[str]] = {}
    for word in words:
        found.setdefault(word[0], set()).add(word)
    return {letter: frozenset(some) for letter, some in found.items()}
