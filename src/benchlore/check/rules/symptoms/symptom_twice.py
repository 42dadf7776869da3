"""Rule: the same symptom twice."""

from collections.abc import Iterator

from benchlore.check.finding import Observation, Path
from benchlore.check.rule import EntryRule, Subject


class SymptomTwice(EntryRule):
    """The same symptom twice.

    What
        A symptom stands twice in the same list.
    Why
        Mostly another one was meant. What customer and bench both saw is one symptom, said by the bench.
    Bad
        symptoms: [{term: relay-chatter, said_by: customer}, {term: relay-chatter, said_by: bench}]
    Good
        symptoms: [{term: relay-chatter, said_by: bench, note: as the customer said}]
    How to mend
        Join the two, or take the term that was meant.
    """

    code = "SYM004"
    name = "symptom-twice"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        lists: list[list[tuple[Path, str | None]]] = [
            [(("symptoms", i, "term"), symptom.term) for i, symptom in enumerate(entry.symptoms)],
            [(("not_seen", i), term) for i, term in enumerate(entry.not_seen)],
        ]
        for places in lists:
            seen: set[str] = set()
            for path, term in places:
                if term in seen:
                    yield Observation(path, f"{term} stands here a second time", "Join the two into one.")
                elif term:
                    seen.add(term)
