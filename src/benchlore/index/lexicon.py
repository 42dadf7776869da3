"""What search needs of the vocabulary: a phrase recogniser, labels, and the words that need no correction.

Kept as JSON beside the index, it lets a search begin without reading the vocabulary: phrases are filed under one of
their tokens, and only those are made a recogniser of whose token stands in the query. That finds the same, since a
phrase is found only where all its tokens stand (those that others may stand for are passed over).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol

from benchlore.index.tokens import Finder, analyse, terms_of
from benchlore.terms.fold import Word
from benchlore.terms.recogniser import CONTRARY, KINDS_RECOGNISED, SOFT, Found, Recogniser, phrase_stems

if TYPE_CHECKING:
    from benchlore.terms.vocabulary import Vocabulary

_ALWAYS = "*"
_REPLACEABLE = {token for tokens in CONTRARY.values() for token in tokens}


class Lexicon(Protocol):
    """The vocabulary as search sees it."""

    @property
    def recogniser(self) -> Finder:
        """Finds the terms that texts name."""

    @property
    def words(self) -> Mapping[str, frozenset[str]]:
        """Letter to the unstemmed words of labels and phrases that begin with it."""

    def label(self, kind: str, term_id: str) -> str:
        """The term's label."""


class VocabularyLexicon:
    """The lexicon of a loaded vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.recogniser: Finder = vocabulary.recogniser
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


def lexicon_json(vocabulary: Vocabulary) -> dict[str, Any]:
    """A vocabulary's lexicon as JSON values, for :class:`KeptLexicon`."""
    said = [
        (phrase_stems(phrase, kind), kind, term.replaced_by or term_id, phrase)
        for kind in KINDS_RECOGNISED
        for term_id, term in vocabulary.terms(kind).items()
        for phrase in dict.fromkeys((term.label, term_id.replace("-", " "), *term.phrases))
    ]
    common = Counter(token for tokens, *_ in said for token in set(tokens))
    phrases: dict[str, list[list[str]]] = {}
    for tokens, kind, term_id, phrase in said:
        keys = {token for token in tokens if token not in SOFT and token.isalpha()} - _REPLACEABLE
        key = min(keys, key=lambda token: (common[token], token), default=_ALWAYS)
        phrases.setdefault(key, []).append([kind, term_id, phrase])
    return {
        "phrases": phrases,
        "labels": {kind: {i: t.label for i, t in vocabulary.terms(kind).items()} for kind in KINDS_RECOGNISED},
        "words": {letter: " ".join(sorted(words)) for letter, words in words_of(vocabulary).items()},
    }


class _Phrases(NamedTuple):
    """As much of a term as the recogniser asks for."""

    label: str
    phrases: Sequence[str]
    replaced_by: None = None


class KeptLexicon:
    """The lexicon of :func:`lexicon_json`, after a trip through JSON."""

    def __init__(self, raw: Mapping[str, Any]) -> None:
        self._phrases: Mapping[str, list[list[str]]] = raw["phrases"]
        self._labels: Mapping[str, Mapping[str, str]] = raw["labels"]
        self.words = {letter: frozenset(words.split(" ")) for letter, words in raw["words"].items()}
        self.recogniser: Finder = self

    def label(self, kind: str, term_id: str) -> str:
        """See :class:`Lexicon`."""
        return self._labels.get(kind, {}).get(term_id) or term_id.replace("-", " ")

    def find(self, text_words: Sequence[Word], kinds: Iterable[str] = KINDS_RECOGNISED) -> list[Found]:
        """See :meth:`benchlore.terms.recogniser.Recogniser.find`."""
        return self._recogniser_for(text_words).find(text_words, kinds)

    def _recogniser_for(self, text_words: Sequence[Word]) -> Recogniser:
        text, end = "", 0
        for word in text_words:
            text += (", " if word.start - end > 1 else " ") + word.text
            end = word.end
        said = {token for kind in ("symptom", "test") for token in phrase_stems(text, kind)}
        terms: dict[str, dict[str, Any]] = {}
        for key in (_ALWAYS, *sorted(said)):
            for kind, term_id, phrase in self._phrases.get(key, ()):
                known = terms.setdefault(kind, {}).setdefault(term_id, _Phrases(phrase, []))
                known.phrases.append(phrase)
        return Recogniser(terms)
