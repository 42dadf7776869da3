"""Rule: a quantity that cannot be read without guessing."""

from benchlore.check.rule import ReadingRule


class UnreadableQuantity(ReadingRule):
    """A quantity that cannot be read without guessing.

    What
        The text is no quantity, or could mean more than one: 4,7k is 4.7 kΩ to one technician and 47 kΩ to another.
    Why
        A value read wrongly sends the next technician after a good part, or to a wrong replacement.
    Bad
        measurements:
          - point: R7
            quantity: resistance
            before: 4,7k
    Good
        measurements:
          - point: R7
            quantity: resistance
            before: 4.7 kΩ
    How to mend
        Write number, prefix and unit: 4.7 kΩ, 100 nF, 24 V ±5 %; limits as "<50 mV" or 10..12 V.
    """

    code = "RDG020"
    name = "unreadable-quantity"
    severity = "error"
    kinds = frozenset({"unreadable-quantity"})
