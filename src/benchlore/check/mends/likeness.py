"""Which of some words was meant, when only one can have been: another way of writing it, or one slip of the fingers."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Mapping

_TWO_SLIPS_FROM = 12
_ONE_SLIP_FROM = 5
"""Letters from which a word may differ by one slip, or by two, and still be told for certain."""

_LOOKALIKES = str.maketrans("аеорсухіјѕԁһӏАВЕКМНОРСТХІЈЅΑΒΕΖΗΙΚΜΝΟΡΤΥΧο", "aeopcyxijsdhlABEKMHOPCTXIJSABEZHIKMNOPTYXo")
"""Cyrillic and Greek letters that look like Latin ones (a few of the confusables of Unicode Technical Standard 39)."""


def plain(text: str) -> str:
    """``text`` as an id would be written: small, hyphens for spaces and underscores, lookalike letters made Latin."""
    latin = unicodedata.normalize("NFKC", text).translate(_LOOKALIKES).strip().lower()
    return re.sub(r"[\s_\-\u2010-\u2015]+", "-", latin)


def surely(text: str, candidates: Collection[str], names: Mapping[str, str] | None = None) -> str | None:
    """The one of ``candidates`` that ``text`` must mean, or None. ``names`` maps further ways to say a candidate.

    Digits are never taken for a slip, nor is a first letter of a word (locked, unlocked).
    """
    wanted = plain(text)
    meant = {c for c in candidates if plain(c) == wanted} | {c for n, c in (names or {}).items() if plain(n) == wanted}
    if not meant:
        limit = 2 if len(wanted) >= _TWO_SLIPS_FROM else 1 if len(wanted) >= _ONE_SLIP_FROM else 0
        near = {c: slips(wanted, plain(c), limit) for c in candidates if abs(len(c) - len(wanted)) <= limit}
        least = min((d for d in near.values() if d <= limit), default=None)
        meant = {c for c, distance in near.items() if distance == least and _same_frame(wanted, plain(c))}
        if least is not None and sum(distance <= least for distance in near.values()) > len(meant):
            return None
    return meant.pop() if len(meant) == 1 else None


def _same_frame(one: str, other: str) -> bool:
    """Whether two words have the same digits and begin their parts with the same letters."""
    if re.findall(r"\d+", one) != re.findall(r"\d+", other):
        return False
    return [part[:1] for part in one.split("-")] == [part[:1] for part in other.split("-")]


def slips(one: str, other: str, limit: int) -> int:
    """Letters left out, put in, changed or swapped with their neighbour (optimal string alignment); above ``limit``,
    ``limit`` + 1. Takes time in proportion to the product of the lengths, which are cut to 100.
    """
    one, other = one[:100], other[:100]
    if abs(len(one) - len(other)) > limit:
        return limit + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        last, before, row = before, row, [i]
        for j, against in enumerate(other, start=1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != against))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == against:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
        if min(row) > limit and min(before) > limit:
            return limit + 1
    return row[-1] if row[-1] <= limit else limit + 1
