"""Rule: an earth continuity test on equipment without protective earth."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class EarthTestOnClassTwo(EntryRule):
    """An earth test without a protective earth.

    What
        The equipment is of class II or III, which have no protective earth, and an earth continuity test is recorded.
    Why
        One of the two is wrong. Class I equipment taken for class II would go without its most important test.
    Bad
        equipment: {class: dehumidifier, model: BW-12, protection: II}
        verification: {result: holding, safety: [{test: earth-continuity-check, value: 0.06 Ω, result: pass}]}
    Good
        equipment: {class: dehumidifier, model: BW-12, protection: I}
        verification: {result: holding, safety: [{test: earth-continuity-check, value: 0.06 Ω, result: pass}]}
    How to mend
        Look at the rating plate: two squares, one in the other, mean class II (IEC 61140).
    """

    code = "SAF008"
    name = "earth-test-on-class-two"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        protection, verification = subject.entry.equipment.protection, subject.entry.verification
        if protection not in ("II", "III") or verification is None:
            return
        for index, made in enumerate(verification.safety):
            if made.test == "earth-continuity-check":
                message = f"equipment of class {protection} has no protective earth to test"
                hint = "Correct equipment.protection, or the test."
                yield Observation(("verification", "safety", index, "test"), message, hint)
