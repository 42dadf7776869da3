"""Rule: a tab at the start of a line."""

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
