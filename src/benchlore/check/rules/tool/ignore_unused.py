"""Rule: an ignore that hides nothing."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.lists import without_item
from benchlore.check.mends.page import Page
from benchlore.check.rule import RunnerRule


class IgnoreUnused(RunnerRule):
    """An ignore that hides nothing.

    What
        An item of lint_ignore names a rule that finds nothing in this entry.
    Why
        It was mended since, or never was there; left in, it would hide the next such defect.
    Bad
        lint_ignore: [{rule: no-proof, reason: collected before it could be proved}]
    Good
        lint_ignore: []
    How to mend
        Take the ignore out.
    """

    code = "IGN002"
    name = "ignore-unused"
    severity = "warning"

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        return without_item(page, seen.path)
