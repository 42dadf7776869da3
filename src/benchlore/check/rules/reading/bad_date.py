"""Rule: not a date as YYYY-MM-DD."""

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
