"""Rule: a fitted part that is worse than what it replaced."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.ratings import shortfalls
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import ComponentClass


class PartBelowOriginal(EntryRule):
    """A fitted part that may not stand in for the original.

    What
        A part was fitted whose rating falls short of the original's, by the directions of its kind: a lower voltage
        or temperature, another value where it has to be the same.
    Why
        Readers fit what an entry says. A part that is worse than the original comes back, or burns.
    Bad
        parts:
          - ref: C5
            component_class: electrolytic-capacitor
            ratings: {capacitance: 220 µF, dc-voltage: 16 V}
            original: {ratings: {dc-voltage: 25 V}}
        fix: {actions: [{do: replace, on: C5}]}
    Good
        parts:
          - ref: C5
            component_class: electrolytic-capacitor
            ratings: {capacitance: 220 µF, dc-voltage: 35 V}
            original: {ratings: {dc-voltage: 25 V}}
        fix: {actions: [{do: replace, on: C5}]}
    How to mend
        If the entry is wrong, correct it. If it was fitted knowingly, say in the part's note why it will do, and ignore
        the rule here with that reason.
    """

    code = "PRT009"
    name = "part-below-original"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, part in enumerate(subject.entry.parts):
            kind = subject.vocabulary.get_as(ComponentClass, part.component_class)
            if kind is None or kind.safety_critical:
                continue
            for short in shortfalls(part, subject.vocabulary):
                message = f"the {in_sentence(kind.label)} fitted may not stand in for the original: {short.text}"
                hint = "Fit one that may, or say why this one will do. See: benchlore substitute."
                yield Observation(("parts", index, "ratings", short.rating), message, hint)
