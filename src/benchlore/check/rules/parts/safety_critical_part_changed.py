"""Rule: a safety-critical part replaced by one with lesser or other ratings."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.ratings import shortfalls
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import ComponentClass


class SafetyCriticalPartChanged(EntryRule):
    """A safety-critical part that was changed for the worse.

    What
        A fuse, a safety capacitor or another safety-critical part was fitted whose rating is not what the original's
        demands: another current or speed of a fuse, a lower voltage or class of a capacitor.
    Why
        These parts stand between a fault and a fire or a shock. They go like for like, with the same approvals.
    Bad
        parts:
          - ref: F1
            component_class: fuse
            ratings: {current: 6.3 A}
            original: {ratings: {current: 2 A}}
        fix: {actions: [{do: replace, on: F1}]}
    Good
        parts:
          - ref: F1
            component_class: fuse
            ratings: {current: 2 A}
            original: same
        fix: {actions: [{do: replace, on: F1}]}
    How to mend
        If the entry is wrong, correct it. If the part was really fitted so, fit one like the original, and say so.
    """

    code = "PRT002"
    name = "safety-critical-part-changed"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, part in enumerate(subject.entry.parts):
            kind = subject.vocabulary.get_as(ComponentClass, part.component_class)
            if kind is None or not kind.safety_critical:
                continue
            for short in shortfalls(part, subject.vocabulary):
                what = f"{in_sentence(kind.label)} is safety-critical"
                message = f"{what}, and its {short.rating} was changed: {short.text}"
                hint = "Such a part goes like for like, with the same approvals."
                yield Observation(("parts", index, "ratings", short.rating), message, hint)
