"""Rule: a capacitor that can hold a hazardous charge, and nothing computed for it."""

import math
from collections.abc import Iterator

from benchlore.answer.stored_energy import is_hazardous_charge
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.read.entry import Part
from benchlore.terms.fold import compact

_VOLTAGES = {"dc-voltage": 1.0, "ac-voltage": math.sqrt(2)}
"""Rating names of a capacitor's voltage, each with the factor to its peak."""


class StoredEnergyMissing(EntryRule):
    """A hazardous charge that is not computed.

    What
        The hazards name stored energy, and no capacitor is listed under stored_energy; or a capacitor among the parts
        could hold a hazardous charge at its rated voltage, and is not listed.
    Why
        From capacitance and voltage the page shows how much it stores and how long it takes to fall, first of all.
    Bad
        hazards: [mains, stored-energy]
        stored_energy: []
    Good
        hazards: [mains, stored-energy]
        stored_energy: [{component: C1, capacitance: 1 µF, voltage: 325 V, bleeder: 680 kΩ}]
    How to mend
        Add the capacitor with the highest voltage it sees in use, and its bleeder or bleeder: none.
    """

    code = "SAF002"
    name = "stored-energy-missing"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        listed = {compact(item.component) for item in entry.stored_energy}
        said = False
        for index, part in enumerate(entry.parts):
            if part.use == "fitted" and compact(part.ref or "") not in listed and _can_hold(part):
                said = True
                message = f"{part.ref or 'this capacitor'} can hold a hazardous charge and is not under stored_energy"
                hint = "Add it there with the highest voltage it sees in use, and its bleeder (or none)."
                yield Observation(("parts", index), message, hint)
        if "stored-energy" in entry.hazards and not entry.stored_energy and not said:
            message = "stored energy is a hazard here, but no capacitor is listed under stored_energy"
            hint = "Add stored_energy: [{component: ..., capacitance: ..., voltage: ..., bleeder: ...}]."
            yield Observation(("hazards", entry.hazards.index("stored-energy")), message, hint)


def _can_hold(part: Part) -> bool:
    capacitance = _value(part.ratings.get("capacitance"), "F")
    if capacitance is None:
        return False
    voltages = [(_value(part.ratings.get(name), "V"), factor) for name, factor in _VOLTAGES.items()]
    return any(volts is not None and is_hazardous_charge(capacitance, volts * factor) for volts, factor in voltages)


def _value(written: str | None, unit: str) -> float | None:
    try:
        found = parse(written, unit=unit) if written else None
    except QuantityError:
        return None
    return found.value if found and found.unit == unit else None
