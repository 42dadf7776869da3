"""Rule: not a date as YYYY-MM-DD."""

from benchlore.check.finding import Observation
from benchlore.check.mends.dates import day_meant
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule


class BadDate(ReadingRule):
    """Not a date as YYYY-MM-DD.

    What
        The date has another form, or there is no such day.
    Why
        03/05/2026 is May to some and March to others.
    Bad
        date: 03/05/2026
    Good
        date: 2026-05-03
    How to mend
        Write year, month and day with hyphens (ISO 8601).
    """

    code = "RDG022"
    name = "bad-date"
    severity = "error"
    kinds = frozenset({"bad-date"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        day = day_meant(str(page.value(seen.path) or ""))
        return replacement(page, seen, day.isoformat()) if day else None
