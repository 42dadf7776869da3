"""Rule: a word that is none of the possible ones."""

from benchlore.check.rule import ReadingRule


class WrongChoice(ReadingRule):
    """A word that is none of the possible ones.

    What
        The field takes one of a few words, and this is another.
    Why
        Outcomes, confidence and the like are counted and compared; a word of one's own would be left out.
    Bad
        outcome: fixed
    Good
        outcome: repaired
    How to mend
        Take one of the words listed in the message.
    """

    code = "RDG018"
    name = "wrong-choice"
    severity = "error"
    kinds = frozenset({"wrong-choice"})
