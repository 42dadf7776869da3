"""Rule: a reading after the repair that is outside its limits."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.readings import after_is_outside
from benchlore.check.rule import EntryRule, Subject


class AfterOutsideExpected(EntryRule):
    """Still outside its limits after the repair.

    What
        The outcome is repaired, but a reading made after the repair is outside what was expected, by more than the
        meter may err. Limits that were only guessed do not count here.
    Why
        Either the fault is not all gone, or the limits are wrong. Both mislead whoever repeats the measurement.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: document, after: 19.0 V}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: document, after: 24.1 V}
    How to mend
        Correct the reading or the limits; or write partly-repaired and say in a note what remains.
    """

    code = "MEA004"
    name = "after-outside-expected"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.outcome != "repaired":
            return
        for index, measurement, text in after_is_outside(subject):
            if measurement.expected_from != "guess":
                message = f"the unit was repaired, but this reading is outside its limits: {text}"
                hint = "Correct the reading or the limits, or write outcome: partly-repaired."
                yield Observation(("measurements", index, "after"), message, hint)
