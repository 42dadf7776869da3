"""Measures of ranked lists: against a published example, another library, and what must hold of them."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.errors import BenchloreError
from benchlore.index.judged import by_trigrams, by_words, plain_bm25, read_judged
from benchlore.index.measures import interval, ndcg, recall, reciprocal_rank
from tests.index.made_up import record, vocabulary

GRADES = st.dictionaries(st.sampled_from("abcdefgh"), st.integers(0, 3), min_size=1)


def test_ndcg_of_the_worked_example() -> None:
    # The worked example of Wikipedia's page "Discounted cumulative gain": six documents with the grades 3, 2, 3, 0, 1,
    # 2 have DCG 6.861; with two more known ones (3 and 2) the ideal is 8.740 and nDCG 0.785.
    grades = {"d1": 3, "d2": 2, "d3": 3, "d4": 0, "d5": 1, "d6": 2, "d7": 3, "d8": 2}
    assert ndcg(["d1", "d2", "d3", "d4", "d5", "d6"], grades, depth=6) == pytest.approx(0.785, abs=5e-4)


@settings(deadline=None)
@given(st.fixed_dictionaries(dict.fromkeys("ab", st.integers(1, 3)), optional=dict.fromkeys("cdef", st.integers(0, 3))),
       st.permutations("abcdef"))  # fmt: skip
def test_ndcg_agrees_with_scikit_learn(grades: dict[str, int], ranked: list[str]) -> None:
    metrics = pytest.importorskip("sklearn.metrics")
    order = [slug for slug in ranked if slug in grades]
    theirs = metrics.ndcg_score([[grades[slug] for slug in order]], [[-place for place in range(len(order))]], k=10)
    assert ndcg(order, grades) == pytest.approx(theirs)


@given(GRADES, st.permutations("abcdefgh"))
def test_measures_lie_between_none_and_all(grades: dict[str, int], ranked: list[str]) -> None:
    best = sorted(grades, key=lambda slug: -grades[slug])
    for measure in (ndcg, recall, reciprocal_rank):
        assert 0 <= measure(ranked, grades) <= measure(best, grades) <= 1
        assert measure([], grades) == 0


def test_recall_and_rank_by_hand() -> None:
    grades = {"a": 3, "b": 2, "c": 1}
    assert recall(["x", "c", "b", "y", "z", "a"], grades) == 0.5
    assert reciprocal_rank(["x", "c", "b"], grades) == pytest.approx(1 / 3)
    many = dict.fromkeys("abcdefg", 3)
    assert recall(list("abcde"), many) == 1.0, "five places cannot hold seven"


def test_the_interval_holds_the_mean_and_shrinks() -> None:
    few, many = [0.0, 1.0] * 5, [0.0, 1.0] * 500
    low, high = interval(few)
    assert low < 0.5 < high
    assert interval(many)[1] - interval(many)[0] < (high - low) / 5
    # Normal approximation: 1.96 * 0.5 / sqrt(1000) = 0.031 to either side.
    assert interval(many) == pytest.approx((0.469, 0.531), abs=0.005)


def test_plain_bm25_finds_words_and_trigrams() -> None:
    records = [record("a-pump", title="Pump seal leaks"), record("b-fan", title="Fan bearing squeals")]
    assert plain_bm25(records, vocabulary(), by_words)("seal")[0] == "a-pump"
    assert plain_bm25(records, vocabulary(), by_words)("baering") == []
    assert plain_bm25(records, vocabulary(), by_trigrams)("baering")[0] == "b-fan"


def test_a_file_of_judged_queries_is_read_and_its_errors_are_told(tmp_path: Path) -> None:
    file = tmp_path / "judged.yaml"
    file.write_text("- {query: relay, capability: word, half: tune, judgements: {x: 3}}", encoding="utf-8")
    assert read_judged(file)[0].judgements == {"x": 3}
    for text, told in (("- {query: relay}", "item 1 capability"), ("a: [", "while parsing"), ("x", "list")):
        file.write_text(text, encoding="utf-8")
        with pytest.raises(BenchloreError, match=told):
            read_judged(file)
