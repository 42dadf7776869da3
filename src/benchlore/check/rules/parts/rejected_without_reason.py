"""Rule: a part rejected or tried, and not why."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class RejectedWithoutReason(EntryRule):
    """Rejected, and not why.

    What
        A part was rejected, and no note says why.
    Why
        The next technician considers the same part, and would like to know.
    Bad
        parts:
          - {ref: C1, original: same, type: X2 film capacitor for series use}
          - {ref: C1, use: rejected, type: across-the-line X2 film capacitor}
    Good
        parts:
          - {ref: C1, original: same, type: X2 film capacitor for series use}
          - {ref: C1, use: rejected, type: across-the-line X2 film capacitor, note: loses its value within two years}
    How to mend
        Add a note with the reason.
    """

    code = "PRT006"
    name = "rejected-without-reason"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, part in enumerate(subject.entry.parts):
            if part.use == "rejected" and not part.note:
                yield Observation(("parts", index, "use"), "rejected, but not why", "Add a note with the reason.")
