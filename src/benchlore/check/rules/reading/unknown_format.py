"""Rule: a format number that this version does not read."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule


class UnknownFormat(ReadingRule):
    """A format number that is not read.

    What
        The number under format is not one that this Benchlore reads.
    Why
        The meaning of keys may have changed between formats; reading on would be guessing.
    Bad
        format: 7
    Good
        format: 1
    How to mend
        Write format 1, or take a newer Benchlore if the entry was written for one.
    """

    code = "RDG019"
    name = "unknown-format"
    severity = "error"
    kinds = frozenset({"unknown-format"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        one = re.fullmatch(r"\s*v?0*1(?:\.0*)?\s*", str(page.value(seen.path) or ""), re.IGNORECASE)
        return replacement(page, seen, "1") if one else None
