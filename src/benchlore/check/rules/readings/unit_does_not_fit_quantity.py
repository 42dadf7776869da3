"""Rule: a reading whose unit is not that of its quantity."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.readings import values_of
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence, unit_symbol, unit_word
from benchlore.terms.model import QuantityKind


class UnitDoesNotFitQuantity(EntryRule):
    """A reading in another unit than its quantity has.

    What
        The quantity measured has a unit, and a value of this measurement has another, or none.
    Why
        10 m where 10 mV was meant, or ohms under a voltage: the reading cannot be compared with the next unit's.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, before: 9 A}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, before: 9 V}
    How to mend
        Correct the unit, or take the quantity that was measured.
    """

    code = "MEA001"
    name = "unit-does-not-fit-quantity"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, measurement in enumerate(subject.entry.measurements):
            kind = subject.vocabulary.get_as(QuantityKind, measurement.quantity)
            if kind is None:
                continue
            for key, value in values_of(measurement):
                stated = value.value is not None or value.low is not None or value.high is not None
                if stated and _same(value.unit) != _same(unit_symbol(kind.unit)):
                    has = f"is in {unit_word(value.unit)}" if value.unit else "has no unit"
                    message = f"{in_sentence(kind.label)} is measured in {unit_word(kind.unit)}, and this {has}"
                    hint = "Correct the unit, or the quantity that was measured."
                    yield Observation(("measurements", index, key), message, hint)


def _same(unit: str | None) -> str | None:
    return "%" if unit == "%RH" else unit
