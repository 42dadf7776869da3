"""Rule: quotation marks that do not enclose the whole value."""

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
