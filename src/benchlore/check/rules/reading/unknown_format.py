"""Rule: a format number that this version does not read."""

from benchlore.check.rule import ReadingRule


class UnknownFormat(ReadingRule):
    """A format number that is not read.

    What
        The number under format is not one that this Benchlore reads.
    Why
        The meaning of keys may have changed between formats; reading on would be guessing.
    Bad
        format: 7
    Good
        format: 1
    How to mend
        Write format 1, or take a newer Benchlore if the entry was written for one.
    """

    code = "RDG019"
    name = "unknown-format"
    severity = "error"
    kinds = frozenset({"unknown-format"})
