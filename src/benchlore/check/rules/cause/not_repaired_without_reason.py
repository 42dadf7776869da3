"""Rule: not repaired, and not why."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class NotRepairedWithoutReason(EntryRule):
    """Not repaired, and not why.

    What
        The outcome is not-repaired, and stopped_because is missing.
    Why
        Whether a repair was given up for its price, for a part or for safety decides whether to start the next one.
    Bad
        outcome: not-repaired
    Good
        outcome: not-repaired
        stopped_because: no-part
    How to mend
        Add stopped_because: uneconomic, no-part, declined, unsafe or no-documents.
    """

    code = "CAU002"
    name = "not-repaired-without-reason"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.outcome == "not-repaired" and subject.entry.stopped_because is None:
            hint = "Add stopped_because: uneconomic, no-part, declined, unsafe or no-documents."
            yield Observation(("outcome",), "the unit was not repaired, and the entry does not say why", hint)
