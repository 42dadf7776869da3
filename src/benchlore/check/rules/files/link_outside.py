"""Rule: a symbolic link that leads out of the base."""

from benchlore.check.rule import ReadingRule


class LinkOutside(ReadingRule):
    """A link that leads out of the base.

    What
        An entry is a symbolic link to a file outside the knowledge base, or a link to a folder.
    Why
        A contribution could publish a file of the shop's own computer that way; and the link breaks elsewhere.
    Bad
        entries/dehumidifier/relay-chatters.yaml, a link to a file in somebody's home folder.
    Good
        The entry itself at that place.
    How to mend
        Replace the link by the file it leads to.
    """

    code = "FIL002"
    name = "link-outside"
    severity = "error"
    shown_by_files = False
    kinds = frozenset({"link-outside"})
