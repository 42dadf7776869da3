"""Rule: a measurement without a reading."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class EmptyReading(EntryRule):
    """A measurement without a reading.

    What
        A measurement has neither before nor after.
    Why
        What was expected alone is no reading.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: document}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: document, after: 24.1 V}
    How to mend
        Add what was read, before or after the repair. A healthy unit's reading goes under after.
    """

    code = "MEA003"
    name = "empty-reading"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, measurement in enumerate(subject.entry.measurements):
            if measurement.before is None and measurement.after is None:
                yield Observation(("measurements", index), "this measurement has no reading", "Add before or after.")
