"""Reads a query: what its words, phrases, markings, values and filters stand for, as groups of terms to rank by.

CONTRACT (mirrored in JavaScript). The reader asks a :class:`benchlore.index.query_terms.Lookup`
what the index holds; in the browser the lookup notes which parts it lacks, they are loaded, and the query is read
again.

White space is space, tab, line end and U+00A0. Characters are code points.

1. The query is cut after ``LONGEST_QUERY`` characters; the characters of ``QUOTES`` become ``"``. It is split by
   ``_SPLIT``, from left to right, into facet filters (``class:dehumidifier``, ``maker:"Orrin & Dace"``; with a hyphen
   before it, ``-class:dehumidifier``, the value gets one; only at the start or after white space, only with the name of
   a facet, else the text is plain), phrases (in quotes; a missing
   closing quote is added) and plain text between them. A filter's value is kept as it was written.
2. A *phrase* becomes its items (``tokens.items_of``, read as a label). One item: a required group with that term.
   More: a required group with a term for each item that is no stop word (weight ``IN_PHRASE``) and one for each pair.
3. *Plain text* (:mod:`benchlore.index.plain_text`) is first corrected (:func:`benchlore.index.spelling.correct`), then
   analysed (``tokens.analyse``), and each of its words goes into one group at most, by the first of these rules that
   applies:

   0. *Numbers alone.* A decimal number that stands alone (``DECIMAL``, no word of it in a quantity) and can only mean
      one value (:mod:`benchlore.index.near_values`).
   a. *Exact markings.* From left to right, runs of 4, 3, 2, 1 neighbouring words, with at most two characters between
      neighbours and no line end; none in a quantity. Joined, the run has 2 to ``LONGEST_MARK`` characters and a digit,
      or is one of the lookup's ``plain_marks``. The first run whose ``mark:`` term the index holds makes a group;
      reading goes on behind it.
   b. *Values.* A quantity none of whose words is taken: a term with its ``value:`` term and, when one part number alone
      is in it, that ``mark:``; then the near values. What ``TOLERANCE`` finds right behind it gives the window (at most
      ``WIDEST``), and the figure in it is no value of its own.
   c. *Recognised phrases.* Finds that touch no taken word, without those that lie within a longer one; finds whose
      ranges overlap form one group, with a term for each find (negated ones too), and, when it has at most two words
      and nothing is negated, one for each state (``tokens.STATES``) that these name. Its words that are no stop words
      and in no quantity follow as part terms (weight ``IN_PHRASE``), unless a find of the group is negated. From the
      first word on whose stem is in the recogniser's ``DENYING``, words are no parts ("water" alone says the contrary
      of "no water"); the pairs of those in no quantity are terms instead, and parts do not suffice.
   d. *Starts.* A word followed by ``*`` (two characters or more): terms that start with ``mark:`` + word, then with
      the word. A compound of untaken words, when some ``mark:`` term starts with it. A single mark (two
      characters; three if all are digits), whether or not something starts with it; shorter ones are words. But digits
      with which no marking starts and which can only mean one value are that.
   e. *Words* that are no stop words: the stem; if the index does not hold it and the word has three characters or
      more, ``mark:`` terms that start with the word as well. A word that names a state: its stem and the state.
4. Groups stand in the order of the query; a group whose terms have the same expansions as an earlier one's is dropped;
   at most ``MOST_GROUPS`` are kept.

*Expansions.* An exact term has weight 1; terms with that start follow, in order, up to ``MOST_STARTS``, with weight
``START``. A marking (rule a) is followed by its starts and by its *sisters*, up to ``MOST_SISTERS``, with weight
``SISTER``: with B the boards found as ``boards-of:MARK:…`` and, if there is any ``models-on:MARK:…``, the marking
itself; first the ``mark:`` of each other board in B, then that of each model in ``models-on:BOARD:…`` for each board in
B, all in the lookup's order, without doubles and without the marking itself. What stands behind the second colon of
such a term is the marking as written, white space as U+00A0 (``board:MARK:…`` gives a board's own).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from benchlore.index.plain_text import IN_PHRASE, PlainText
from benchlore.index.query_terms import Correction, Expansion, Group, Lookup, Reading, TermKind, exact
from benchlore.index.tokens import STOP_WORDS, Finder, analyse, items_of, pairs_of
from benchlore.terms.stem import stem

LONGEST_QUERY = 400
MOST_GROUPS = 32
QUOTES = "\u201c\u201d\u201e\u201f\u00ab\u00bb"
_BLANK = " \t\r\n\u00a0"
_SPLIT = re.compile(rf'(?:(?<=[{_BLANK}])|^)(-?[A-Za-z][A-Za-z-]*):("[^"]*"?|[^{_BLANK}"]+)|"([^"]*)"?')
_QUOTES = str.maketrans(dict.fromkeys(QUOTES, '"'))


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a query: a filter (``name`` set), a phrase or plain text."""

    kind: Literal["filter", "phrase", "plain"]
    text: str
    name: str = ""


def split(query: str, facets: Sequence[str]) -> list[Piece]:
    """The stretches of a query (step 1)."""
    query = query[:LONGEST_QUERY].translate(_QUOTES)
    pieces: list[Piece] = []
    plain = 0
    for match in _SPLIT.finditer(query):
        name = (match[1] or "").lower().removeprefix("-")
        if match[1] and name not in facets:
            continue
        if match.start() > plain:
            pieces.append(Piece("plain", query[plain : match.start()]))
        if match[1]:
            excluding = "-" if match[1].startswith("-") else ""
            pieces.append(Piece("filter", excluding + match[2].strip('"'), name))
        else:
            pieces.append(Piece("phrase", match[3]))
        plain = match.end()
    pieces.append(Piece("plain", query[plain:]))
    return [piece for piece in pieces if piece.text.strip(_BLANK)]


class QueryReader:
    """Reads queries over one vocabulary and one index."""

    def __init__(
        self,
        recogniser: Finder,
        lookup: Lookup,
        facets: Sequence[str],
        correct: Callable[[str, Lookup], tuple[str, list[Correction]]],
    ) -> None:
        self._recogniser = recogniser
        self._lookup = lookup
        self._facets = facets
        self._correct = correct

    def read(self, query: str) -> Reading:
        """Any string can be read; what cannot be made sense of is taken as words."""
        reading = Reading()
        for piece in split(query, self._facets):
            if piece.kind == "filter":
                reading.filters.setdefault(piece.name, []).append(piece.text)
            elif piece.kind == "phrase":
                reading.groups += _phrase(piece.text)
            else:
                text, corrections = self._correct(piece.text, self._lookup)
                reading.corrections += corrections
                reading.groups += PlainText(text, self._recogniser, self._lookup, reading.sisters).groups()
        kept: dict[tuple[tuple[Expansion, ...], ...], Group] = {}
        for group in reading.groups:
            kept.setdefault(tuple(term.expansions for term in group.terms), group)
        reading.groups = list(kept.values())[:MOST_GROUPS]
        return reading


def _kind_of(term: str) -> TermKind:
    head = term.partition(":")[0] if ":" in term else "word"
    return head if head in ("word", "mark", "value", "pair", "not") else "term"  # type: ignore[return-value]


def _phrase(text: str) -> list[Group]:
    analysis = analyse(text, None)
    items = items_of(analysis)
    if len(items) < 2:
        return [Group("phrase", text.strip(_BLANK), (exact(_kind_of(i), i),), required=True) for i in items]
    stops = {stem(word) for word in STOP_WORDS}
    terms = [exact(_kind_of(i), i, IN_PHRASE) for i in items if i not in stops]
    terms += [exact("pair", pair) for pair in pairs_of(items)]
    return [Group("phrase", text.strip(_BLANK), tuple(dict.fromkeys(terms)), required=True)]
