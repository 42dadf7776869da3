"""Texts to terms: the rules one by one, and the vectors that the browser is held to as well."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.index.tokens import STOP_WORDS, analyse, items_of, mark_term, pairs_of, terms_of
from benchlore.terms.fold import words
from benchlore.terms.model import ComponentClass, FailureMode, FailureRatio, Symptom, Term
from benchlore.terms.recogniser import Recogniser

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "search_tokens.json").read_text(encoding="utf-8"))


def small_vocabulary(raw: dict[str, dict[str, list[str]]]) -> dict[str, dict[str, Term]]:
    """Terms by kind and id, of their label and phrases alone."""
    ratio = {"open": FailureRatio(ratio=1, source="common practice")}
    make = {
        "symptom": lambda label, said: Symptom(label=label, definition="For tests.", phrases=said, group="tests"),
        "failure-mode": lambda label, said: FailureMode(label=label, definition="For tests.", phrases=said),
        "component": lambda label, said: ComponentClass(
            label=label, definition="For tests.", phrases=said, family="electronic", failure_modes=ratio
        ),
    }
    return {
        kind: {term_id: make[kind](said[0], tuple(said[1:])) for term_id, said in terms.items()}
        for kind, terms in raw.items()
    }


RECOGNISER = Recogniser(small_vocabulary(VECTORS["vocabulary"]))


def terms(text: str) -> set[str]:
    return {term for term in terms_of(analyse(text, RECOGNISER)) if not term.startswith("raw:")}


def test_there_are_vectors_enough() -> None:
    assert len(VECTORS["texts"]) >= 150


@pytest.mark.parametrize("case", VECTORS["texts"], ids=lambda case: ascii(case["text"])[:60])
def test_vectors(case: dict[str, object]) -> None:
    analysis = analyse(str(case["text"]), RECOGNISER)
    assert terms_of(analysis) == case["terms"]
    assert items_of(analysis) == case["items"]


@pytest.mark.parametrize("written", ["BWC-02", "BWC 02", "BWC02", "bwc_02", "bwc.02", "ＢＷＣ－０２", "BWC‑02"])
def test_a_marking_is_one_in_any_spelling(written: str) -> None:
    assert "mark:bwc02" in terms(f"the {written} board")
    assert mark_term(written) == "mark:bwc02"


@pytest.mark.parametrize("written", ["4k7", "4700 ohm", "4.7 kΩ", "4.7k ohm", "4K7", "4700Ω"])
def test_a_value_is_one_in_any_notation(written: str) -> None:
    assert "value:ohm:47e2" in terms(f"R5 is {written} here")


def test_a_phrase_becomes_its_term_and_its_words() -> None:
    assert terms("The relay chatters.") == {"symptom:relay-chatter", "component:relay", "relay", "chatter"}


def test_negation_keeps_the_positive_out() -> None:
    found = terms("fuse not blown, relay chatters")
    assert "not:symptom:blown-fuse" in found
    assert not found & {"symptom:blown-fuse", "component:fuse", "fuse", "blown"}
    assert "symptom:relay-chatter" in found


def test_a_phrase_that_is_negative_itself_is_no_negation() -> None:
    assert "symptom:no-power" in terms("no power at all")
    assert not any(term.startswith("not:") for term in terms("no power at all"))


def test_stop_words_are_dropped_but_count_in_phrases() -> None:
    assert terms("and the of") == set()
    assert items_of(analyse("won't turn on", None)) == ["wont", "turn", "on"]
    assert pairs_of(["wont", "turn", "on"]) == ["pair:wont+turn", "pair:turn+on"]


def test_stop_words_are_folded_words() -> None:
    assert all([w.text for w in words(word)] == [word] for word in STOP_WORDS)


def test_a_label_is_not_recognised_in() -> None:
    assert terms_of(analyse("relay", None)) == ["relay", "raw:relay"]


@given(st.text(max_size=300))
def test_any_text_gives_terms_without_white_space(text: str) -> None:
    analysis = analyse(text, RECOGNISER)
    for term in [*terms_of(analysis), *pairs_of(items_of(analysis))]:
        assert term
        assert not any(character.isspace() for character in term)


@given(st.text(alphabet="bdq 019-_./,\"'", max_size=120))
def test_case_does_not_matter_for_words_and_marks(text: str) -> None:
    assert terms_of(analyse(text, None)) == terms_of(analyse(text.upper(), None))
