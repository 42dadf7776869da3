"""The ratings of an entry's parts, and where a fitted part falls short of the original."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.answer.fitted import judged
from benchlore.answer.substitution import Reason
from benchlore.check.finding import Path
from benchlore.read.entry import FaultEntry, Original, Part
from benchlore.terms.vocabulary import Vocabulary


def ratings_of(entry: FaultEntry) -> Iterator[tuple[Path, str, str]]:
    """Place, name and text of every rating, of the parts and of the originals they replace."""
    for index, part in enumerate(entry.parts):
        for rating, written in part.ratings.items():
            yield ("parts", index, "ratings", rating), rating, written
        if isinstance(part.original, Original):
            for rating, written in part.original.ratings.items():
                yield ("parts", index, "original", "ratings", rating), rating, written


def shortfalls(part: Part, vocabulary: Vocabulary) -> Iterator[Reason]:
    """The ratings, stated for the fitted part and for the original, in which the part may not stand in for it."""
    if part.use != "fitted" or not isinstance(part.original, Original):
        return
    found = judged(part, vocabulary)
    for reason in found.reasons if found else ():
        if reason.judgement == "worse" and reason.rating in part.ratings and reason.rating in part.original.ratings:
            yield reason
