"""Rule: repaired, and not how it was proved."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class NoProof(EntryRule):
    """Repaired, and not how it was proved.

    What
        The unit was repaired, and verification is missing.
    Why
        Whether a repair holds is what makes a cause believable.
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
        minutes: 40
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
        verification: {result: not-checked}
    How to mend
        Add verification with result: holding, came-back or not-checked, the soak and what was checked.
    """

    code = "PRF001"
    name = "no-proof"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.outcome == "repaired" and subject.entry.verification is None:
            hint = "Add verification: {result: holding, checks: [...]}; or result: not-checked."
            yield Observation(("outcome",), "repaired, and not how it was proved", hint)
