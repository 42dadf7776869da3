"""Rule: an expected value that does not say where it comes from."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class ExpectedFromNowhere(EntryRule):
    """An expected value from nowhere.

    What
        A measurement has expected, and not expected_from.
    Why
        A limit from a document and one from memory are not worth the same to whoever finds a reading just outside.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, after: 24.1 V}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: good-unit, after: 24.1 V}
    How to mend
        Add expected_from: document, good-unit, good-channel, calculated, new-part, marking or guess.
    """

    code = "MEA006"
    name = "expected-from-nowhere"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, measurement in enumerate(subject.entry.measurements):
            if measurement.expected is not None and measurement.expected_from is None:
                message = "this does not say where the expected value comes from"
                hint = "Add expected_from: document, good-unit, calculated, marking, guess ..."
                yield Observation(("measurements", index, "expected"), message, hint)
