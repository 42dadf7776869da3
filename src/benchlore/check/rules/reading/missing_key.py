"""Rule: a key that must be there and is not."""

from yaml.nodes import MappingNode

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page
from benchlore.check.rule import ReadingRule


class MissingKey(ReadingRule):
    """A key that must be there.

    What
        A key that every entry (or every item of this list) needs is missing, or has nothing behind it.
    Why
        Without it the entry, or this part of it, cannot be understood.
    Bad
        symptoms:
    Good
        symptoms: [{term: relay-chatter}]
    How to mend
        Add the key. What is not known is left out only where the format lets it be left out.
    """

    code = "RDG014"
    name = "missing-key"
    severity = "error"
    kinds = frozenset({"missing-key"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        root = page.read.root
        if seen.path != ("format",) or root is None or not isinstance(root, MappingNode) or root.flow_style:
            return None
        if any(key.value == "format" for key, _ in root.value):
            return None  # there, and left empty
        at = root.start_mark.index
        return Mend("format: 1 at the top", (Edit(at, at, f"format: 1{page.newline}"),))
