"""Rule: quotation marks that do not enclose the whole value."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page
from benchlore.check.rule import ReadingRule


class BrokenQuotes(ReadingRule):
    """Quotation marks that do not enclose the value.

    What
        A quotation mark is never closed, or text goes on after the closing one.
    Why
        Everything behind an open quotation mark becomes part of that value.
    Bad
        title: "Overload" lamp stays lit; dropper capacitor C1 had lost its value
    Good
        title: '"Overload" lamp stays lit; dropper capacitor C1 had lost its value'
    How to mend
        Close the quotation mark, or put the whole value in the other kind of quotes.
    """

    code = "RDG006"
    name = "broken-quotes"
    severity = "error"
    kinds = frozenset({"text-after-quote", "unclosed-quote"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.offset is None or seen.end is None or seen.end - seen.offset < 2:
            return None
        value = page.text[seen.offset : seen.end]
        mark = "'" if "'" not in value else '"'
        if mark in value or "\\" in value:
            return None
        return Mend("the whole value in quotes", (Edit(seen.offset, seen.end, f"{mark}{value}{mark}"),))
