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
        places: dict[str, int] = {}
        for index, symptom in enumerate(subject.entry.symptoms):
            if symptom.term and symptom.pattern in (None, "constant"):
                places.setdefault(symptom.term, index)
        said: set[tuple[str, str]] = set()
        for term_id in places:
            term = subject.vocabulary.get_as(Symptom, term_id)
            if term and term.opposite_of in places:
                earlier, later = sorted((term_id, term.opposite_of), key=places.__getitem__)
                if (earlier, later) not in said:
                    said.add((earlier, later))
                    message = f"{later} is the opposite of {earlier}, which is here too"
                    hint = "Take one out, or say pattern: intermittent."
                    yield Observation(("symptoms", places[later], "term"), message, hint)
