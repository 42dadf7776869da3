"""Folding and words in the browser, character by character and over chance strings, as in Python."""

from __future__ import annotations

import json

import pytest

from benchlore.publish.theme.make_tables import scripts
from benchlore.terms.fold import compact, fold, words
from tests.browser.script_page import SCRIPTS, write_script_page
from tests.browser.strings import chance_strings

FILES = ["fold.js", "fold_near.js", "fold_far.js"]
EVERY = [code for code in range(0x110000) if not 0xD800 <= code <= 0xDFFF]


@pytest.fixture
def folding(page, tmp_path):
    page.goto(write_script_page(tmp_path, FILES).as_uri())
    return page


def test_tables_in_the_scripts_are_fresh():
    for name, text in scripts().items():
        assert (SCRIPTS / name).read_text(encoding="ascii") == text


def test_every_character_folds_alike_and_makes_the_same_words(folding):
    theirs = folding.evaluate(
        """() => {
          const folds = {}, words = {};
          for (let code = 0; code < 0x110000; code += 1) {
            if (code >= 0xd800 && code <= 0xdfff) continue;
            const character = String.fromCodePoint(code);
            const text = Benchlore.fold(character);
            if (text !== character) folds[code] = text;
            const found = Benchlore.words(character).map(word => word.text).join(" ");
            if (found !== text) words[code] = found;
          }
          return JSON.stringify([folds, words]);
        }"""
    )
    folds, differing = json.loads(theirs)
    assert folds == {str(code): fold(chr(code)) for code in EVERY if fold(chr(code)) != chr(code)}
    found = {str(code): " ".join(word.text for word in words(chr(code))) for code in EVERY}
    assert differing == {code: text for code, text in found.items() if text != fold(chr(int(code)))}


def test_words_of_chance_strings(folding):
    texts = [*chance_strings(10_000, 1), "won't", "'tis 'n' rock''n''roll", "a'\u0301b", "dogs' bone", "ＡＢ'ｃ"]
    theirs = folding.evaluate(
        """texts => texts.map(text => [
          Benchlore.words(text).map(w => [w.text, text.slice(0, w.start), text.slice(0, w.end)]),
          Benchlore.compact(text)])""",
        texts,
    )
    for text, (found, squeezed) in zip(texts, theirs, strict=True):
        assert found == [[w.text, text[: w.start], text[: w.end]] for w in words(text)], text
        assert squeezed == compact(text)


def test_characters_of_a_table_that_did_not_come_are_known_to_be_missing(page, tmp_path):
    page.goto(write_script_page(tmp_path, ["fold.js", "fold_near.js"]).as_uri())
    texts = ["plain", "Überhitzung 0,47 µF ±10 % — 4 Ω", "漢字", "ﬁlter", "😀"]
    missed = page.evaluate("texts => texts.map(text => (Benchlore.words(text), Benchlore.foldMissed()))", texts)
    assert missed == [False, False, True, True, True]
