"""Rule: an anchor, an alias, a merge key or a tag."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page, quoted
from benchlore.check.rule import ReadingRule


class YamlReference(ReadingRule):
    """An anchor, an alias, a merge key or a tag.

    What
        A value starts with & or * (anchor, alias) or with ! (tag), or a key is << (merge).
    Why
        References can make a small file unfold into an enormous one, and hide from a reader what is said. An entry
        says everything in full.
    Bad
        parts:
          - &c1 {ref: C1, use: fitted}
    Good
        parts:
          - {ref: C1, use: fitted}
    How to mend
        Write the value out. A text that really starts with one of these signs goes in quotes.
    """

    code = "RDG007"
    name = "yaml-reference"
    severity = "error"
    kinds = frozenset({"alias", "tag", "merge-key"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.offset is None:
            return None
        start, end = page.line_at(seen.offset)
        sign = page.text[seen.offset : seen.offset + 1]
        name = re.match(r"[\w-]+", page.text[seen.offset + 1 :])
        if sign != "*" or re.search(rf"&{name[0] if name else ''}\b", page.text):
            return None  # a real reference: what it stands for has to be written out
        value = re.compile(r"(?<=: )\S(?:[^\n\r#]*[^\s#])?$|(?<=- )\S(?:[^\n\r#]*[^\s#])?$")
        found = value.search(page.text[start:end])
        if not found or start + found.start() != seen.offset:
            return None
        whole = Edit(seen.offset, start + found.end(), quoted(found[0]))
        return Mend("the whole value in quotes", (whole,))
