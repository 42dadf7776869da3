"""Rule: a rating that is not in its unit."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.ratings import ratings_of
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence, unit_symbol, unit_word
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.terms.model import ComponentClass, Rating


class RatingUnit(EntryRule):
    """A rating that is not in its unit.

    What
        The rating has a unit, and the value given has another, or cannot be read.
    Why
        Whether a part may stand in for another is compared rating by rating; a wrong unit can let a weaker part pass.
    Bad
        parts: [{ref: C1, original: same, ratings: {capacitance: 1 V}}]
    Good
        parts: [{ref: C1, original: same, ratings: {capacitance: 1 µF}}]
    How to mend
        Correct the unit or the rating's name. Words go under ratings that take words, or into type.
    """

    code = "PRT001"
    name = "rating-unit"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for path, rating, written in ratings_of(subject.entry):
            term = subject.vocabulary.get_as(Rating, rating)
            wanted = unit_symbol(term.unit) if term and term.unit else None
            if term is None or wanted is None or _is_a_class(subject, int(path[1]), rating):
                continue
            try:
                found = parse(written, unit=wanted)
            except QuantityError as error:
                yield Observation(path, f"{in_sentence(term.label)}: {error.message}", error.hint)
                continue
            if found.unit != wanted:
                has = unit_word(found.unit)
                message = f"{in_sentence(term.label)} is given in {unit_word(wanted)}, and this is in {has}"
                yield Observation(path, message, "Correct the unit, or the rating's name.")


def _is_a_class(subject: Subject, part: int, rating: str) -> bool:
    """Whether this kind of component has the rating as a class in words (L, E, H for a fuse) instead of a value."""
    kind = subject.vocabulary.get_as(ComponentClass, subject.entry.parts[part].component_class)
    rule = kind.ratings.get(rating) if kind else None
    return rule is not None and bool(rule.order)
