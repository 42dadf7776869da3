"""Rule: a symptom in words only."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import one_of


class SymptomWithoutTerm(EntryRule):
    """A symptom in words only.

    What
        A symptom has a note and no term.
    Why
        It is searched by its words all the same, but not counted and not compared with other entries.
    Bad
        symptoms: [{note: the relay chatters when the compressor should start}]
    Good
        symptoms: [{term: relay-chatter, note: when the compressor should start}]
    How to mend
        Add the term that is proposed if it says the same. When none fits, leave it as it is, and think of adding a
        term to schema/vocabulary/symptoms/.
    """

    code = "SYM002"
    name = "symptom-without-term"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, symptom in enumerate(subject.entry.symptoms):
            if symptom.term or not symptom.note:
                continue
            found = [f.id for f in subject.vocabulary.recogniser.find_in(symptom.note, ["symptom"]) if not f.negated]
            close = list(dict.fromkeys(found))[:3] or subject.vocabulary.suggest("symptom", symptom.note)
            hint = f"It sounds like {one_of(close)}." if close else "If no term fits, leave it so."
            yield Observation(("symptoms", index, "note"), "this symptom has no term", hint)
