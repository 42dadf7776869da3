"""Rule: a list, a mapping or a text where something else belongs."""

from benchlore.check.rule import ReadingRule


class WrongType(ReadingRule):
    """A list, a mapping or a text in the wrong place.

    What
        The format has a list here and a single value was written, or the other way round.
    Why
        It cannot be told what was meant.
    Bad
        hazards: mains
    Good
        hazards: [mains]
    How to mend
        Write a list with brackets or hyphens, a mapping with keys, a text as plain words.
    """

    code = "RDG017"
    name = "wrong-type"
    severity = "error"
    kinds = frozenset({"wrong-type"})
