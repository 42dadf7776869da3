"""Rule: an ignore that names no rule that can be ignored."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.likeness import surely
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
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

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        from benchlore.check.registry import BY_NAME  # the registry imports this rule

        rule = surely(str(page.value(seen.path) or ""), [name for name, rule in BY_NAME.items() if rule.ignorable])
        return replacement(page, seen, rule) if rule else None
