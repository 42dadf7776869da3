"""Ranking arithmetic: against the formula's other implementations, and the rules of groups and ties."""

from __future__ import annotations

import json
import math
import random
from pathlib import Path

import bm25s
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.index.query_terms import Expansion, Group, QueryTerm
from benchlore.index.rank import FieldWeight, Ranker, Statistics, Where, idf, ln, round12, rounded_length, saturation

PUBLISHED = json.loads((Path(__file__).parents[1] / "vectors" / "bm25.json").read_text(encoding="utf-8"))


def ranker_over(texts: list[list[str]], b: float = 0.75, k1: float = 1.2, weight: float = 1.0) -> Ranker:
    """A ranker of one field over texts that are words already."""
    occurrences: dict[str, dict[int, Where]] = {}
    for number, text in enumerate(texts):
        for word in text:
            occurrences.setdefault(word, {})[number] = ((0, text.count(word), len(text)),)
    having = sum(1 for text in texts if text)
    statistics = Statistics(len(texts), [sum(map(len, texts))], [having])
    return Ranker([FieldWeight("text", weight, b)], statistics, lambda term: occurrences.get(term, {}), k1)


def group(*terms: str, **options: bool) -> Group:
    return Group("word", " ".join(terms), tuple(QueryTerm("word", t, (Expansion(t),)) for t in terms), **options)


def sums(ranker: Ranker, words: list[str], entries: int) -> list[float]:
    """Plain sums of the words' parts, without the share of matched groups."""
    scores = [0.0] * entries
    for word in words:
        for scored in ranker.rank([group(word)]):
            scores[scored.entry] += scored.score
    return scores


def test_agrees_with_published_figures() -> None:
    texts = [text.split() for text in PUBLISHED["texts"]]
    ranker = ranker_over(texts, PUBLISHED["b"], PUBLISHED["k1"])
    assert sums(ranker, PUBLISHED["query"].split(), len(texts)) == pytest.approx(PUBLISHED["scores"], abs=6e-7)


@pytest.mark.parametrize(("k1", "b"), [(1.5, 0.75), (1.2, 0.4), (0.9, 1.0)])
def test_agrees_with_bm25s(k1: float, b: float) -> None:
    chance = random.Random(5)
    words = [f"w{n}" for n in range(40)]
    texts = [[words[min(int(chance.expovariate(0.15)), 39)] for _ in range(chance.randint(1, 30))] for _ in range(120)]
    other = bm25s.BM25(method="lucene", k1=k1, b=b)
    other.index(texts, show_progress=False)
    ranker = ranker_over(texts, b, k1)
    for _ in range(20):
        query = chance.sample(sorted({word for text in texts for word in text}), 3)
        assert sums(ranker, query, len(texts)) == pytest.approx(list(other.get_scores(query)), rel=1e-5, abs=1e-6)


@given(st.floats(min_value=1.0, max_value=1e12))
def test_logarithm_is_the_logarithm(x: float) -> None:
    assert ln(x) == pytest.approx(math.log(x), rel=1e-14, abs=1e-15)


@given(st.integers(1, 100_000), st.data())
def test_rarer_is_worth_more(entries: int, data: st.DataObject) -> None:
    df = data.draw(st.integers(1, entries))
    assert idf(entries, df) > 0
    if df < entries:
        assert idf(entries, df) > idf(entries, df + 1)


def test_more_occurrences_count_more_and_long_fields_less() -> None:
    assert saturation(1, 10, 10.0, 0.5) < saturation(2, 10, 10.0, 0.5) < 1
    assert saturation(1, 20, 10.0, 0.5) < saturation(1, 10, 10.0, 0.5)
    assert saturation(1, 20, 10.0, 0.0) == saturation(1, 0, 10.0, 0.0)


def test_rounding_to_twelve_digits() -> None:
    assert round12(1 / 3) == 0.333333333333
    assert round12(123456789.1234567) == 123456789.123
    assert round12(0.0) == 0.0


def test_ties_go_by_number_and_all_words_beat_some() -> None:
    ranker = ranker_over([["a", "x"], ["a", "b"], ["a", "y"], ["c"]], b=0.0)
    assert [s.entry for s in ranker.rank([group("a")])] == [0, 1, 2]
    ranked = ranker.rank([group("a"), group("b")])
    assert [s.entry for s in ranked] == [1, 0, 2]
    assert [[s.matches(group) for group in (0, 1)] for s in ranked] == [[True, True], [True, False], [True, False]]


def test_a_required_group_leaves_out_the_rest() -> None:
    ranker = ranker_over([["a", "b"], ["a"], ["b"]])
    assert [s.entry for s in ranker.rank([group("a", "b", required=True)])] == [0]


def test_a_group_is_partly_matched_by_part_words() -> None:
    parts = tuple(QueryTerm("word", t, (Expansion(t),), 0.5, part=True) for t in ("a", "b"))
    both = Group("term", "a b", (QueryTerm("term", "t", (Expansion("t"),)), *parts), parts_suffice=True)
    ranked = ranker_over([["a", "b"], ["a"], ["t"]], b=0.0).rank([both])
    assert {s.entry: (s.full, s.touched) for s in ranked} == {0: (1, 1), 1: (0, 1), 2: (1, 1)}
    assert ranked[-1].entry == 1


def test_the_best_expansion_counts_once() -> None:
    ranker = ranker_over([["irf840", "irf830"], ["irf840"]], b=0.0)
    starts = (Expansion("irf830", 0.6, "start"), Expansion("irf840", 0.6, "start"))
    scores = {s.entry: s.score for s in ranker.rank([Group("mark", "irf8", (QueryTerm("mark", "irf8", starts),))])}
    assert scores[0] == round12(0.6 * idf(2, 1) / 2.2)
    assert scores[1] == round12(0.6 * idf(2, 2) / 2.2)


def test_lengths_are_rounded_to_three_binary_digits() -> None:
    assert [rounded_length(n) for n in (0, 1, 7, 8, 9, 11, 15, 17, 18, 100, 61)] == [
        0, 1, 7, 8, 10, 12, 16, 16, 20, 96, 64,
    ]  # fmt: skip


@given(st.integers(0, 10**7))
def test_a_rounded_length_is_near_and_stays_as_it_is(length: int) -> None:
    rounded = rounded_length(length)
    assert abs(rounded - length) <= length / 8
    assert rounded_length(rounded) == rounded
    assert bin(rounded)[2:].rstrip("0").__len__() <= 3
