"""Text to folded words: case, accents, compatibility forms and apostrophes taken off by our own character table.

The table (``fold_table.json``) is generated once by Python and read by Python and JavaScript alike, so that neither
relies on the Unicode data of its runtime. One rule for both:

* every character is replaced by its fold (most fold to themselves; combining marks fold to nothing);
* a *word* is a run of word characters (the ``word`` ranges of the table, asked of the folded character);
* an apostrophe directly between two word characters is dropped and joins them (``won't`` becomes ``wont``).
"""

from __future__ import annotations

import json
import re
from bisect import bisect_right
from functools import cache
from pathlib import Path
from typing import NamedTuple

APOSTROPHES = "'\u2019\u02bc"
_ASCII_WORD = re.compile(r"[a-z0-9]+(?:'[a-z0-9]+)*")
_TABLE = Path(__file__).with_name("fold_table.json")


class Word(NamedTuple):
    """A folded word and where it stood in the text (character offsets)."""

    text: str
    start: int
    end: int


class _Table(NamedTuple):
    folds: dict[int, str]
    starts: list[int]
    ends: list[int]


@cache
def _table() -> _Table:
    raw = json.loads(_TABLE.read_text(encoding="utf-8"))
    folds: dict[int, str] = {}
    for start, count, step, delta in raw["runs"]:
        for code in range(start, start + count * step, step):
            folds[code] = chr(code + delta)
    for code, text in raw["singles"].items():
        folds[int(code)] = text
    starts, ends, position = [], [], 0
    for gap, length in zip(raw["word"][0::2], raw["word"][1::2], strict=True):
        starts.append(position + gap)
        position += gap + length
        ends.append(position)
    return _Table(folds, starts, ends)


def fold(text: str) -> str:
    """``text`` with every character replaced by its fold."""
    return text.lower() if text.isascii() else text.translate(_table().folds)


def is_word_character(character: str) -> bool:
    """Whether a folded character belongs inside a word."""
    if character.isascii():
        return character.isalnum()
    table = _table()
    where = bisect_right(table.starts, ord(character)) - 1
    return where >= 0 and ord(character) < table.ends[where]


def words(text: str) -> list[Word]:
    """The folded words of ``text`` in order, each with its place in ``text``."""
    if text.isascii():
        return [_ascii_word(match) for match in _ASCII_WORD.finditer(text.lower())]
    folds = _table().folds
    found: list[Word] = []
    letters: list[str] = []
    start = end = 0
    apostrophe = False
    for index, character in enumerate(text):
        if character in APOSTROPHES:
            if letters and not apostrophe:
                apostrophe = True
                continue
            folded = " "
        else:
            folded = folds.get(ord(character), character)
        for piece in folded:
            if is_word_character(piece):
                if not letters:
                    start = index
                letters.append(piece)
                end = index + 1
                apostrophe = False
            elif letters:
                found.append(Word("".join(letters), start, end))
                letters = []
                apostrophe = False
    if letters:
        found.append(Word("".join(letters), start, end))
    return found


def _ascii_word(match: re.Match[str]) -> Word:
    return Word(match[0].replace("'", ""), match.start(), match.end())


def compact(text: str) -> str:
    """``text`` folded, with everything but word characters dropped: how markings and part numbers are compared."""
    return "".join(word.text for word in words(text))
