"""Rule: a file with more problems than are listed."""

from benchlore.check.rule import ReadingRule


class TooManyProblems(ReadingRule):
    """More problems than are listed.

    What
        Reading met more problems in this file than it lists.
    Why
        A long list hides its first line; and most of the later problems follow from the earlier ones.
    Bad
        A file of another program with the ending .yaml.
    Good
        An entry with a handful of problems, all of them listed.
    How to mend
        Mend those listed and run lint again.
    """

    code = "RDG011"
    name = "too-many-problems"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"too-many-problems"})
