"""Rule: a safety test failed, and the unit counted as repaired."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class SafetyTestFailed(EntryRule):
    """Repaired, with a failed safety test.

    What
        A safety test after the repair failed, and the outcome is repaired.
    Why
        A unit that fails its safety test is not repaired.
    Bad
        verification:
          result: holding
          safety: [{test: earth-continuity-check, value: 2.5 Ω, result: fail}]
    Good
        verification:
          result: holding
          safety: [{test: earth-continuity-check, value: 0.06 Ω, result: pass}]
    How to mend
        Repair what made it fail and test again; or write the outcome that is true.
    """

    code = "SAF006"
    name = "safety-test-failed"
    severity = "error"
    ignorable = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        if entry.outcome != "repaired" or entry.verification is None:
            return
        for index, made in enumerate(entry.verification.safety):
            if made.result == "fail":
                message = "this safety test failed, but the outcome is repaired"
                hint = "Mend what made it fail and test again, or correct the outcome."
                yield Observation(("verification", "safety", index, "result"), message, hint)
