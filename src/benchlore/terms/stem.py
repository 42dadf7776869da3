"""Words to their stems by the published English Snowball algorithm (Porter2)."""

from __future__ import annotations

from functools import lru_cache

import snowballstemmer

_ENGLISH = snowballstemmer.stemmer("english")


@lru_cache(maxsize=50_000)
def stem(word: str) -> str:
    """The stem of a folded word; a word that is not all ASCII letters is its own stem."""
    if not (word.isascii() and word.isalpha()):
        return word
    stemmed: str = _ENGLISH.stemWord(word)
    return stemmed
