"""Rule: a rating that this kind of component does not have."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.ratings import ratings_of
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import ComponentClass


class RatingNotOfComponent(EntryRule):
    """A rating that this component does not have.

    What
        The component class lists its ratings, and this is not one of them.
    Why
        It cannot be compared when a substitute is looked for; often the component class is the wrong one.
    Bad
        parts: [{ref: C1, component_class: safety-film-capacitor, original: same, ratings: {resistance: 1 kΩ}}]
    Good
        parts: [{ref: C1, component_class: safety-film-capacitor, original: same, ratings: {capacitance: 1 µF}}]
    How to mend
        Take a rating of the class, correct the class, or put the word into type.
    """

    code = "PRT004"
    name = "rating-not-of-component"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for path, rating, _ in ratings_of(subject.entry):
            part = subject.entry.parts[int(path[1])]
            kind = subject.vocabulary.get_as(ComponentClass, part.component_class)
            if kind and kind.ratings and rating not in kind.ratings and subject.vocabulary.get("rating", rating):
                message = f"{in_sentence(kind.label)} has no rating {rating}"
                yield Observation(path, message, f"It has {', '.join(kind.ratings)}.", on_key=True)
