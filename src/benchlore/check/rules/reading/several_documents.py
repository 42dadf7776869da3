"""Rule: more than one YAML document in a file."""

from benchlore.check.rule import ReadingRule


class SeveralDocuments(ReadingRule):
    """More than one document in a file.

    What
        A line of three hyphens starts a second YAML document in the same file.
    Why
        One file is one repair: its name is the entry's id and address.
    Bad
        Two repairs in one file, parted by a line of three hyphens.
    Good
        Two files, each with a slug of its own.
    How to mend
        Move what stands behind the hyphens to a file of its own.
    """

    code = "RDG008"
    name = "several-documents"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"several-documents"})
