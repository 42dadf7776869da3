"""Reads a query: what its words, phrases, markings, values and filters stand for, as groups of terms to rank by.

CONTRACT (mirrored in JavaScript; vectors in ``tests/vectors/search_queries.json``). The reader asks a :class:`Lookup`
what the index holds; in the browser the lookup notes which parts it lacks, they are loaded, and the query is read
again.

White space is space, tab, line end and U+00A0. Characters are code points.

1. The query is cut after ``LONGEST_QUERY`` characters; the characters of ``QUOTES`` become ``"``. It is split by
   ``_SPLIT``, from left to right, into facet filters (``class:dehumidifier``, ``maker:"Orrin & Dace"``; only at the
   start or after white space, only with the name of a facet, else the text is plain), phrases (in quotes; a missing
   closing quote is added) and plain text between them. A filter's value is kept as it was written.
2. A *phrase* becomes its items (``tokens.items_of``, read as a label). One item: a required group with that term.
   More: a required group with a term for each item that is no stop word (weight ``IN_PHRASE``) and one for each pair.
3. *Plain text* is first corrected (:func:`benchlore.index.spelling.correct`), then analysed (``tokens.analyse``), and
   each of its words goes into one group at most, by the first of these rules that applies:

   a. *Exact markings.* From left to right, runs of 4, 3, 2, 1 neighbouring words, with at most two characters between
      neighbours and no line end; none in a quantity. Joined, the run has 2 to ``LONGEST_MARK`` characters and a digit,
      or is one of the lookup's ``plain_marks``. The first run whose ``mark:`` term the index holds makes a group;
      reading goes on behind it.
   b. *Values.* A quantity none of whose words is taken: a term with its ``value:`` term and, when one part number alone
      is in it, that ``mark:``.
   c. *Recognised phrases.* Finds that touch no taken word, without those that lie within a longer one; finds whose
      ranges overlap form one group, with a term for each find (negated ones too). Its words that are no stop words and
      in no quantity follow as part terms (weight ``IN_PHRASE``), unless a find of the group is negated or one of the
      group's words has a stem in the recogniser's ``NEGATORS`` (in "no water", "water" alone says the contrary).
   d. *Starts.* A word followed by ``*`` (two characters or more): terms that start with ``mark:`` + word, then with
      the word. A compound of untaken words, when some ``mark:`` term starts with it. A single mark (two
      characters; three if all are digits), whether or not something starts with it; shorter ones are words.
   e. *Words* that are no stop words: the stem; if the index does not hold it and the word has three characters or
      more, ``mark:`` terms that start with the word as well.
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
from dataclasses import dataclass, field, replace
from typing import Literal, Protocol

from benchlore.index.tokens import (
    LONGEST_MARK,
    STOP_WORDS,
    Analysis,
    analyse,
    compounds,
    find_term,
    has_digit,
    is_mark,
    is_part_number,
    items_of,
    lone_values,
    mark_term,
    pairs_of,
    places,
)
from benchlore.terms.recogniser import NEGATORS, Found, Recogniser
from benchlore.terms.stem import stem

LONGEST_QUERY = 400
MOST_GROUPS = 32
MOST_STARTS = 32
MOST_SISTERS = 64
IN_PHRASE = 0.5
START = 0.6
SISTER = 0.5
QUOTES = "\u201c\u201d\u201e\u201f\u00ab\u00bb"
_BLANK = " \t\r\n\u00a0"
_SPLIT = re.compile(rf'(?:(?<=[{_BLANK}])|^)([A-Za-z][A-Za-z-]*):("[^"]*"?|[^{_BLANK}"]+)|"([^"]*)"?')
_QUOTES = str.maketrans(dict.fromkeys(QUOTES, '"'))

TermKind = Literal["word", "mark", "value", "term", "not", "pair"]
GroupKind = Literal["word", "mark", "value", "term", "phrase"]


class Lookup(Protocol):
    """What the reader of a query asks the index."""

    plain_marks: frozenset[str]
    """Folded models and board markings without a digit."""

    def has(self, term: str) -> bool:
        """Whether a live entry has the term, in any field."""

    def starts(self, start: str, limit: int) -> Sequence[str]:
        """The first ``limit`` live terms that start so, by code point; without a colon in ``start``, words alone."""

    def spellings(self, letter: str) -> dict[str, int]:
        """Known words that begin with the letter (folded, unstemmed), to the number of entries that have them."""


@dataclass(frozen=True, slots=True)
class Expansion:
    """A term of the index that a query term stands for; ``direct`` is the marking itself, for a sister's."""

    term: str
    weight: float = 1.0
    kind: Literal["exact", "start", "sister"] = "exact"
    direct: str = ""


@dataclass(frozen=True, slots=True)
class QueryTerm:
    """One thing to look for: the best of its expansions counts.

    ``text`` is the term, or for words the folded word as typed. ``part`` terms are words of a recognised phrase.
    """

    kind: TermKind
    text: str
    expansions: tuple[Expansion, ...]
    weight: float = 1.0
    part: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """What belongs together in a query, and is said to be missed as a whole.

    An entry matches a required group when it has all its terms. It matches another one when it has one of its terms
    that are not parts, or when ``parts_suffice`` and it has all its parts. ``parts_suffice`` holds when there are two
    part terms or more, or when the phrase is a single word.
    """

    kind: GroupKind
    text: str
    terms: tuple[QueryTerm, ...]
    required: bool = False
    parts_suffice: bool = False


@dataclass(frozen=True, slots=True)
class Correction:
    """A typing mistake as written, and the word that was read instead."""

    typed: str
    read: str


@dataclass(frozen=True, slots=True)
class Sisters:
    """A marking of the query: as it is written in the entries, its boards, and the models that share them."""

    marking: str
    boards: tuple[str, ...]
    models: tuple[str, ...]


@dataclass(slots=True)
class Reading:
    """How a query was read."""

    groups: list[Group] = field(default_factory=list)
    filters: dict[str, list[str]] = field(default_factory=dict)
    corrections: list[Correction] = field(default_factory=list)
    sisters: list[Sisters] = field(default_factory=list)


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
        name = (match[1] or "").lower()
        if match[1] and name not in facets:
            continue
        if match.start() > plain:
            pieces.append(Piece("plain", query[plain : match.start()]))
        pieces.append(Piece("filter", match[2].strip('"'), name) if match[1] else Piece("phrase", match[3]))
        plain = match.end()
    pieces.append(Piece("plain", query[plain:]))
    return [piece for piece in pieces if piece.text.strip(_BLANK)]


class QueryReader:
    """Reads queries over one vocabulary and one index."""

    def __init__(
        self,
        recogniser: Recogniser,
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
                reading.groups += _PlainText(text, self._recogniser, self._lookup, reading.sisters).groups()
        kept: dict[tuple[tuple[Expansion, ...], ...], Group] = {}
        for group in reading.groups:
            kept.setdefault(tuple(term.expansions for term in group.terms), group)
        reading.groups = list(kept.values())[:MOST_GROUPS]
        return reading


def _term(kind: TermKind, term: str, weight: float = 1.0, *, text: str = "", part: bool = False) -> QueryTerm:
    return QueryTerm(kind, text or term, (Expansion(term),), weight, part)


def _kind_of(term: str) -> TermKind:
    head = term.partition(":")[0] if ":" in term else "word"
    return head if head in ("word", "mark", "value", "pair", "not") else "term"  # type: ignore[return-value]


def _phrase(text: str) -> list[Group]:
    analysis = analyse(text, None)
    items = items_of(analysis)
    if len(items) < 2:
        return [Group("phrase", text.strip(_BLANK), (_term(_kind_of(i), i),), required=True) for i in items]
    stops = {stem(word) for word in STOP_WORDS}
    terms = [_term(_kind_of(i), i, IN_PHRASE) for i in items if i not in stops]
    terms += [_term("pair", pair) for pair in pairs_of(items)]
    return [Group("phrase", text.strip(_BLANK), tuple(dict.fromkeys(terms)), required=True)]


class _PlainText:
    """Makes groups of one stretch of plain text (step 3)."""

    def __init__(self, text: str, recogniser: Recogniser, lookup: Lookup, sisters: list[Sisters]) -> None:
        self._analysis: Analysis = analyse(text, recogniser)
        self._words = self._analysis.words
        self._inside = places(self._analysis)
        self._lone = lone_values(self._analysis, self._inside)
        self._lookup = lookup
        self._sisters = sisters
        self._taken = [False] * len(self._words)
        self._found: list[tuple[int, Group]] = []

    def groups(self) -> list[Group]:
        self._exact_markings()
        self._values()
        self._recognised()
        self._starts()
        self._plain_words()
        return [group for _, group in sorted(self._found, key=lambda pair: pair[0])]

    def _slice(self, first: int, after: int) -> str:
        return self._analysis.text[self._words[first].start : self._words[after - 1].end]

    def _take(self, first: int, after: int, group: Group) -> None:
        for index in range(first, after):
            self._taken[index] = True
        self._found.append((self._words[first].start, group))

    # a
    def _exact_markings(self) -> None:
        index = 0
        while index < len(self._words):
            length = self._marking_at(index)
            if length:
                term = "mark:" + "".join(w.text for w in self._words[index : index + length])
                expansions = (Expansion(term), *self._with_start(term), *self._sisters_of(term))
                written = self._slice(index, index + length)
                self._take(index, index + length, Group("mark", written, (QueryTerm("mark", term, expansions),)))
            index += length or 1

    def _marking_at(self, index: int) -> int:
        for length in range(min(4, len(self._words) - index), 0, -1):
            run = self._words[index : index + length]
            joined = "".join(w.text for w in run)
            if not 2 <= len(joined) <= LONGEST_MARK:
                continue
            if not (has_digit(joined) or joined in self._lookup.plain_marks):
                continue
            if not all(self._near(i) for i in range(index + 1, index + length)):
                continue
            if any(place is not None for place in self._inside[index : index + length]):
                continue
            if self._lookup.has(f"mark:{joined}"):
                return length
        return 0

    def _near(self, index: int) -> bool:
        gap = self._analysis.text[self._words[index - 1].end : self._words[index].start]
        return len(gap) <= 2 and "\n" not in gap

    def _with_start(self, term: str) -> list[Expansion]:
        found = self._lookup.starts(term, MOST_STARTS + 1)
        return [Expansion(t, START, "start") for t in found if t != term][:MOST_STARTS]

    def _sisters_of(self, term: str) -> list[Expansion]:
        own = term.removeprefix("mark:")
        boards = [self._written(t) for t in self._lookup.starts(f"boards-of:{own}:", MOST_SISTERS)]
        on_it = [self._written(t) for t in self._lookup.starts(f"models-on:{own}:", MOST_SISTERS)]
        if not boards and not on_it:
            return []
        marks: list[str] = [m for m in map(mark_term, boards) if m]
        names = {own: ""}
        models: list[str] = []
        for board in dict.fromkeys([*marks, *([term] if on_it else [])]):
            for found in self._lookup.starts(f"models-on:{board.removeprefix('mark:')}:", MOST_SISTERS):
                written = self._written(found)
                mark = mark_term(written)
                if mark == term:
                    names[own] = names[own] or written
                elif mark:
                    models.append(written)
        models = list(dict.fromkeys(models))
        self._sisters.append(Sisters(names[own] or self._own_board(own), tuple(boards), tuple(models)))
        terms = dict.fromkeys([*marks, *(m for m in map(mark_term, models) if m)])
        terms.pop(term, None)
        return [Expansion(t, SISTER, "sister", term) for t in list(terms)[:MOST_SISTERS]]

    def _own_board(self, own: str) -> str:
        found = self._lookup.starts(f"board:{own}:", 1)
        return self._written(found[0]) if found else own.upper()

    @staticmethod
    def _written(term: str) -> str:
        return term.split(":", 2)[2]

    # b
    def _values(self) -> None:
        for number, value in enumerate(self._analysis.values):
            members = [i for i, place in enumerate(self._inside) if place == number]
            if any(self._taken[i] for i in members):
                continue
            expansions = [Expansion(value.term)]
            if number in self._lone and is_part_number(self._lone[number].text):
                expansions.append(Expansion(f"mark:{self._lone[number].text}"))
            group = Group(
                "value",
                self._analysis.text[value.start : value.end],
                (QueryTerm("value", value.term, tuple(expansions)),),
            )
            for index in members:
                self._taken[index] = True
            self._found.append((value.start, group))

    # c
    def _recognised(self) -> None:
        free = [f for f in self._analysis.finds if not any(self._taken[i] for i in self._within(f.start, f.end))]
        main = [
            f
            for f in free
            if not any(g.start <= f.start and f.end <= g.end and g.end - g.start > f.end - f.start for g in free)
        ]
        main.sort(key=lambda f: f.start)
        clusters: list[list[Found]] = []
        end = -1
        for find in main:
            if clusters and find.start < end:
                clusters[-1].append(find)
            else:
                clusters.append([find])
            end = max(end, find.end)
        for cluster in clusters:
            self._cluster(cluster)

    def _within(self, start: int, end: int) -> list[int]:
        return [i for i, w in enumerate(self._words) if w.start < end and w.end > start]

    def _cluster(self, finds: list[Found]) -> None:
        start, end = min(f.start for f in finds), max(f.end for f in finds)
        members = self._within(start, end)
        negated = any(f.negated for f in finds) or any(stem(self._words[i].text) in NEGATORS for i in members)
        terms = [_term("not" if f.negated else "term", find_term(f)) for f in finds]
        parts = []
        if not negated:
            parts = [
                _term("word", stem(self._words[i].text), IN_PHRASE, text=self._words[i].text, part=True)
                for i in members
                if self._words[i].text not in STOP_WORDS and self._inside[i] is None
            ]
            parts = list(dict.fromkeys(parts))
        group = Group(
            "term",
            self._analysis.text[start:end],
            tuple(dict.fromkeys([*terms, *parts])),
            parts_suffice=len(parts) > 1 or (len(parts) == 1 and len(members) == 1),
        )
        for index in members:
            self._taken[index] = True
        self._found.append((start, group))

    # d
    def _starts(self) -> None:
        text = self._analysis.text
        for index, word in enumerate(self._words):
            starred = text[word.end : word.end + 1] == "*" and len(word.text) >= 2
            if starred and not self._taken[index]:
                found = [*self._lookup.starts(f"mark:{word.text}", MOST_STARTS)]
                found += self._lookup.starts(word.text, MOST_STARTS)
                terms = tuple(Expansion(t, START, "start") for t in found) or (Expansion(word.text, START, "start"),)
                self._take(index, index + 1, Group("word", word.text + "*", (QueryTerm("word", word.text, terms),)))
        for first, after in compounds(self._analysis, self._inside):
            term = "mark:" + "".join(w.text for w in self._words[first:after])
            if not any(self._taken[first:after]) and self._lookup.starts(term, 1):
                self._take_start(first, after, term)
        for index, word in enumerate(self._words):
            enough = 2 if is_part_number(word.text) else 3
            if not self._taken[index] and self._inside[index] is None and is_mark(word.text):
                if len(word.text) >= enough:
                    self._take_start(index, index + 1, f"mark:{word.text}")
                else:
                    group = Group("mark", word.text, (_term("mark", f"mark:{word.text}"),))
                    self._take(index, index + 1, group)

    def _take_start(self, first: int, after: int, term: str) -> None:
        expansions = (Expansion(term), *self._with_start(term))
        self._take(first, after, Group("mark", self._slice(first, after), (QueryTerm("mark", term, expansions),)))

    # e
    def _plain_words(self) -> None:
        for index, word in enumerate(self._words):
            if self._taken[index] or self._inside[index] is not None or word.text in STOP_WORDS:
                continue
            stemmed = stem(word.text)
            query_term = _term("word", stemmed, text=word.text)
            if len(word.text) >= 3 and not self._lookup.has(stemmed):
                starts = self._lookup.starts(f"mark:{word.text}", MOST_STARTS)
                expansions = (*query_term.expansions, *(Expansion(t, START, "start") for t in starts))
                query_term = replace(query_term, expansions=expansions)
            self._take(index, index + 1, Group("word", self._slice(index, index + 1), (query_term,)))
