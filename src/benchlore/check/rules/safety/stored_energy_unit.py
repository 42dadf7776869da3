"""Rule: stored energy given with values that are no capacitance, voltage or resistance."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import unit_word
from benchlore.quantity.model import Quantity

_WANTED = {"capacitance": "F", "voltage": "V", "bleeder": "ohm"}


class StoredEnergyUnit(EntryRule):
    """Stored energy that cannot be computed.

    What
        Under stored_energy, capacitance is not in farads, voltage not in volts or bleeder not in ohms; or it is no
        plain value.
    Why
        The caution is computed from them. A wrong unit would give a wrong time to wait.
    Bad
        stored_energy: [{component: C1, capacitance: 1 µH, voltage: 325 V}]
    Good
        stored_energy: [{component: C1, capacitance: 1 µF, voltage: 325 V}]
    How to mend
        Correct the unit.
    """

    code = "SAF003"
    name = "stored-energy-unit"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, item in enumerate(subject.entry.stored_energy):
            for key, unit in _WANTED.items():
                value = getattr(item, key)
                if not isinstance(value, Quantity):
                    continue
                if value.unit != unit:
                    message = f"{key} is given in {unit_word(unit)}, and this is in {unit_word(value.unit)}"
                elif (value.value is None and value.high is None) or (value.value or value.high or 0) <= 0:
                    message = f"{key} must be a value above zero"
                else:
                    continue
                yield Observation(("stored_energy", index, key), message, "The time to wait is computed from it.")
