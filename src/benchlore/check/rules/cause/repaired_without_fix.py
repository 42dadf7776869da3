"""Rule: repaired, but not what was done."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class RepairedWithoutFix(EntryRule):
    """Repaired, but not what was done.

    What
        The unit was repaired, and the entry names no action, no step, no part fitted and nothing adjusted.
    Why
        The reader knows what was wrong and not how it was put right.
    Bad
        fix: {tools: [soldering-iron]}
        parts: []
    Good
        fix: {actions: [{do: replace, on: C1}]}
    How to mend
        Add fix: {actions: [{do: replace, on: C1}]} or a step in words.
    """

    code = "CAU011"
    name = "repaired-without-fix"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        if entry.outcome not in ("repaired", "partly-repaired"):
            return
        if entry.fix and (entry.fix.actions or entry.fix.steps):
            return
        if entry.adjustments or entry.software or any(part.use == "fitted" for part in entry.parts):
            return
        message = f"the outcome is {entry.outcome}, but not what was done"
        yield Observation(("outcome",), message, "Add fix: {actions: [{do: replace, on: ...}]} or a step in words.")
