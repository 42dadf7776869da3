"""Rule: a rule that crashed."""

from benchlore.check.rule import RunnerRule


class RuleCrashed(RunnerRule):
    """A rule that crashed.

    What
        Benchlore failed while it was checking this file.
    Why
        The file may be in order: the tool is at fault, and what the rule would have found is not known.
    Bad
        An entry that one of our rules cannot cope with.
    Good
        Any entry, once the rule is mended.
    How to mend
        Nothing in the entry. Please report the line given, with the entry if it can be shown.
    """

    code = "BUG001"
    name = "rule-crashed"
    severity = "error"
    shown_by_files = False
