"""Rule: a key that is a list or a mapping."""

from benchlore.check.rule import ReadingRule


class KeyNotText(ReadingRule):
    """A key that is no word.

    What
        A list or a mapping stands where a key should be.
    Why
        It comes from a template placeholder left in double braces, or from a bracket at the start of a line.
    Bad
        history:
          {event}: dropped
    Good
        history:
          event: dropped
    How to mend
        Write the key as a word. A text that starts with [ or { goes in quotes.
    """

    code = "RDG010"
    name = "key-not-text"
    severity = "error"
    kinds = frozenset({"key-not-text"})
