"""Rule: a file larger than an entry may be."""

from benchlore.check.rule import ReadingRule


class FileTooLarge(ReadingRule):
    """A file larger than an entry may be.

    What
        An entry has at most 256 kB, 20,000 values and 16 levels.
    Why
        One entry is one repair. A larger file is a mistake, or an attempt to keep lint and site busy.
    Bad
        A log of a whole day pasted into the notes.
    Good
        The lines of the log that showed the fault.
    How to mend
        Keep what tells about the fault. Split a file that holds several repairs.
    """

    code = "FIL004"
    name = "file-too-large"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"too-large", "too-deep", "too-many-values"})
