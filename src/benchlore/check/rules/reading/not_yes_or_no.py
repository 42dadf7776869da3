"""Rule: something other than yes or no."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule


class NotYesOrNo(ReadingRule):
    """Something other than yes or no.

    What
        The field takes yes or no, and this is neither.
    Why
        A test made while the fault was away clears nothing, so the answer must be plain.
    Bad
        bypassed: [{what: thermal cut-out, restored: later}]
    Good
        bypassed: [{what: thermal cut-out, restored: yes}]
    How to mend
        Write yes or no. Leave the key out when it is not known.
    """

    code = "RDG021"
    name = "not-yes-or-no"
    severity = "error"
    kinds = frozenset({"bad-flag"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        said = str(page.value(seen.path) or "").strip(" .!").lower()
        word = {"on": "yes", "off": "no", "1": "yes", "0": "no", "t": "yes", "f": "no"}.get(said, said)
        return replacement(page, seen, word) if word in ("yes", "no") else None
