"""Rule: an ignore that names no rule that can be ignored."""

from benchlore.check.rule import RunnerRule


class IgnoreUnknown(RunnerRule):
    """An ignore that names no rule.

    What
        An item of lint_ignore names a rule that does not exist, or one that cannot be ignored.
    Why
        It looks as if something had been considered and excused.
    Bad
        lint_ignore: [{rule: no-prof, reason: collected before it could be proved}]
    Good
        lint_ignore: []
    How to mend
        Take the rule's name from the finding. Findings about safety and about reading are mended, not ignored.
    """

    code = "IGN001"
    name = "ignore-unknown"
    severity = "warning"
