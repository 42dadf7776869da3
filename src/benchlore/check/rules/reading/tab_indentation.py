"""Rule: a tab at the start of a line."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page
from benchlore.check.rule import ReadingRule


class TabIndentation(ReadingRule):
    """A tab at the start of a line.

    What
        A line is indented with a tab.
    Why
        YAML indents with spaces alone: how wide a tab is depends on the editor, so the levels cannot be told apart.
    Bad
        fix:
        \tactions: [{do: replace, on: C1}]
    Good
        fix:
          actions: [{do: replace, on: C1}]
    How to mend
        Replace the tab by two spaces for each level.
    """

    code = "RDG003"
    name = "tab-indentation"
    severity = "error"
    kinds = frozenset({"tab-indentation"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.offset is None:
            return None
        start, end = page.line_at(seen.offset)
        if page.text[start : seen.offset].strip():
            run = re.compile(r"\t+").match(page.text, seen.offset, end)
            return Mend("a space for a tab", (Edit(run.start(), run.end(), " "),)) if run else None
        steps = [len(m[1]) for m in re.finditer(r"^( +)\S", page.text, flags=re.MULTILINE)]
        step = " " * min(steps, default=2)
        lines = re.finditer(r"^[ \t]*\t[ \t]*", page.text, flags=re.MULTILINE)
        edits = tuple(Edit(m.start(), m.end(), m[0].replace("\t", step)) for m in lines)
        return Mend("spaces for tabs at the start of lines", edits) if edits else None
