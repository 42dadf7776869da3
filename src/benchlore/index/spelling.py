"""Single typing mistakes in a query: an unknown word is read as the known word one slip away from it.

CONTRACT (mirrored in JavaScript). A word of plain text is corrected when it has ``SHORTEST`` to ``LONGEST`` characters,
all of them a to z; is no stop word and not followed by ``*``; is not among the lookup's spellings; and neither its stem
nor a ``mark:`` term that starts with it is in the index. The candidates are the spellings that begin with its first or
its second letter and are *one slip* away: a letter more, a letter less, another letter, or two neighbouring letters
swapped. The one that most entries have wins, of equals the first by code point. Without a candidate the word stays.
The corrected text is the text with these words replaced, all else as it was.
"""

from __future__ import annotations

from benchlore.index.query_terms import Correction, Lookup
from benchlore.index.tokens import STOP_WORDS
from benchlore.terms.fold import words
from benchlore.terms.stem import stem

SHORTEST = 4
LONGEST = 24


def one_slip(a: str, b: str) -> bool:
    """Whether one insertion, deletion, replacement or swap of neighbours makes ``b`` of ``a``."""
    if a == b or abs(len(a) - len(b)) > 1:
        return False
    first = 0
    while first < min(len(a), len(b)) and a[first] == b[first]:
        first += 1
    if len(a) == len(b):
        if a[first + 1 :] == b[first + 1 :]:
            return True
        return a[first : first + 2] == b[first : first + 2][::-1] and a[first + 2 :] == b[first + 2 :]
    longer, shorter = (a, b) if len(a) > len(b) else (b, a)
    return longer[first + 1 :] == shorter[first:]


def nearest_known(word: str, lookup: Lookup) -> str | None:
    """The known word that is one slip away from an unknown one; None when there is none."""
    known = {**lookup.spellings(word[0]), **lookup.spellings(word[1])}
    close = [candidate for candidate in known if one_slip(word, candidate)]
    return min(close, key=lambda candidate: (-known[candidate], candidate), default=None)


def correct(text: str, lookup: Lookup) -> tuple[str, list[Correction]]:
    """The text with its typing mistakes mended, and what was mended."""
    mended, corrections, at = [], [], 0
    for word in words(text):
        if _is_unknown(word.text, lookup) and text[word.end : word.end + 1] != "*":
            known = nearest_known(word.text, lookup)
            if known:
                corrections.append(Correction(text[word.start : word.end], known))
                mended += [text[at : word.start], known]
                at = word.end
    return "".join([*mended, text[at:]]), corrections


def _is_unknown(word: str, lookup: Lookup) -> bool:
    return (
        SHORTEST <= len(word) <= LONGEST
        and all("a" <= c <= "z" for c in word)
        and word not in STOP_WORDS
        and not lookup.has(stem(word))
        and not lookup.starts(f"mark:{word}", 1)
        and word not in lookup.spellings(word[0])  # last: it reads the most
    )
