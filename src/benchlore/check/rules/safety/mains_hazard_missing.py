"""Rule: hazards listed for mains equipment, and the mains not among them."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.lists import with_item
from benchlore.check.mends.page import Page
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.quantity.scan import find_quantities
from benchlore.terms.model import EquipmentClass

_EXTRA_LOW_AC = 50.0
"""Volts a.c. up to which a supply is extra-low voltage (IEC 61140)."""


class MainsHazardMissing(EntryRule):
    """Mains, and not among the hazards.

    What
        The equipment is fed from the mains, by its class or by what is written under supply; the entry lists hazards,
        or its class lists none, and mains is not among them.
    Why
        Hazards are shown first on the page. A list that leaves the worst out reads as if it were complete.
    Bad
        hazards: [moving-parts]
    Good
        hazards: [mains, moving-parts]
    How to mend
        Add mains. An entry without any list takes the hazards of its class.
    """

    code = "SAF001"
    name = "mains-hazard-missing"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        kind = subject.vocabulary.get_as(EquipmentClass, entry.equipment.class_)
        from_class = kind is not None and kind.mains
        from_supply = bool(entry.equipment.supply) and _is_mains(entry.equipment.supply or "")
        inherited = kind is not None and "mains" in kind.hazards
        if "mains" in entry.hazards or not (from_class or from_supply) or (not entry.hazards and inherited):
            return
        because = f"{in_sentence(kind.label)} is mains equipment" if kind and from_class else "the supply is the mains"
        path = ("hazards",) if entry.hazards else ("equipment", "supply") if from_supply else ("equipment", "class")
        yield Observation(path, f"{because}, but mains is not among the hazards", "Add mains to hazards.")

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        return with_item(page, "hazards", "mains")


def _is_mains(supply: str) -> bool:
    for span in find_quantities(supply):
        quantity = span.quantity
        peak = quantity.high if quantity.high is not None else quantity.value
        if quantity.unit == "V" and quantity.qualifier != "dc" and peak is not None and peak > _EXTRA_LOW_AC:
            return True
    return False
