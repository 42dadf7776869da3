"""Rule: a file that is not UTF-8 text."""

from benchlore.check.rule import ReadingRule


class NotUtf8(ReadingRule):
    """A file that is not UTF-8 text.

    What
        The file holds bytes that are not UTF-8.
    Why
        Signs such as µ, Ω and ± would be read as something else, and a wrong unit can hurt somebody.
    Bad
        A file saved as Latin-1 or UTF-16.
    Good
        The same file saved as UTF-8.
    How to mend
        Save it again as UTF-8: every text editor has this among its ways of saving.
    """

    code = "FIL005"
    name = "not-utf8"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"not-utf8"})
