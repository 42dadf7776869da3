"""Rule: not a plain number, or one out of range."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.numbers import count_meant, minutes_meant
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule


class BadNumber(ReadingRule):
    """Not a plain number.

    What
        Minutes, counts and years are plain numbers within a range; this is something else.
    Why
        They are added up and compared.
    Bad
        minutes: about an hour
    Good
        minutes: 60
    How to mend
        Write the number alone, with a point for decimals. Minutes are minutes: an hour and a half is 90.
    """

    code = "RDG023"
    name = "bad-number"
    severity = "error"
    kinds = frozenset({"bad-number"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        written = str(page.value(seen.path) or "")
        in_minutes = bool(seen.path) and seen.path[-1] in ("minutes", "find", "repair", "prove")
        number = minutes_meant(written) if in_minutes else count_meant(written)
        return replacement(page, seen, number) if number else None
