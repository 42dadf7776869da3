"""Rule: a symptom that says nothing."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class EmptySymptom(EntryRule):
    """A symptom that says nothing.

    What
        A symptom has neither a term nor a note.
    Why
        Nobody can tell what was seen.
    Bad
        symptoms: [{said_by: customer}]
    Good
        symptoms: [{term: no-power, said_by: customer}]
    How to mend
        Add the term, or say in a note what was seen.
    """

    code = "SYM003"
    name = "empty-symptom"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, symptom in enumerate(subject.entry.symptoms):
            if not symptom.term and not symptom.note:
                yield Observation(
                    ("symptoms", index), "this symptom has neither term nor note", "Say what was seen, heard or smelt."
                )
