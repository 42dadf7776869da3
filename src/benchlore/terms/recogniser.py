"""The phrase recogniser: which terms a text names, by the phrases of the vocabulary, with negation.

The same rule in Python and JavaScript:

1. The text's words are folded and stemmed; ``NOT_WORDS`` become ``not``; filler words (``FILLERS``) are passed over.
   Phrases are treated alike.
2. For each kind in ``KINDS_RECOGNISED``, from left to right: of the phrases that match at this word the longest wins
   (equal lengths: the smaller term id), and matching goes on behind it.
3. One negating word may stand inside a phrase ("fuse not blown"): the term is then *negated*. So it is when a
   negating word stands right before the phrase, or before a linking word that is right before it ("no sign burning").
   A phrase that has the negating word in itself ("no power") is matched as it stands.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from benchlore.terms.fold import Word, words
from benchlore.terms.model import Term
from benchlore.terms.stem import stem

KINDS_RECOGNISED = ("symptom", "component", "failure-mode", "test", "class", "block", "mechanism")
"""Kinds that running text can name, in the order they are looked for."""


def _stems(text: str) -> frozenset[str]:
    return frozenset(stem(word) for word in text.split())


FILLERS = _stems(
    "a an the is are was were be been being it its my this that these those"
    " do does did will would has have had can could"
)
NOT_WORDS = _stems(
    "isnt wasnt arent werent doesnt dont didnt cant cannot couldnt wont wouldnt hasnt havent hadnt aint never"
)
"""Read as ``not``, so that "doesn't turn on", "will not turn on" and "never turns on" are one phrase."""
NEGATORS = _stems("no not without neither nor")
DENYING = NEGATORS | NOT_WORDS
"""Stems that deny what follows; words that only do that say nothing else."""
LINKS = _stems("any sign signs trace of longer")


class Found(NamedTuple):
    """A term found in a text: which, where (character offsets), and whether it was negated."""

    kind: str
    id: str
    start: int
    end: int
    negated: bool


class PhraseEntry(NamedTuple):
    """A phrase as stems, and the term it stands for."""

    stems: tuple[str, ...]
    id: str


def phrase_stems(phrase: str) -> tuple[str, ...]:
    """The stems of a phrase without fillers; a phrase of fillers alone keeps them."""
    stems = tuple(_plain(stem(word.text)) for word in words(phrase))
    return tuple(s for s in stems if s not in FILLERS) or stems


def _plain(stemmed: str) -> str:
    return "not" if stemmed in NOT_WORDS else stemmed


class Recogniser:
    """Finds the terms that texts name. Built once from the vocabulary's terms by kind."""

    def __init__(self, terms: Mapping[str, Mapping[str, Term]]) -> None:
        self._by_first: dict[str, dict[str, list[PhraseEntry]]] = {}
        for kind in KINDS_RECOGNISED:
            entries = {
                PhraseEntry(phrase_stems(phrase), term.replaced_by or term_id)
                for term_id, term in terms.get(kind, {}).items()
                for phrase in (term.label, term_id.replace("-", " "), *term.phrases)
            }
            by_first: dict[str, list[PhraseEntry]] = defaultdict(list)
            for entry in sorted(entries, key=lambda e: (-len(e.stems), e.id, e.stems)):
                if entry.stems:
                    by_first[entry.stems[0]].append(entry)
            self._by_first[kind] = dict(by_first)

    def find(self, text_words: Sequence[Word], kinds: Iterable[str] = KINDS_RECOGNISED) -> list[Found]:
        """The terms named by folded words (of :func:`benchlore.terms.fold.words`), by kind, then by place."""
        content = [(_plain(stem(word.text)), word) for word in text_words]
        content = [(s, word) for s, word in content if s not in FILLERS]
        stems = [s for s, _ in content]
        found: list[Found] = []
        for kind in kinds:
            by_first = self._by_first[kind]
            index = free_from = 0
            while index < len(stems):
                match = _longest(stems, index, by_first.get(stems[index], ()))
                if match is None:
                    index += 1
                    continue
                term_id, after, negated = match
                negated = negated or _negated_before(stems, index, free_from)
                found.append(Found(kind, term_id, content[index][1].start, content[after - 1][1].end, negated))
                index = free_from = after
        return found

    def find_in(self, text: str, kinds: Iterable[str] = KINDS_RECOGNISED) -> list[Found]:
        """The terms named by ``text``."""
        return self.find(words(text), kinds)

    def phrases(self) -> list[tuple[str, str, tuple[str, ...]]]:
        """Every phrase as (kind, term id, stems), in matching order: the table that the browser is given."""
        return [
            (kind, entry.id, entry.stems)
            for kind, by_first in self._by_first.items()
            for first in sorted(by_first)
            for entry in by_first[first]
        ]


def _longest(stems: Sequence[str], index: int, entries: Iterable[PhraseEntry]) -> tuple[str, int, bool] | None:
    for entry in entries:  # longest first
        place, at, negated = 1, index + 1, False
        while place < len(entry.stems) and at < len(stems):
            if stems[at] == entry.stems[place]:
                place += 1
            elif stems[at] in NEGATORS and not negated:
                negated = True
            else:
                break
            at += 1
        if place == len(entry.stems):
            return entry.id, at, negated
    return None


def _negated_before(stems: Sequence[str], index: int, free_from: int) -> bool:
    at = index - 1
    while at >= free_from and stems[at] in LINKS and index - at <= 2:
        at -= 1
    return at >= free_from and stems[at] in NEGATORS
