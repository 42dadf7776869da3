"""Rule: a text that is not YAML."""

from benchlore.check.rule import ReadingRule


class YamlSyntax(ReadingRule):
    """A text that is not YAML.

    What
        The file cannot be read as YAML, for a reason that has no rule of its own.
    Why
        Nothing in it can be checked or published until it can be read.
    Bad
        hazards: [mains, moving-parts
        minutes: 60
    Good
        hazards: [mains, moving-parts]
        minutes: 60
    How to mend
        Look at the place given and the line before it: a bracket left open, or a line indented differently.
    """

    code = "RDG002"
    name = "yaml-syntax"
    severity = "error"
    kinds = frozenset({"yaml-syntax"})
