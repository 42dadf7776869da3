"""Rule: stopped, and repaired all the same."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class StoppedButRepaired(EntryRule):
    """Stopped, and repaired all the same.

    What
        The entry says why the work was stopped, and that the unit was repaired.
    Why
        One of the two is wrong, and both are counted.
    Bad
        stopped_because: uneconomic
    Good
        outcome: not-repaired
        stopped_because: uneconomic
    How to mend
        Correct the outcome, or take stopped_because out.
    """

    code = "CAU003"
    name = "stopped-but-repaired"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.outcome == "repaired" and subject.entry.stopped_because is not None:
            message = "the outcome is repaired, but here is why it was stopped"
            yield Observation(("stopped_because",), message, "Correct the outcome, or take this out.")
