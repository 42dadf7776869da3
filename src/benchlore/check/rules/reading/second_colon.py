"""Rule: a colon inside an unquoted value."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import in_quotes
from benchlore.check.rule import ReadingRule


class SecondColon(ReadingRule):
    """A colon inside an unquoted value.

    What
        A value without quotes contains a colon followed by a space.
    Why
        YAML takes the second colon for another key and stops.
    Bad
        title: Relay chatters: the dropper capacitor C1 had lost its value
    Good
        title: "Relay chatters: the dropper capacitor C1 had lost its value"
    How to mend
        Put the whole value in quotes, or write it without the colon.
    """

    code = "RDG004"
    name = "second-colon"
    severity = "error"
    kinds = frozenset({"second-colon"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        return in_quotes(page, seen)
