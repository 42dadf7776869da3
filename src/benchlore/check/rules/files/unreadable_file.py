"""Rule: a file that cannot be opened."""

from benchlore.check.rule import ReadingRule


class UnreadableFile(ReadingRule):
    """A file that cannot be opened.

    What
        The file cannot be opened, or what bears an entry's name is a folder, a pipe or a device.
    Why
        Nothing in it can be checked or published.
    Bad
        An entry without read permission; a folder named fan-stopped.yaml.
    Good
        An ordinary file that the person running lint may read.
    How to mend
        Give read permission, or move what is no entry out of entries/.
    """

    code = "FIL001"
    name = "unreadable-file"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"unreadable-file", "not-a-file"})
