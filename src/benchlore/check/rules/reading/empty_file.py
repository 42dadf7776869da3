"""Rule: a file without content."""

from benchlore.check.rule import ReadingRule


class EmptyFile(ReadingRule):
    """A file without content.

    What
        The file is empty, or holds comments only.
    Why
        It would take an address on the site and say nothing.
    Bad
        A file with one comment line.
    Good
        An entry of twelve lines: class, model, symptom, cause, what was done, outcome, minutes.
    How to mend
        Write the entry, or delete the file.
    """

    code = "RDG012"
    name = "empty-file"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"empty-file"})
