"""Makes groups of plain query text: markings with their sisters, values, phrases of the vocabulary, starts, words.

The rules are those of step 3 in :mod:`benchlore.index.query`.
"""

from __future__ import annotations

import re
from dataclasses import replace

from benchlore.index.near_values import WIDEST, WINDOW, bare, near
from benchlore.index.query_terms import Expansion, Group, Lookup, QueryTerm, Sisters, exact
from benchlore.index.tokens import (
    LONGEST_MARK,
    STATES,
    STOP_WORDS,
    Analysis,
    Finder,
    analyse,
    compounds,
    find_term,
    has_digit,
    is_mark,
    is_part_number,
    lone_values,
    mark_term,
    pairs_of,
    places,
)
from benchlore.terms.recogniser import DENYING, Found
from benchlore.terms.stem import stem

MOST_STARTS = 32
MOST_SISTERS = 64
IN_PHRASE = 0.5
START = 0.6
SISTER = 0.5
TOLERANCE = r" ?(?:\u00b1|\+/-|\+-) ?([0-9]{1,2}) ?%"
"""What may stand behind a value to say how far from it others may be."""
DECIMAL = r"(?<![^ \t\r\n\u00a0(])([0-9]{1,6})[.,]([0-9]{1,4})(?![^ \t\r\n\u00a0),;:?!])"
"""A decimal number that stands alone."""
_TOLERANCE, _DECIMAL = re.compile(TOLERANCE), re.compile(DECIMAL)


class PlainText:
    """Makes groups of one stretch of plain text (step 3)."""

    def __init__(self, text: str, recogniser: Finder, lookup: Lookup, sisters: list[Sisters]) -> None:
        self._analysis: Analysis = analyse(text, recogniser)
        self._words = self._analysis.words
        self._inside = places(self._analysis)
        self._lone = lone_values(self._analysis, self._inside)
        self._lookup = lookup
        self._sisters = sisters
        self._taken = [False] * len(self._words)
        self._found: list[tuple[int, Group]] = []

    def groups(self) -> list[Group]:
        """All groups, in the order of the text."""
        self._bare_decimals()
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
            if any(self._taken[index : index + length]):
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

    # a0
    def _bare_decimals(self) -> None:
        text = self._analysis.text
        for match in _DECIMAL.finditer(text):
            members = self._within(match.start(), match.end())
            if any(self._inside[i] is not None for i in members):
                continue
            term = bare(match[1], match[2], self._lookup)
            if term and members:
                self._take(members[0], members[-1] + 1, Group("value", match[0], (exact("value", term),)))

    # b
    def _values(self) -> None:
        said_until = 0
        for number, value in enumerate(self._analysis.values):
            members = [i for i, place in enumerate(self._inside) if place == number]
            if value.start < said_until:  # the figure of a tolerance
                for index in members:
                    self._taken[index] = True
                continue
            if any(self._taken[i] for i in members):
                continue
            tolerance = _TOLERANCE.match(self._analysis.text, value.end)
            said_until = tolerance.end() if tolerance else 0
            window = min(WIDEST, int(tolerance[1])) if tolerance else WINDOW
            expansions = [Expansion(value.term), *near(value.term, self._lookup, window)]
            if number in self._lone and is_part_number(self._lone[number].text):
                expansions.insert(1, Expansion(f"mark:{self._lone[number].text}"))
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
        denied = next((n for n, i in enumerate(members) if stem(self._words[i].text) in DENYING), None)
        negated = any(f.negated for f in finds)
        terms = [exact("not" if f.negated else "term", find_term(f)) for f in finds]
        if len(members) <= 2 and denied is None and not negated:
            states = [STATES[self._words[i].text] for i in members if self._words[i].text in STATES]
            terms += [exact("state", f"state:{state}") for state in dict.fromkeys(states)]
        parts = []
        if not negated:
            parts = [
                exact("word", stem(self._words[i].text), IN_PHRASE, text=self._words[i].text, part=True)
                for i in members[:denied]
                if self._words[i].text not in STOP_WORDS and self._inside[i] is None
            ]
            parts = list(dict.fromkeys(parts))
        if denied is not None and not negated:
            items = [self._item(i) for i in members[denied:] if self._inside[i] is None]
            terms += [exact("pair", pair) for pair in pairs_of(items)]
        group = Group(
            "term",
            self._analysis.text[start:end],
            tuple(dict.fromkeys([*terms, *parts])),
            parts_suffice=denied is None and (len(parts) > 1 or (len(parts) == 1 and len(members) == 1)),
        )
        for index in members:
            self._taken[index] = True
        self._found.append((start, group))

    def _item(self, index: int) -> str:
        word = self._words[index].text
        return f"mark:{word}" if is_mark(word) else stem(word)

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
                value = self._bare_number(word.text)
                if value:
                    self._take(index, index + 1, Group("value", word.text, (exact("value", value),)))
                elif len(word.text) >= enough:
                    self._take_start(index, index + 1, f"mark:{word.text}")
                else:
                    group = Group("mark", word.text, (exact("mark", f"mark:{word.text}"),))
                    self._take(index, index + 1, group)

    def _bare_number(self, word: str) -> str | None:
        """The value that a whole number can only mean, when no marking starts so."""
        if not (word.isascii() and word.isdigit() and len(word) <= 6) or self._lookup.starts(f"mark:{word}", 1):
            return None
        return bare(word, "", self._lookup)

    def _take_start(self, first: int, after: int, term: str) -> None:
        expansions = (Expansion(term), *self._with_start(term))
        self._take(first, after, Group("mark", self._slice(first, after), (QueryTerm("mark", term, expansions),)))

    # e
    def _plain_words(self) -> None:
        for index, word in enumerate(self._words):
            if self._taken[index] or self._inside[index] is not None or word.text in STOP_WORDS:
                continue
            stemmed = stem(word.text)
            query_term = exact("word", stemmed, text=word.text)
            if word.text in STATES:
                state = exact("state", f"state:{STATES[word.text]}")
                self._take(index, index + 1, Group("word", self._slice(index, index + 1), (query_term, state)))
                continue
            if len(word.text) >= 3 and not self._lookup.has(stemmed):
                starts = self._lookup.starts(f"mark:{word.text}", MOST_STARTS)
                expansions = (*query_term.expansions, *(Expansion(t, START, "start") for t in starts))
                query_term = replace(query_term, expansions=expansions)
            self._take(index, index + 1, Group("word", self._slice(index, index + 1), (query_term,)))
