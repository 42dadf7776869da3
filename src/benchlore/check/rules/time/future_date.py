"""Rule: a date that has not come yet."""

import datetime as dt
from collections.abc import Iterator

from benchlore.check.finding import Observation, Path
from benchlore.check.rule import EntryRule, Subject

_AHEAD = dt.timedelta(days=1)
"""Somewhere it may already be tomorrow."""


class FutureDate(EntryRule):
    """A date that has not come yet.

    What
        The repair, or something that followed it, is dated later than today.
    Why
        An entry is a finished repair. A date in the future keeps it at the top of every list.
    Bad
        date: 2099-05-03
    Good
        date: 2026-05-03
    How to mend
        Correct the date: year, month, day.
    """

    code = "TIM004"
    name = "future-date"
    severity = "error"
    by_day = True

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        dates: list[tuple[Path, dt.date]] = [(("date",), entry.date)]
        dates += [(("follow_up", i, "date"), visit.date) for i, visit in enumerate(entry.follow_up)]
        for path, date in dates:
            if date > subject.today + _AHEAD:
                yield Observation(path, f"{date.isoformat()} has not come yet", "Correct the date: year, month, day.")
