"""Rule: a key that stands twice in the same mapping."""

from benchlore.check.rule import ReadingRule


class DuplicateKey(ReadingRule):
    """A key that stands twice.

    What
        The same key stands twice at the same level.
    Why
        Only one of the two would count, and which one depends on the reader.
    Bad
        time: {find: 35, repair: 15, find: 20}
    Good
        time: {find: 35, repair: 15}
    How to mend
        Keep one of the two, or join what they say.
    """

    code = "RDG009"
    name = "duplicate-key"
    severity = "error"
    kinds = frozenset({"duplicate-key"})
