"""Rule: a normal result while the fault was not showing."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class NormalWhileFaultAway(EntryRule):
    """A normal result while the fault was away.

    What
        A test is called normal although the fault was not showing when it was made, and a fault was found later.
    Why
        Everything reads normal while the fault is away. Such a test clears nothing: it is inconclusive.
    Bad
        tests:
          - {test: voltage-check, target: low-voltage-supply, power: limited, fault_showing: no, outcome: normal}
          - {test: capacitance-check, target: low-voltage-supply, component: C1, power: "off", outcome: abnormal}
    Good
        tests:
          - {test: voltage-check, target: low-voltage-supply, power: limited, fault_showing: no, outcome: inconclusive}
          - {test: capacitance-check, target: low-voltage-supply, component: C1, power: "off", outcome: abnormal}
    How to mend
        Write inconclusive, or correct fault_showing.
    """

    code = "TST001"
    name = "normal-while-fault-away"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.outcome == "no-fault-found":
            return
        for index, test in enumerate(subject.entry.tests):
            if test.outcome == "normal" and test.fault_showing is False:
                message = "a normal result while the fault was not showing clears nothing"
                yield Observation(("tests", index, "outcome"), message, "Write inconclusive, or correct fault_showing.")
