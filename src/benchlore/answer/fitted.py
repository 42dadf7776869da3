"""The parts that entries say were fitted, each with the original's ratings where they are known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from benchlore.answer.substitution import PartRatings, StandIn, stand_in
from benchlore.read.entry import FaultEntry, Original, Part
from benchlore.terms.model import ComponentClass
from benchlore.terms.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True)
class Fitted:
    """A part of a known kind with at least one rating, fitted in the entry of that slug."""

    slug: str
    part: Part
    ratings: PartRatings


@dataclass(frozen=True, slots=True)
class Candidate:
    """A fitted part and whether it may stand in for what is looked for."""

    fitted: Fitted
    answer: StandIn


def fitted_parts(entries: Iterable[tuple[str, FaultEntry]]) -> Iterator[Fitted]:
    """Every fitted part with a kind and ratings, in the order of the entries (slug, entry)."""
    for slug, entry in entries:
        for part in entry.parts:
            if part.use == "fitted" and part.component_class and part.ratings:
                yield Fitted(slug, part, PartRatings(part.component_class, part.ratings))


def original_of(part: Part) -> PartRatings | None:
    """The original's ratings: the part's own, with those that differed; None where the entry does not compare."""
    if part.component_class is None or not isinstance(part.original, Original) or not part.original.ratings:
        return None
    return PartRatings(part.component_class, {**part.ratings, **part.original.ratings})


def judged(part: Part, vocabulary: Vocabulary) -> StandIn | None:
    """Whether a part may stand in for the original it replaced; None where the entry does not say what that was."""
    original = original_of(part)
    if original is None or part.component_class is None:
        return None
    return stand_in(original, PartRatings(part.component_class, part.ratings), vocabulary, only_stated=True)


def candidates(
    wanted: PartRatings, entries: Iterable[tuple[str, FaultEntry]], vocabulary: Vocabulary
) -> list[Candidate]:
    """Parts fitted before that are of the kind wanted, or of one that may stand in for it; the likeliest first.

    Order: the answer, then fewer reasons against, then slug and place in the entry.
    """
    kind = vocabulary.get_as(ComponentClass, wanted.component_class)
    kinds: Mapping[str, str] = kind.stand_ins if kind else {}
    found = [
        Candidate(fitted, stand_in(wanted, fitted.ratings, vocabulary))
        for fitted in fitted_parts(entries)
        if fitted.ratings.component_class == wanted.component_class or fitted.ratings.component_class in kinds
    ]
    words = ("may-stand-in", "with-care", "no")
    return sorted(found, key=lambda c: (words.index(c.answer.word), len(c.answer.against), c.fitted.slug))
