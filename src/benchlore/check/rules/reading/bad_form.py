"""Rule: a text without the form it needs."""

from benchlore.check.rule import ReadingRule


class BadForm(ReadingRule):
    """A text without the form it needs.

    What
        The field takes a text of a certain form, such as the slug of an entry, and this has another.
    Why
        Slugs become addresses and names of files.
    Bad
        formerly: [Relay Chatters]
    Good
        formerly: [relay-chatters]
    How to mend
        A slug is lower-case letters and digits with single hyphens between them.
    """

    code = "RDG025"
    name = "bad-form"
    severity = "error"
    kinds = frozenset({"bad-form"})
