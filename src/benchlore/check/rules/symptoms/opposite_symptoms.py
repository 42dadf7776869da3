"""Rule: two symptoms that exclude each other."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.model import Symptom


class OppositeSymptoms(EntryRule):
    """Two symptoms that exclude each other.

    What
        A symptom and its opposite were both seen, and neither is said to come and go.
    Why
        One was probably meant for not_seen, or for the state after the repair.
    Bad
        symptoms: [{term: turns-on-by-itself}, {term: turns-off-by-itself}]
    Good
        symptoms: [{term: turns-on-by-itself, pattern: intermittent}, {term: turns-off-by-itself}]
    How to mend
        Take out the one that was not seen; or say pattern: intermittent with the one that comes and goes.
    """

    code = "SYM005"
    name = "opposite-symptoms"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        seen = [s.term if s.pattern in (None, "constant") else None for s in subject.entry.symptoms]
        for index, term_id in enumerate(seen):
            for earlier in filter(None, seen[:index]):
                if term_id and _opposed(subject, term_id, earlier):
                    message = f"{term_id} is the opposite of {earlier}, which is here too"
                    yield Observation(
                        ("symptoms", index, "term"), message, "Take one out, or say pattern: intermittent."
                    )


def _opposed(subject: Subject, one: str, other: str) -> bool:
    terms = subject.vocabulary.get_as(Symptom, one), subject.vocabulary.get_as(Symptom, other)
    return bool((terms[0] and terms[0].opposite_of == other) or (terms[1] and terms[1].opposite_of == one))
