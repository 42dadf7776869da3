"""Folding: one table, no reliance on the runtime's Unicode data."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.terms.fold import compact, fold, is_word_character, words


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Won't TURN on", ["wont", "turn", "on"]),
        ("won’t", ["wont"]),
        ("the units' fan", ["the", "units", "fan"]),
        ("BWC‑02", ["bwc", "02"]),
        ("éclair Straße", ["eclair", "strasse"]),
        ("4.7 µF 10 Ω", ["4", "7", "μf", "10", "ω"]),
        ("ﬁlter", ["filter"]),
        ("ＡＢＣ", ["abc"]),
        ("", []),
        ("''", []),
    ],
)
def test_words(text: str, expected: list[str]) -> None:
    assert [word.text for word in words(text)] == expected


@given(st.text())
def test_a_word_lies_where_it_says(text: str) -> None:
    previous = 0
    for word in words(text):
        assert previous <= word.end
        assert 0 <= word.start < word.end <= len(text)
        assert all(is_word_character(c) for c in word.text)
        previous = word.start


@given(st.text(alphabet=st.characters(max_codepoint=127)))
def test_the_quick_way_for_ascii_is_the_same_way(text: str) -> None:
    """A trailing character outside ASCII, no word of its own, sends the same text the long way round."""
    assert words(text) == words(text + " \u2020")


@given(st.text())
def test_folding_twice_changes_nothing(text: str) -> None:
    assert fold(fold(text)) == fold(text)


def test_table_agrees_with_unicode_case_folding() -> None:
    """Unicode's own data, by Python: letters that differ by case alone fold alike."""
    turkish_dotless_i = "\u0131"  # its capital is the ordinary I, in Turkish alone
    for code in range(0x250):
        character = chr(code)
        if character == turkish_dotless_i:
            continue
        if character.isalpha() and len(character.upper()) == 1 and unicodedata.category(character) != "Mn":
            assert fold(character.upper()) == fold(character), hex(code)


@pytest.mark.parametrize("text", ["BWC-02", "bwc 02", "BWC02", "Bwc_02", "BWC—02"])
def test_markings_compare_whatever_the_punctuation(text: str) -> None:
    assert compact(text) == "bwc02"
