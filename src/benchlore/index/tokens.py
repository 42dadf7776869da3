"""Text to search terms: the one way in which entries and queries become terms.

CONTRACT (mirrored in JavaScript; vectors in ``tests/vectors/search_tokens.json``). A term is a string without
white space; what stands before its first colon says its kind:

======================  =======================================================================================
``chatter``             a word: folded, stemmed, not a stop word (the only kind of term without a colon)
``mark:bwc02``          a part number, model or marking: folded, with everything but letters and digits dropped
``value:ohm:47e2``      a quantity: ``value:`` + :func:`benchlore.quantity.scan.value_term`
``symptom:no-power``    a term of the vocabulary, ``KIND:ID``
``not:symptom:…``       the same, negated ("fuse not blown"); only for the kinds in ``NEGATABLE``
``pair:a+b``            two items that follow each other in running text (phrases in quotes)
``raw:relay``           an unstemmed word, for the correction of typing mistakes
``state:open``          a reading without a figure: open or short (:data:`STATES`)
======================  =======================================================================================

A text is taken apart so:

1. ``W`` = :func:`benchlore.terms.fold.words` of the text. Words of more than ``LONGEST_WORD`` characters are dropped.
2. ``Q`` = :func:`benchlore.quantity.scan.find_quantities`, those that have a value term ``t``. Each gives ``value:`` +
   ``t``. A word is *in* a quantity when their ranges share a character. When exactly one word is in it, and this word
   is a *part number* (step 4), that word's ``mark:`` term is given as well (``2u2`` may be printed on a part).
3. ``F`` = the recogniser's finds, settled by :func:`settle`: a negated find inside a positive symptom or failure mode
   goes; negated finds of kinds that are not ``NEGATABLE`` go; positive finds inside a remaining negated one go.
   Each find that remains gives ``kind:id``, or ``not:kind:id``.
4. Each word that is in no quantity: with an ASCII digit and at least two characters it is a *mark* and gives ``mark:``
   + word (a *part number* has a digit and something else than digits). Otherwise it gives its stem, and from four
   characters on, without a digit, ``raw:`` + word; but nothing when it is in ``STOP_WORDS`` or shares a character
   with a negated find.
5. *Compounds*: runs of two words or more, none in a quantity, with exactly one character between neighbours that folds
   to one of ``JOINERS``. The longest run that holds a digit gives ``mark:`` + its words joined, if that has at most
   ``LONGEST_MARK`` characters.
6. *Joins* ("BWC 02"): two neighbouring words in no quantity with exactly one space (U+0020 or U+00A0) between them,
   the first of one to five characters without a digit and no stop word, the second of at most eight characters and
   starting with a digit, give ``mark:`` + both joined.
7. *Items*, for pairs: in the order of ``W``, a quantity's ``value:`` term at its first word (nothing at its others); a
   mark; else the stem, stop words and negated words included. Neighbouring items ``a``, ``b`` give ``pair:a+b``.

A *label* (a term's own name, a maker) goes the same way without step 3.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from benchlore.quantity.scan import find_quantities, value_term
from benchlore.terms.fold import Word, compact, fold, words
from benchlore.terms.recogniser import Found
from benchlore.terms.stem import stem

LONGEST_WORD = 64
LONGEST_MARK = 40
LONGEST_TEXT = 60_000
"""Characters of one text that are read; what lies beyond is not searched."""
JOINERS = frozenset("-_./")
NEGATABLE = frozenset({"symptom", "failure-mode"})
_STOP_WORDS = """
    a an the and or but if then than so as at by for from in into of off on onto out over to up with without within
    is are was were be been being am it its my our your this that these those there here when while after before
    again also just only very too still some any all no not nor never neither do does did doing done has have had
    having i we you he she they them their his her me us what which who how why can could will would should may
    might must wont cant dont doesnt didnt isnt wasnt arent werent hasnt havent couldnt wouldnt cannot sign signs
"""
STOP_WORDS = frozenset(_STOP_WORDS.split())
"""Folded words that are dropped outside phrases."""
STOP_STEMS = frozenset(map(stem, STOP_WORDS))
STATES = {
    "ol": "open", "oc": "open", "open": "open", "infinite": "open",
    "short": "short", "shorted": "short", "sc": "short",
}  # fmt: skip
"""Folded words for a reading without a figure, to the state that they name."""


@dataclass(frozen=True, slots=True)
class Value:
    """A quantity found in a text: its ``value:`` term and its place (character offsets)."""

    term: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Analysis:
    """What a text was taken apart into (steps 1 to 3), before terms are made of it."""

    text: str
    words: tuple[Word, ...]
    values: tuple[Value, ...]
    finds: tuple[Found, ...]

class _Cover:
    """Says whether a range lies inside one of many, in logarithmic time."""

    def __init__(self, finds: Iterable[Found]) -> None:
        self._starts: list[int] = []
        self._reach: list[int] = []
        for start, end in sorted((f.start, f.end) for f in finds):
            self._starts.append(start)
            self._reach.append(max(end, self._reach[-1]) if self._reach else end)

    def holds(self, start: int, end: int) -> bool:
        """Whether some range begins at or before ``start`` and ends at or after ``end``."""
        at = bisect_right(self._starts, start) - 1
        return at >= 0 and self._reach[at] >= end


def has_digit(word: str) -> bool:
    """Whether the word holds an ASCII digit."""
    return not word.isalpha() and any("0" <= c <= "9" for c in word)


def is_mark(word: str) -> bool:
    """Whether a single word counts as a marking: two characters or more, with a digit."""
    return len(word) >= 2 and has_digit(word)


def is_part_number(word: str) -> bool:
    """Whether a word is a marking that does not consist of digits alone."""
    return is_mark(word) and any(not "0" <= c <= "9" for c in word)


def mark_term(text: str) -> str | None:
    """The ``mark:`` term of a whole marking, model or part number; None when nothing of it can be compared."""
    folded = compact(text)
    return f"mark:{folded[:LONGEST_MARK]}" if folded else None


def state_term(text: str) -> str | None:
    """The ``state:`` term of a reading such as ``OL``, ``O.L``, ``open circuit`` or ``short``; None for any other."""
    said = words(text)
    joined = "".join(word.text for word in said)
    state = STATES.get(joined) or (STATES.get(said[0].text) if said and len(said) <= 2 else None)
    return f"state:{state}" if state else None


def settle(finds: Iterable[Found]) -> list[Found]:
    """The finds that count (step 3), in their order."""
    finds = list(finds)
    positive = _Cover(f for f in finds if not f.negated and f.kind in NEGATABLE)
    kept = {f for f in finds if f.negated and f.kind in NEGATABLE and not positive.holds(f.start, f.end)}
    negated = _Cover(kept)
    return [f for f in finds if (f in kept if f.negated else not negated.holds(f.start, f.end))]


def find_term(found: Found) -> str:
    """The term of a find."""
    return f"not:{found.kind}:{found.id}" if found.negated else f"{found.kind}:{found.id}"


class Finder(Protocol):
    """What finds the terms that texts name: the recogniser, or something that finds the same."""

    def find(self, text_words: Sequence[Word]) -> list[Found]:
        """See :meth:`benchlore.terms.recogniser.Recogniser.find`."""


def analyse(text: str, recogniser: Finder | None) -> Analysis:
    """Steps 1 to 3; without a recogniser the text is a label and nothing is recognised in it."""
    text = text[:LONGEST_TEXT]
    found_words = words(text)
    values = []
    for span in find_quantities(text):
        term = value_term(span.quantity)
        if term is not None:
            values.append(Value(f"value:{term}", span.start, span.end))
    finds = settle(recogniser.find(found_words)) if recogniser else []
    return Analysis(text, tuple(w for w in found_words if len(w.text) <= LONGEST_WORD), tuple(values), tuple(finds))


def places(analysis: Analysis) -> list[int | None]:
    """For each word the number of the first quantity that it is in, or None."""
    found: list[int | None] = []
    number = 0
    for word in analysis.words:
        while number < len(analysis.values) and analysis.values[number].end <= word.start:
            number += 1
        inside = number < len(analysis.values) and analysis.values[number].start < word.end
        found.append(number if inside else None)
    return found


def negated_words(analysis: Analysis) -> frozenset[int]:
    """Numbers of the words that share a character with a negated find."""
    found: set[int] = set()
    ends = [word.end for word in analysis.words]
    for find in analysis.finds:
        if find.negated:
            index = bisect_right(ends, find.start)
            while index < len(ends) and analysis.words[index].start < find.end:
                found.add(index)
                index += 1
    return frozenset(found)


def lone_values(analysis: Analysis, inside: Sequence[int | None]) -> dict[int, Word]:
    """Number of each quantity that exactly one word is in, to that word."""
    held: dict[int, list[Word]] = {}
    for word, place in zip(analysis.words, inside, strict=True):
        if place is not None:
            held.setdefault(place, []).append(word)
    return {place: members[0] for place, members in held.items() if len(members) == 1}


def compounds(analysis: Analysis, inside: Sequence[int | None]) -> list[tuple[int, int]]:
    """Runs of words (first, after last) that are one written thing, such as ``BWC-02`` (step 5)."""
    runs: list[tuple[int, int]] = []
    start = 0
    count = len(analysis.words)
    while start < count:
        end = start + 1
        if inside[start] is None:
            while end < count and inside[end] is None and _joined(analysis, end):
                end += 1
        run = analysis.words[start:end]
        if end - start > 1 and any(has_digit(w.text) for w in run) and sum(len(w.text) for w in run) <= LONGEST_MARK:
            runs.append((start, end))
        start = end
    return runs


def _joined(analysis: Analysis, index: int) -> bool:
    before, after = analysis.words[index - 1].end, analysis.words[index].start
    return after - before == 1 and fold(analysis.text[before]) in JOINERS


def terms_of(analysis: Analysis) -> list[str]:
    """The search terms of a text (steps 2 to 6), repeated as often as they occur; without pairs."""
    text_words, inside, negated = analysis.words, places(analysis), negated_words(analysis)
    terms = [value.term for value in analysis.values]
    for word in lone_values(analysis, inside).values():
        if is_part_number(word.text):
            terms.append(f"mark:{word.text}")
    terms += [find_term(f) for f in analysis.finds]
    for index, word in enumerate(text_words):
        if inside[index] is not None:
            continue
        if is_mark(word.text):
            terms.append(f"mark:{word.text}")
        elif word.text not in STOP_WORDS and index not in negated:
            terms.append(stem(word.text))
            if len(word.text) >= 4:
                terms.append(f"raw:{word.text}")
    for start, end in compounds(analysis, inside):
        terms.append("mark:" + "".join(w.text for w in text_words[start:end]))
    for index in range(1, len(text_words)):
        first, second = text_words[index - 1], text_words[index]
        if (
            inside[index - 1] is None
            and inside[index] is None
            and second.start - first.end == 1
            and analysis.text[first.end] in " \u00a0"
            and len(first.text) <= 5
            and not has_digit(first.text)
            and first.text not in STOP_WORDS
            and len(second.text) <= 8
            and "0" <= second.text[0] <= "9"
        ):
            terms.append(f"mark:{first.text}{second.text}")
    return terms


def items_of(analysis: Analysis) -> list[str]:
    """The items of a text in their order (step 7)."""
    items: list[str] = []
    last: int | None = None
    for word, place in zip(analysis.words, places(analysis), strict=True):
        if place is not None:
            if place != last:
                items.append(analysis.values[place].term)
        else:
            items.append(f"mark:{word.text}" if is_mark(word.text) else stem(word.text))
        last = place
    return items


def pairs_of(items: Sequence[str]) -> list[str]:
    """``pair:`` terms of neighbouring items."""
    return [f"pair:{a}+{b}" for a, b in pairwise(items)]


def count_pair(items: str, pair: str) -> int:
    """How often a ``pair:`` term occurs in a document's ``items``."""
    first, _, second = pair.removeprefix("pair:").partition("+")
    if first != second:
        return items.count(f" {first}  {second} ")
    return len(re.findall(f" {re.escape(first)} (?= {re.escape(first)} )", items))
