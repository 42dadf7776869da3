"""Rule: minutes that do not add up."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject

_ROOM = 0.5
"""Minutes of difference that rounding explains."""


class MinutesDoNotAddUp(EntryRule):
    """Minutes that do not add up.

    What
        Minutes and the sum of time differ, or the tests alone took longer than the time for finding, or for all.
    Why
        Estimates and advice are computed from these minutes.
    Bad
        minutes: 60
        time: {find: 35, repair: 15, prove: 30}
    Good
        minutes: 80
        time: {find: 35, repair: 15, prove: 30}
    How to mend
        Correct the figure that is wrong. Where time is given, minutes need not be.
    """

    code = "TIM001"
    name = "minutes-do-not-add-up"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        time = entry.time
        parts = [m for m in (time.find, time.repair, time.prove) if m is not None] if time else []
        if entry.minutes is not None and parts and _differ(entry.minutes, sum(parts), len(parts)):
            message = f"minutes says {entry.minutes:g}, but time comes to {sum(parts):g}"
            yield Observation(("minutes",), message, "Correct one; where time is given, minutes can be left out.")
        tests = sum(test.minutes or 0 for test in entry.tests)
        find = time.find if time else None
        if find is not None and tests > find + _ROOM:
            message = f"the tests took {tests:g} minutes, but finding the fault took {find:g}"
            yield Observation(("time", "find"), message, "Correct the time for finding, or the minutes of a test.")
        elif entry.minutes and find is None and tests > entry.minutes + _ROOM:
            message = f"the tests alone took {tests:g} minutes"
            yield Observation(("minutes",), message, "Correct the minutes, or those of a test.")


def _differ(total: float, summed: float, given: int) -> bool:
    return abs(total - summed) > _ROOM if given == 3 else summed > total + _ROOM
