"""Texts to search terms: the browser makes the same ones as Python, in the same order."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchlore.index.tokens import analyse, items_of, mark_term, pairs_of, terms_of
from benchlore.publish.theme.script_lists import SEARCHING
from tests.browser.script_page import write_script_page
from tests.browser.strings import chance_strings
from tests.index.made_up import vocabulary

VECTORS = Path(__file__).parents[1] / "vectors" / "search_tokens.json"
SET_UP = "phrases => { window.recogniser = new Benchlore.Recogniser(); recogniser.add(phrases); }"


@pytest.fixture
def taking_apart(page, tmp_path):
    page.goto(write_script_page(tmp_path, [*SEARCHING, "fold_far.js"]).as_uri())
    return page


def test_shared_vectors(taking_apart):
    vectors = json.loads(VECTORS.read_text(encoding="utf-8"))
    taking_apart.evaluate(SET_UP, vectors["phrases"])
    theirs = taking_apart.evaluate(
        """texts => texts.map(text => {
          const analysis = Benchlore.tokens.analyse(text, recogniser);
          return {text, terms: Benchlore.tokens.termsOf(analysis), items: Benchlore.tokens.itemsOf(analysis)};
        })""",
        [case["text"] for case in vectors["texts"]],
    )
    assert theirs == vectors["texts"]


def test_terms_items_and_pairs_of_chance_strings(taking_apart):
    taking_apart.evaluate(SET_UP, vocabulary().recogniser.phrases())
    texts = [
        "Relay chatters; the fuse isn't blown, no sign of burning. R12 4k7 reads 4.9 kΩ, see BWC-02 rev B / BWC 03",
        "1n4007 1N 4007 5 × 20 mm fuse, 10:30", "x" * 70 + "1", "a-b-c_1.d/2", "ab 12345678 ab 123456789", "𝒳 12 𝒳-1",
        *chance_strings(6_000, 4),
    ]  # fmt: skip
    theirs = taking_apart.evaluate(
        """texts => JSON.stringify(texts.map(text => {
          const {analyse, termsOf, itemsOf, pairsOf, markTerm} = Benchlore.tokens;
          return [recogniser, null].map(known => {
            const analysis = analyse(text, known);
            const items = itemsOf(analysis);
            return [termsOf(analysis), items, pairsOf(items), markTerm(text)];
          });
        }))""",
        texts,
    )
    for text, found in zip(texts, json.loads(theirs), strict=True):
        for known, answer in zip((vocabulary().recogniser, None), found, strict=True):
            analysis = analyse(text, known)
            items = items_of(analysis)
            assert answer == [terms_of(analysis), items, pairs_of(items), mark_term(text)], text
