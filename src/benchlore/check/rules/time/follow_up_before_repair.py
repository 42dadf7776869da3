"""Rule: something that followed the repair, dated before it."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class FollowUpBeforeRepair(EntryRule):
    """Followed before it was repaired.

    What
        An item of follow_up is dated before the repair.
    Why
        How long repairs hold is computed from these dates.
    Bad
        follow_up: [{date: 2025-08-20, result: holding}]
    Good
        follow_up: [{date: 2026-08-20, result: holding}]
    How to mend
        Correct one of the two dates. What came before goes under history, or into an entry named by follows.
    """

    code = "TIM005"
    name = "follow-up-before-repair"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        repaired = subject.entry.date
        for index, visit in enumerate(subject.entry.follow_up):
            if visit.date < repaired:
                message = f"{visit.date.isoformat()} is before the repair of {repaired.isoformat()}"
                yield Observation(("follow_up", index, "date"), message, "Correct one of the two dates.")
