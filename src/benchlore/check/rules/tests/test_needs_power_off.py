"""Rule: a test that is made on a dead circuit, recorded with power on."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import Test


class TestNeedsPowerOff(EntryRule):
    """An unpowered test recorded with power on.

    What
        The vocabulary has this test as one for a dead circuit, and the entry says that power was on or limited.
    Why
        An ohmmeter, a capacitance meter or an insulation tester on a live circuit can hurt whoever repeats it, and
        breaks the meter.
    Bad
        tests:
          - {test: capacitance-check, target: low-voltage-supply, component: C1, power: "on", outcome: abnormal}
    Good
        tests:
          - {test: capacitance-check, target: low-voltage-supply, component: C1, power: "off", outcome: abnormal}
    How to mend
        Write power: "off" if it was off. If it really was on, name the test that is made that way.
    """

    __test__ = False

    code = "TST002"
    name = "test-needs-power-off"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, made in enumerate(subject.entry.tests):
            term = subject.vocabulary.get_as(Test, made.test)
            if term and term.power == "off" and made.power in ("on", "limited"):
                message = f"{in_sentence(term.label)} is made with power off, not with power {made.power}"
                yield Observation(("tests", index, "power"), message, 'Write power: "off", or name another test.')
