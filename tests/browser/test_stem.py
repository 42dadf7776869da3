"""The browser's stemmer against the published algorithm's own generated implementation (PyPI: snowballstemmer)."""

from __future__ import annotations

import json
import random
from pathlib import Path

import snowballstemmer
from english_words import get_english_words_set

from benchlore.terms.stem import stem
from tests.browser.script_page import write_script_page

STEMS = json.loads((Path(__file__).parents[1] / "vectors" / "stem.json").read_text(encoding="utf-8"))["stems"]


def test_python_stems_by_the_revision_that_the_browser_follows():
    # An older revision of the algorithm would make another index than the one that the browser asks.
    assert {word: stem(word) for word in STEMS} == STEMS


def test_shared_vectors(page, tmp_path):
    page.goto(write_script_page(tmp_path, ["stem.js"]).as_uri())
    assert page.evaluate("words => words.map(Benchlore.stem)", list(STEMS)) == list(STEMS.values())


def test_stems_of_a_packaged_word_list_are_those_of_snowball(page, tmp_path):
    # The list "web2" of the PyPI package english-words; repair words are added, with their usual endings.
    listed = {word for word in get_english_words_set(["web2"], lower=True) if word.isascii() and word.isalpha()}
    bench = "hum buzz relay chatter heat overheat solder capacitor swell trip blow leak seize squeal drip click"
    endings = ["", "s", "es", "ed", "ing", "er", "ers", "ly", "ness", "ment", "able", "ation", "edly", "ingly", "ied"]
    listed |= {word + ending for word in bench.split() for ending in endings}
    words = sorted(listed)[::4]
    assert len(words) >= 50_000
    chance = random.Random(20260503)
    words += ["".join(chance.choices("aeiouyylstnrdgbmeding", k=chance.randint(1, 12))) for _ in range(20_000)]
    page.goto(write_script_page(tmp_path, ["stem.js"]).as_uri())
    ours = page.evaluate("words => words.map(Benchlore.stem)", words)
    published = snowballstemmer.stemmer("english").stemWords(words)
    different = [
        (word, mine, theirs) for word, mine, theirs in zip(words, ours, published, strict=True) if mine != theirs
    ]
    assert different == []


def test_what_is_not_plain_letters_is_its_own_stem(page, tmp_path):
    page.goto(write_script_page(tmp_path, ["stem.js"]).as_uri())
    words = ["4k7", "irf840s", "überhitzung", "", "no", "𝒶𝒷𝒸ing", "10mhzs"]
    assert page.evaluate("words => words.map(Benchlore.stem)", words) == words
