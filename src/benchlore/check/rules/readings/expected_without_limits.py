"""Rule: an expected value without tolerance."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class ExpectedWithoutLimits(EntryRule):
    """An expected value without limits.

    What
        Expected is a bare value: no tolerance, no range, no limit.
    Why
        No verdict can be computed: 23.4 V may be well within for 24 V, or the fault itself.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V, expected_from: document, after: 24.1 V}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: document, after: 24.1 V}
    How to mend
        Add the tolerance (24 V ±5 %), or write a range (23..25 V), a limit ("<50 mV") or
        a rough figure (~24 V).
    """

    code = "MEA008"
    name = "expected-without-limits"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, measurement in enumerate(subject.entry.measurements):
            expected = measurement.expected
            if expected and expected.kind == "value":
                message = f"{expected.text} has no tolerance, so no verdict can be given"
                hint = f"Write for instance {expected.text} ±5 %, or ~{expected.text} for a rough figure."
                yield Observation(("measurements", index, "expected"), message, hint)
