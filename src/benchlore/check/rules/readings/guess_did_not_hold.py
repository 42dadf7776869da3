"""Rule: a guessed limit that the repaired unit does not keep."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.readings import after_is_outside
from benchlore.check.rule import EntryRule, Subject


class GuessDidNotHold(EntryRule):
    """A guessed limit that did not hold.

    What
        The limits were a guess, the unit was repaired, and the reading after the repair is outside them.
    Why
        The unit works, so the guess was wrong; somebody else may take it for a limit.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, expected: 20 V ±5 %, expected_from: guess, after: 24.1 V}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, after: 24.1 V}
    How to mend
        Take the guess out: the reading of the working unit is worth more.
    """

    code = "MEA005"
    name = "guess-did-not-hold"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.entry.outcome != "repaired":
            return
        for index, measurement, text in after_is_outside(subject):
            if measurement.expected_from == "guess":
                message = f"the guess did not hold on the working unit: {text}"
                yield Observation(("measurements", index, "expected"), message, "Take the guess out; keep the reading.")
