"""Rule: a reading that is far from what its point is called."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.quantity.format import format_quantity
from benchlore.quantity.scan import find_quantities

_FAR = 50.0
_VOLTAGES = frozenset({"dc-voltage", "ac-voltage"})


class ReadingFarFromPoint(EntryRule):
    """A reading far from what its point is called.

    What
        The point is called by its voltage, and what is expected there, or was read after the repair, is more than
        fifty times as much, or less than a fiftieth: millivolts on a mains rail.
    Why
        Nearly always a prefix was mistyped. Somebody else would take the figure for a fault, or for none.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 mV ±5 %, expected_from: document, before: 9 V}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 24 V ±5 %, expected_from: document, before: 9 V}
    How to mend
        Correct the prefix; or name the point by what it is, if its voltage says nothing about the reading.
    """

    code = "MEA009"
    name = "reading-far-from-point"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, measurement in enumerate(subject.entry.measurements):
            if measurement.quantity not in _VOLTAGES or measurement.to:
                continue
            named = [span.quantity for span in find_quantities(measurement.point) if span.quantity.unit == "V"]
            nominal = named[0].value if len(named) == 1 else None
            for key, reading in (("expected", measurement.expected), ("after", measurement.after)):
                value = reading.value if reading and reading.kind in ("value", "tolerance", "approx") else None
                if not nominal or not value or reading is None or reading.unit != "V":
                    continue
                if not 1 / _FAR <= abs(value / nominal) <= _FAR:
                    called = format_quantity(named[0])
                    message = f"{format_quantity(reading)} is far from {called}, as its point is called"
                    yield Observation(("measurements", index, key), message, "Look at the prefix: mV, V, kV.")
