"""What queries are read as, over an index of our choosing."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.index.facets import FACET_NAMES
from benchlore.index.query import MOST_GROUPS, Piece, QueryReader, split
from benchlore.index.query_terms import Group, Reading
from benchlore.index.rank import Where
from benchlore.index.spelling import correct, one_slip
from benchlore.terms.stem import stem
from tests.index.made_up import vocabulary


class Known:
    """A lookup over terms and words that are written down here."""

    def __init__(self, terms: Sequence[str], words: Sequence[str] = (), plain: Sequence[str] = ()) -> None:
        self._terms = sorted({*terms, *map(stem, words)})
        self._words = dict.fromkeys(words, 1)
        self.plain_marks = frozenset(plain)

    def has(self, term: str) -> bool:
        return term in self._terms

    def starts(self, start: str, limit: int) -> list[str]:
        found = [t for t in self._terms if t.startswith(start) and (":" in start or ":" not in t)]
        return found[:limit]

    def spellings(self, letter: str) -> list[str]:
        return [word for word in self._words if word[0] == letter]

    def count(self, word: str) -> int:
        return self._words.get(word, -1)

    def occurrences(self, term: str) -> dict[int, Where]:
        return {0: ()} if self.has(term) else {}


SISTERS = [
    "mark:bwc02", "mark:bw12", "mark:bw16", "mark:bw16a", "mark:bw20",
    "board:bwc02:BWC-02",
    *(f"boards-of:bw{n}:BWC-02" for n in (12, 16, 20)),
    *(f"models-on:bwc02:BW-{n}" for n in (12, 16, 20)),
]  # fmt: skip
MARKS = ["mark:irf840", "mark:irf830", "mark:7805", "mark:pcb44712", "mark:1n4007"]
WORDS = ["relay", "chatter", "seal", "leak", "heat", "capacitor", "compressor", "motor"]
KNOWN = Known([*SISTERS, *MARKS], WORDS)


def read(query: str, known: Known = KNOWN) -> Reading:
    return QueryReader(vocabulary().recogniser, known, FACET_NAMES, correct).read(query)


def terms(group: Group) -> list[str]:
    return [expansion.term for term in group.terms for expansion in term.expansions]


def kinds(query: str) -> list[tuple[str, str]]:
    return [(group.kind, group.text) for group in read(query).groups]


@pytest.mark.parametrize("written", ["BWC-02", "bwc 02", "BWC02", "bwc_02", "Bwc.02", "ＢＷＣ－０２", "BW C02"])
def test_a_board_marking_in_any_spelling(written: str) -> None:
    (group,) = read(written).groups
    assert (group.kind, group.terms[0].expansions[0].term) == ("mark", "mark:bwc02")


def test_a_model_brings_its_sisters_at_half_weight() -> None:
    reading = read("BW 16")
    (group,) = reading.groups
    (term,) = group.terms
    assert [(e.term, e.kind, e.weight) for e in term.expansions] == [
        ("mark:bw16", "exact", 1.0),
        ("mark:bw16a", "start", 0.6),
        ("mark:bwc02", "sister", 0.5),
        ("mark:bw12", "sister", 0.5),
        ("mark:bw20", "sister", 0.5),
    ]
    assert all(e.direct == "mark:bw16" for e in term.expansions if e.kind == "sister")
    (sisters,) = reading.sisters
    assert (sisters.marking, sisters.boards, sisters.models) == ("BW-16", ("BWC-02",), ("BW-12", "BW-20"))


def test_a_board_brings_the_models_on_it() -> None:
    reading = read("bwc02")
    assert terms(reading.groups[0]) == ["mark:bwc02", "mark:bw12", "mark:bw16", "mark:bw20"]
    assert reading.sisters[0].marking == "BWC-02"


def test_a_marking_of_several_words_and_one_without_digits() -> None:
    assert kinds("pcb 4471 2") == [("mark", "pcb 4471 2")]
    known = Known(["mark:orrinduo"], WORDS, ["orrinduo"])
    named, word = read("Orrin Duo quibbly", known).groups
    assert [(g.kind, g.text) for g in (named, word)] == [("mark", "Orrin Duo"), ("word", "quibbly")]
    assert [g.kind for g in read("Orrin Duo quibbly").groups] == ["word", "word", "word"]


@pytest.mark.parametrize(
    ("start", "found"), [("irf8", 2), ("irf", 2), ("IRF-8", 2), ("irf83", 1), ("780", 1), ("1n40", 1)]
)
def test_the_start_of_a_part_number(start: str, found: int) -> None:
    (group,) = read(start).groups
    assert sum(e.kind == "start" for term in group.terms for e in term.expansions) == found


def test_a_star_asks_for_words_and_marks_that_start_so() -> None:
    (group,) = read("cap*").groups
    assert terms(group) == ["capacitor"]
    assert group.text == "cap*"


@pytest.mark.parametrize("value", ["4k7", "4700 ohm", "4.7 kΩ"])
def test_a_value_in_any_notation(value: str) -> None:
    (group,) = read(value).groups
    assert (group.kind, terms(group)[0]) == ("value", "value:ohm:47e2")


def test_a_value_stays_a_value_when_it_is_printed_on_a_part_too() -> None:
    (group,) = read("4k7", Known(["mark:4k7"])).groups
    assert terms(group) == ["value:ohm:47e2", "mark:4k7"]


def test_a_phrase_of_the_vocabulary_with_its_words() -> None:
    (group,) = read("relay chatters").groups
    assert terms(group) == ["symptom:relay-chatter", "relay", "chatter"]
    assert [t.part for t in group.terms] == [False, True, True]
    assert group.parts_suffice


def test_negation_asks_for_the_negated_term_alone() -> None:
    (group,) = read("fuse not blown").groups
    assert terms(group)[0] == "not:symptom:blown-fuse"
    assert all(term.startswith("not:") for term in terms(group))


def test_the_words_of_a_negative_phrase_do_not_stand_alone() -> None:
    (group,) = read("no power").groups
    assert all(":" in term for term in terms(group))


def test_a_phrase_in_quotes_is_required_and_keeps_its_stop_words() -> None:
    (group,) = read('"heat on the seal"').groups
    assert group.required
    assert terms(group) == ["heat", "seal", "pair:heat+on", "pair:on+the", "pair:the+seal"]


def test_quotes_of_other_kinds_and_without_an_end() -> None:
    assert read("“heat seal”").groups == read('"heat seal"').groups == read('"heat seal').groups


@pytest.mark.parametrize(
    ("query", "pieces"),
    [
        ("class:dehumidifier hums", [("filter", "class", "dehumidifier"), ("plain", "", " hums")]),
        ('maker:"Orrin & Dace"', [("filter", "maker", "Orrin & Dace")]),
        ("CLASS:x", [("filter", "class", "x")]),
        ("colour:green", [("plain", "", "colour:green")]),
        ("xclass:a", [("plain", "", "xclass:a")]),
        ("10:30", [("plain", "", "10:30")]),
        ('a "b c" d', [("plain", "", "a "), ("phrase", "", "b c"), ("plain", "", " d")]),
        ('""', []),
        ("class:", [("plain", "", "class:")]),
    ],
)
def test_split(query: str, pieces: list[tuple[str, str, str]]) -> None:
    assert split(query, FACET_NAMES) == [Piece(kind, text, name) for kind, name, text in pieces]  # type: ignore[arg-type]


def test_the_same_twice_is_asked_once() -> None:
    assert kinds("quibble quibbles Quibble quibbled") == [("word", "quibble")]


def test_groups_stand_in_the_order_of_the_query() -> None:
    assert [text for _, text in kinds("seal 4k7 BW16 leak")] == ["seal", "4k7", "BW16", "leak"]


@pytest.mark.parametrize(
    ("a", "b", "slip"),
    [
        ("relya", "relay", True), ("chater", "chatter", True), ("chattter", "chatter", True), ("seel", "seal", True),
        ("relay", "relay", False), ("realy", "relya", False), ("ab", "abcd", False), ("", "a", True),
        ("ab", "ba", True), ("abc", "cba", False),
    ],
)  # fmt: skip
def test_one_slip(a: str, b: str, slip: bool) -> None:
    assert one_slip(a, b) == one_slip(b, a) == slip


def _edits(word: str) -> set[str]:
    letters = "abcdefghijklmnopqrstuvwxyz"
    cuts = [(word[:i], word[i:]) for i in range(len(word) + 1)]
    return {
        *(a + b[1:] for a, b in cuts if b),
        *(a + b[1] + b[0] + b[2:] for a, b in cuts if len(b) > 1),
        *(a + c + b[1:] for a, b in cuts if b for c in letters),
        *(a + c + b for a, b in cuts for c in letters),
    } - {word}


@given(st.text("abc", max_size=6), st.text("abc", max_size=6))
def test_one_slip_is_any_of_the_four_edits(a: str, b: str) -> None:
    assert one_slip(a, b) == (b in _edits(a))


def test_mistakes_are_mended_before_phrases_are_looked_for() -> None:
    reading = read("Relya chater!")
    assert [(c.typed, c.read) for c in reading.corrections] == [("Relya", "relay"), ("chater", "chatter")]
    assert terms(reading.groups[0])[0] == "symptom:relay-chatter"


@pytest.mark.parametrize("word", ["relay", "relays", "irff", "abc", "xyzzyx", "seal*", "thre"])
def test_what_is_not_corrected(word: str) -> None:
    known = Known([*MARKS, "mark:irff1"], [*WORDS, "the", "three"][:-2])
    assert correct(word, known)[1] == []


def test_the_commonest_of_close_words_is_meant() -> None:
    known = Known([], [])
    known._words = {"seal": 2, "seat": 5, "sear": 5}
    assert correct("seab", known) == ("sear", correct("seab", known)[1])


@given(st.text(max_size=500))
def test_any_text_is_read(query: str) -> None:
    reading = read(query)
    assert len(reading.groups) <= MOST_GROUPS
    assert all(group.terms for group in reading.groups)
    assert all(term.expansions for group in reading.groups for term in group.terms)


ODD = ['"', "*", "class:", ":", "not", "no", "4k7", "bw", "16", "irf8", "relay", "-", "\n", "ω"]


@given(st.lists(st.sampled_from(ODD)))
def test_any_mixture_is_read(parts: list[str]) -> None:
    assert read(" ".join(parts)) == read(" ".join(parts))
    read("".join(parts))
