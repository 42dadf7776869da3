"""Rule: no fault found, and a cause all the same."""

from collections.abc import Iterator

from benchlore.check.causes import is_outside
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class NoFaultFoundWithCause(EntryRule):
    """No fault found, and a cause.

    What
        The outcome is no-fault-found, and the entry has a root cause in the unit that is more than suspected.
    Why
        Both are counted: the unit as healthy, and the part as failed.
    Bad
        outcome: no-fault-found
    Good
        outcome: repaired
    How to mend
        Correct the outcome; or take the cause out, or call it suspected.
    """

    code = "CAU005"
    name = "no-fault-found-with-cause"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        cause = subject.entry.root_cause
        if subject.entry.outcome != "no-fault-found" or cause is None or cause.confidence == "suspected":
            return
        if not is_outside(cause, subject.vocabulary):
            message = "the outcome is no-fault-found, but there is a root_cause"
            yield Observation(("outcome",), message, "Correct the outcome, or call the cause suspected.")
