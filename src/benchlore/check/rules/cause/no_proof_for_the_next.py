"""Rule: a confirmed cause without the check that proves it on the next unit."""

from collections.abc import Iterator

from benchlore.check.causes import is_outside
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class NoProofForTheNext(EntryRule):
    """No check for the next unit.

    What
        The cause is confirmed, and confirm_by is missing.
    Why
        The one check that proves the same fault on the next unit is what readers want most.
    Bad
        root_cause:
          block: low-voltage-supply
          component: C1
          component_class: safety-film-capacitor
          failure_mode: low-capacitance
          confidence: confirmed
    Good
        root_cause:
          block: low-voltage-supply
          component: C1
          component_class: safety-film-capacitor
          failure_mode: low-capacitance
          confidence: confirmed
          confirm_by: C1 out of circuit below 0.9 µF
    How to mend
        Add confirm_by: what to measure, where, and what it reads when this is the fault.
    """

    code = "CAU006"
    name = "no-proof-for-the-next"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        cause = subject.entry.root_cause
        if cause is None or cause.confidence != "confirmed" or cause.confirm_by:
            return
        if not is_outside(cause, subject.vocabulary):
            hint = "Add confirm_by: the check and what it reads when this is the fault."
            yield Observation(("root_cause",), "no check is given that proves this on the next unit", hint, on_key=True)
