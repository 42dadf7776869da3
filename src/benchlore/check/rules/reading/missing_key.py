"""Rule: a key that must be there and is not."""

from benchlore.check.rule import ReadingRule


class MissingKey(ReadingRule):
    """A key that must be there.

    What
        A key that every entry (or every item of this list) needs is missing, or has nothing behind it.
    Why
        Without it the entry, or this part of it, cannot be understood.
    Bad
        symptoms:
    Good
        symptoms: [{term: relay-chatter}]
    How to mend
        Add the key. What is not known is left out only where the format lets it be left out.
    """

    code = "RDG014"
    name = "missing-key"
    severity = "error"
    kinds = frozenset({"missing-key"})
