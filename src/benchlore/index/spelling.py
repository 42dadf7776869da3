"""Mistakes in a query: slips of the finger, words joined or split, letters for digits in part numbers.

CONTRACT (mirrored in JavaScript). Plain text is corrected in two passes; all else in it stays as it was.

1. *Markings.* A run of words with at most two characters and no white space between neighbours, none of them in a
   quantity, joined to ``c``: of 3 to ``LONGEST_MARK`` characters, all of them a to z and 0 to 9, letters as well as
   digits, one of ``01oil`` among them. When the index holds neither ``mark:c`` nor one that starts so: with ``d`` =
   ``c`` with o as 0 and i and l as 1, the index's ``mark:d``, else the marking of its first term that starts with
   ``alike:d:``, is read in capitals.
2. *Words.* From left to right; a word takes part when it has 2 to ``LONGEST`` characters, all a to z, and is no stop
   word and not followed by ``*``. It is *unknown* when neither its stem nor a ``mark:`` term that starts with it is in
   the index and it is not among the spellings.

   a. *Split words.* The word and the next one, with a space, U+00A0 or a hyphen between and one of them unknown: joined
      they are read when that is a spelling that some entry has, of at least ``LEAST_JOINED`` characters.
   b. An unknown word of ``SHORTEST`` characters or more: the spellings that begin with its first or its second letter
      and are *one slip* away (a letter more, less or another, or two neighbours swapped); else
   c. *joined words*: the first place, from the left, that cuts it into two halves of ``LEAST_HALF`` characters or more
      that entries have (a half of three characters: its stem is in the index and it is no stop word); else
   d. spellings with its first letter whose stem is one slip away; else
   e. from ``LONG`` characters on, spellings with its first letter that are two slips away.

   Of several spellings the one that most entries have wins, of equals the first by code point.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from benchlore.index.fields import LOOKS_LIKE
from benchlore.index.query_terms import Correction, Lookup
from benchlore.index.tokens import LONGEST_MARK, STOP_WORDS
from benchlore.quantity.scan import find_quantities
from benchlore.terms.fold import Word, words
from benchlore.terms.stem import stem

SHORTEST, LONGEST, LONG = 4, 24, 8
LEAST_JOINED, LEAST_HALF = 5, 3
_WORD = re.compile(rf"[a-z]{{2,{LONGEST}}}")
_MARK = re.compile(rf"(?=.*[0-9])(?=.*[a-z])(?=.*[01oil])[a-z0-9]{{3,{LONGEST_MARK}}}")
_BLANK = " \t\r\n\u00a0"


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


def slips(a: str, b: str) -> int:
    """How many slips make ``b`` of ``a``, no letter being touched twice (the optimal string alignment distance)."""
    earlier: list[int] = []
    before = list(range(len(b) + 1))
    for i, letter in enumerate(a, start=1):
        row = [i]
        for j, other in enumerate(b, start=1):
            least = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and a[i - 2] == other:
                least = min(least, earlier[j - 2] + 1)
            row.append(least)
        earlier, before = before, row
    return before[-1]


def correct(text: str, lookup: Lookup) -> tuple[str, list[Correction]]:
    """The text with its mistakes mended, and what was mended."""
    text, corrections = _replaced(text, _markings(text, lookup))
    mended, more = _replaced(text, _words(text, lookup))
    return mended, corrections + more


Mend = tuple[int, int, str]
"""Characters from, up to, and what is read there."""


def _replaced(text: str, mends: Iterable[Mend]) -> tuple[str, list[Correction]]:
    pieces, corrections, at = [], [], 0
    for start, end, read in mends:
        corrections.append(Correction(text[start:end], read))
        pieces += [text[at:start], read]
        at = end
    return "".join([*pieces, text[at:]]), corrections


def _markings(text: str, lookup: Lookup) -> list[Mend]:
    runs: list[list[Word]] = []
    for word in words(text):
        gap = text[runs[-1][-1].end : word.start] if runs else _BLANK
        if len(gap) <= 2 and not set(gap) & set(_BLANK):
            runs[-1].append(word)
        else:
            runs.append([word])
    spans = find_quantities(text)
    mends = []
    for run in runs:
        start, end = run[0].start, run[-1].end
        joined = "".join(word.text for word in run)
        if not _MARK.fullmatch(joined) or any(span.start < end and span.end > start for span in spans):
            continue
        if not lookup.has(f"mark:{joined}") and not lookup.starts(f"mark:{joined}", 1):
            meant = _marking_like(joined, lookup)
            if meant:
                mends.append((start, end, meant.upper()))
    return mends


def _marking_like(joined: str, lookup: Lookup) -> str | None:
    digits = joined.translate(LOOKS_LIKE)
    if digits != joined and lookup.has(f"mark:{digits}"):
        return digits
    start = f"alike:{digits}:"
    found = lookup.starts(start, 1)
    return found[0].removeprefix(start) if found else None


def _words(text: str, lookup: Lookup) -> list[Mend]:
    mends: list[Mend] = []
    found = words(text)
    index = 0
    while index < len(found):
        word = found[index]
        if _takes_part(word, text):
            joined = _joined_with_next(found, index, text, lookup)
            if joined:
                mends.append((word.start, found[index + 1].end, joined))
                index += 2
                continue
            if len(word.text) >= SHORTEST and _is_unknown(word.text, lookup):
                known = nearest_known(word.text, lookup)
                if known:
                    mends.append((word.start, word.end, known))
        index += 1
    return mends


def _takes_part(word: Word, text: str) -> bool:
    return bool(_WORD.fullmatch(word.text)) and word.text not in STOP_WORDS and text[word.end : word.end + 1] != "*"


def _is_unknown(word: str, lookup: Lookup) -> bool:
    # The spellings last: to look there reads the most.
    return not lookup.has(stem(word)) and not lookup.starts(f"mark:{word}", 1) and lookup.count(word) < 0


def _joined_with_next(found: list[Word], index: int, text: str, lookup: Lookup) -> str | None:
    if index + 1 == len(found):
        return None
    word, other = found[index], found[index + 1]
    joined = word.text + other.text
    if text[word.end : other.start] not in (" ", "\u00a0", "-") or not LEAST_JOINED <= len(joined) <= LONGEST:
        return None
    if not _takes_part(other, text) or not (_is_unknown(word.text, lookup) or _is_unknown(other.text, lookup)):
        return None
    return joined if lookup.count(joined) > 0 else None


def nearest_known(word: str, lookup: Lookup) -> str | None:
    """What is read in place of an unknown word (b to e); None when nothing is near."""
    letter = word[0]
    near = _best({*lookup.spellings(letter), *lookup.spellings(word[1])}, lambda known: one_slip(word, known), lookup)
    near = near or _halves(word, lookup)
    near = near or _best(lookup.spellings(letter), lambda known: one_slip(word, stem(known)), lookup)
    if near or len(word) < LONG:
        return near
    return _best(lookup.spellings(letter), lambda known: _two_slips(word, known), lookup)


def _two_slips(word: str, known: str) -> bool:
    return abs(len(word) - len(known)) <= 2 and slips(word, known) == 2


def _best(candidates: Iterable[str], is_close: Callable[[str], bool], lookup: Lookup) -> str | None:
    counted = {candidate: lookup.count(candidate) for candidate in candidates if is_close(candidate)}
    close = [candidate for candidate, count in counted.items() if count >= 0]
    return min(close, key=lambda candidate: (-counted[candidate], candidate), default=None)


def _halves(word: str, lookup: Lookup) -> str | None:
    for cut in range(LEAST_HALF, len(word) - LEAST_HALF + 1):
        if _is_held(word[:cut], lookup) and _is_held(word[cut:], lookup):
            return f"{word[:cut]} {word[cut:]}"
    return None


def _is_held(half: str, lookup: Lookup) -> bool:
    if len(half) == LEAST_HALF:
        return half not in STOP_WORDS and lookup.has(stem(half))
    return lookup.count(half) > 0
