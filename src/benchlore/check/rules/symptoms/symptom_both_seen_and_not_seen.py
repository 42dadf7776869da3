"""Rule: a symptom that was seen and not seen."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class SymptomBothSeenAndNotSeen(EntryRule):
    """A symptom that was seen and not seen.

    What
        The same symptom stands under symptoms and under not_seen.
    Why
        Diagnosis would be taught both that this fault shows it and that it does not.
    Bad
        symptoms: [{term: relay-chatter}]
        not_seen: [relay-chatter]
    Good
        symptoms: [{term: relay-chatter}]
        not_seen: [blown-fuse]
    How to mend
        Take it out of one of the two. What comes and goes is a symptom with pattern: intermittent.
    """

    code = "SYM001"
    name = "symptom-both-seen-and-not-seen"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        seen = {symptom.term for symptom in subject.entry.symptoms}
        for index, term in enumerate(subject.entry.not_seen):
            if term in seen:
                message = f"{term} is under not_seen and under symptoms"
                hint = "Keep it where it belongs; what comes and goes is a symptom with pattern: intermittent."
                yield Observation(("not_seen", index), message, hint)
