"""Rule: a key that an entry does not have at this place."""

from benchlore.check.rule import ReadingRule


class UnknownKey(ReadingRule):
    """A key that an entry does not have here.

    What
        The key is misspelt, or belongs to another place.
    Why
        What stands under an unknown key would never be shown, searched or counted.
    Bad
        root_casue: {component: C1}
    Good
        root_cause: {component: C1}
    How to mend
        Take the key that is proposed. What has no key of its own goes in a note.
    """

    code = "RDG013"
    name = "unknown-key"
    severity = "error"
    kinds = frozenset({"unknown-key"})
