"""Rule: a text or list item with nothing in it."""

from benchlore.check.rule import ReadingRule


class EmptyValue(ReadingRule):
    """A text or list item with nothing in it.

    What
        A text is empty, an item of a list is empty, or a list has fewer items than it needs.
    Why
        It looks as if something had been said.
    Bad
        documents: [{title: ""}]
    Good
        documents: [{title: BW-20 service sheet}]
    How to mend
        Fill it in, or take it out.
    """

    code = "RDG015"
    name = "empty-value"
    severity = "error"
    kinds = frozenset({"empty-text", "empty-item", "too-few"})
