"""Rule: not a plain number, or one out of range."""

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
