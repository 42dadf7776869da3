"""Rule: a safety-critical part fitted, and not what was in its place."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import ComponentClass


class SafetyPartWithoutOriginal(EntryRule):
    """A safety-critical part without its original.

    What
        A safety-critical part was fitted, and the entry does not say what was in its place.
    Why
        Such parts go like for like. A reader cannot see that this one did.
    Bad
        parts: [{ref: C1, component_class: safety-film-capacitor, type: X2 film capacitor}]
    Good
        parts: [{ref: C1, component_class: safety-film-capacitor, type: X2 film capacitor, original: same}]
    How to mend
        Add original: same, or original with the ratings that differ.
    """

    code = "PRT003"
    name = "safety-part-without-original"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, part in enumerate(subject.entry.parts):
            kind = subject.vocabulary.get_as(ComponentClass, part.component_class)
            if kind and kind.safety_critical and part.use == "fitted" and part.original is None:
                message = f"{in_sentence(kind.label)} is safety-critical, and the original part is not given"
                yield Observation(("parts", index), message, "Add original: same, or its ratings where they differ.")
