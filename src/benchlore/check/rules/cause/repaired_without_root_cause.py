"""Rule: repaired, but not what was wrong."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class RepairedWithoutRootCause(EntryRule):
    """Repaired, but not what was wrong.

    What
        The unit was repaired, and the entry has no root cause.
    Why
        The cause is what the next technician looks for. Even a suspected one helps.
    Bad
        # whole
        format: 1
        title: Relay chatters and display dim, put right by a new control board
        outcome: repaired
        date: 2026-05-03
        equipment: {class: dehumidifier, model: BW-12}
        symptoms: [{term: relay-chatter}]
        fix: {steps: [Fit another control board.]}
        minutes: 40
        verification: {result: holding, safety: [{test: earth-continuity-check, value: 0.06 Ω, result: pass}]}
    Good
        root_cause: {block: control-logic, confidence: suspected, note: a new control board put it right}
        verification: {result: holding, safety: [{test: earth-continuity-check, value: 0.06 Ω, result: pass}]}
    How to mend
        Add root_cause with what is known: at least the block, with confidence: suspected when it was not proved.
    """

    code = "CAU001"
    name = "repaired-without-root-cause"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        if entry.outcome in ("repaired", "partly-repaired") and entry.root_cause is None:
            message = f"the outcome is {entry.outcome}, but there is no root_cause"
            yield Observation(("outcome",), message, "Say what was wrong, at least the block, with its confidence.")
