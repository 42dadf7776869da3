"""Rule: the fault came back, and the unit counts as repaired."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class CameBackButRepaired(EntryRule):
    """Came back, and nothing more about it.

    What
        The proof says that the fault came back, the outcome is repaired, and no follow_up tells of the next visit.
    Why
        A cause whose repair did not hold was not the cause, or not all of it. Readers want to know what came of it.
    Bad
        verification:
          result: came-back
          safety: [{test: insulation-check, applied: 500 V dc, value: over 200 MΩ, result: pass}]
    Good
        verification:
          result: came-back
          safety: [{test: insulation-check, applied: 500 V dc, value: over 200 MΩ, result: pass}]
        follow_up: [{date: 2026-08-20, result: same-fault, note: the new capacitor had lost its value too}]
    How to mend
        Add the visit under follow_up, with its entry; or write partly-repaired or not-repaired.
    """

    code = "PRF002"
    name = "came-back-but-repaired"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        if entry.outcome != "repaired" or entry.verification is None or entry.verification.result != "came-back":
            return
        if not any(visit.result in ("same-fault", "our-work") for visit in entry.follow_up):
            message = "the fault came back, but the outcome is repaired and no follow_up tells of it"
            hint = "Add the visit to follow_up, or correct the outcome."
            yield Observation(("verification", "result"), message, hint)
