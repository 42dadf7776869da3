"""Rule: a text that is longer than its field allows, or has several lines."""

from benchlore.check.rule import ReadingRule


class TooLong(ReadingRule):
    """A text that is too long for its field.

    What
        A text is longer than the field allows, or has several lines where one is meant.
    Why
        Short fields stand in tables, titles and labels, where a long one would be cut.
    Bad
        equipment:
          class: dehumidifier
          model: |
            BW-12
            bought in spring
    Good
        equipment:
          class: dehumidifier
          model: BW-12
    How to mend
        Say it shorter, and put the rest in notes.
    """

    code = "RDG016"
    name = "too-long"
    severity = "error"
    kinds = frozenset({"too-long", "several-lines"})
