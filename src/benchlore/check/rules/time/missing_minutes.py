"""Rule: no time given."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class MissingMinutes(EntryRule):
    """No time given.

    What
        The entry has neither minutes nor time.
    Why
        How long such a repair takes decides whether it is worth starting. A rough figure is much better than none.
    Bad
        # whole
        format: 1
        title: Sewing machine skips stitches; hook stood too far from the needle
        outcome: repaired
        date: 2026-05-03
        equipment: {class: sewing-machine, model: S-210}
        symptoms: [{term: skips-stitches}]
        root_cause: {block: hook-mechanism, component: hook gap, component_class: mechanical-adjustment}
        fix: {actions: [{do: adjust, on: hook gap}]}
        verification: {result: holding}
    Good
        # whole
        format: 1
        title: Sewing machine skips stitches; hook stood too far from the needle
        outcome: repaired
        date: 2026-05-03
        equipment: {class: sewing-machine, model: S-210}
        symptoms: [{term: skips-stitches}]
        root_cause: {block: hook-mechanism, component: hook gap, component_class: mechanical-adjustment}
        fix: {actions: [{do: adjust, on: hook gap}]}
        minutes: 40
        verification: {result: holding}
    How to mend
        Add minutes: the attended ones, all together; or time: {find: ..., repair: ..., prove: ...}.
    """

    code = "TIM002"
    name = "missing-minutes"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.minutes_spent is None:
            hint = "Add minutes: (attended, all together), or time: {find: ..., repair: ..., prove: ...}."
            yield Observation(("title",), "the entry does not say how long the work took", hint, on_key=True)
