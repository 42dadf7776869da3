"""The caution box: the hazards of the entry, its class and what was done, and the energy that capacitors keep."""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlore.answer.stored_energy import stored_energy
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import CAUTIONS
from benchlore.publish.wording import capital
from benchlore.quantity.format import format_quantity, format_value
from benchlore.quantity.model import Quantity
from benchlore.read.entry import FaultEntry, StoredEnergy
from benchlore.terms.model import EquipmentClass, Hazard

LONGEST_LEAD = 60
TOUCH_LIMIT_V = 60.0
"""V d.c.: the limit below which IEC 62368-1 (ES1) and IEC 60950-1 (SELV) call a d.c. voltage not hazardous."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One hazard, worded, with the address of its place on the cautions page (None when the term is unknown)."""

    lead: str
    text: str
    url: str | None
    sign: str


@dataclass(frozen=True, slots=True)
class KeptEnergy:
    """What one capacitor keeps: a bold lead, and how long it takes with the bleeder open and working."""

    lead: str
    text: str


@dataclass(frozen=True, slots=True)
class CautionBox:
    """All cautions of a page, the gravest first. ``sign`` names the warning sign drawn beside them."""

    cautions: tuple[Caution, ...]
    energies: tuple[KeptEnergy, ...]
    sign: str

    @property
    def recorded(self) -> bool:
        """Whether any hazard is known."""
        return bool(self.cautions or self.energies)


def entry_cautions(entry: FaultEntry, site: SiteData) -> CautionBox:
    """The hazards of the class, of what was done, and of the entry, joined, with the energy kept."""
    kind = site.vocabulary.get_as(EquipmentClass, entry.equipment.class_)
    hazards = list(entry.hazards)
    if kind:
        hazards += kind.hazards
        for action in entry.fix.actions if entry.fix else ():
            hazards += kind.hazards_by_action.get(action.do, ())
    return _box(hazards, tuple(_kept(kept) for kept in entry.stored_energy), site)


def class_cautions(class_id: str, site: SiteData) -> CautionBox:
    """The hazards of an equipment class, those of particular work included."""
    kind = site.vocabulary.get_as(EquipmentClass, class_id)
    hazards = [*kind.hazards, *(h for more in kind.hazards_by_action.values() for h in more)] if kind else []
    return _box(hazards, (), site)


def _box(hazard_ids: list[str], energies: tuple[KeptEnergy, ...], site: SiteData) -> CautionBox:
    found = [(hazard_id, site.vocabulary.get_as(Hazard, hazard_id)) for hazard_id in dict.fromkeys(hazard_ids)]
    found.sort(key=lambda pair: -pair[1].severity if pair[1] else 0)
    cautions = tuple(
        Caution(*lead_and_rest(term), f"{CAUTIONS}#{hazard_id}", term.sign)
        if term
        else Caution(f"{capital(hazard_id.replace('-', ' '))}.", "", None, "general")
        for hazard_id, term in found
    )
    sign = "electricity" if energies else cautions[0].sign if cautions else "general"
    return CautionBox(cautions, energies, sign)


def _kept(kept: StoredEnergy) -> KeptEnergy:
    named = f"{kept.component}, {format_quantity(kept.capacitance)}"
    capacitance, peak, computed_from = kept.capacitance.value, *_peak(kept.voltage)
    if capacitance is None or peak is None or capacitance <= 0 or peak <= 0:
        return KeptEnergy(f"{named}, keeps its charge.", "How much cannot be computed from what was written; measure it.")
    bleeder = kept.bleeder.value if isinstance(kept.bleeder, Quantity) and kept.bleeder.value else None
    figures = stored_energy(capacitance, peak, bleeder_ohm=bleeder, threshold_V=TOUCH_LIMIT_V)
    lead = f"{named}, holds {format_value(figures.energy_J, 'J')} ({format_value(figures.charge_C, 'C')}) at {computed_from}."
    limit = format_value(TOUCH_LIMIT_V, "V")
    if peak <= TOUCH_LIMIT_V:
        return KeptEnergy(lead, f"That is under {limit}, but a short can still burn.")
    if bleeder is None:
        says_none = "It has no bleeder and" if kept.bleeder == "none" else "With no bleeder recorded, count on none: it"
        return KeptEnergy(lead, f"{says_none} stays charged.")
    assert isinstance(kept.bleeder, Quantity)
    time = "at once" if not figures.time_with_bleeder_s else f"in {format_value(figures.time_with_bleeder_s, 's', 2)}"
    return KeptEnergy(
        lead,
        f"With the bleeder open it stays charged; with the {format_quantity(kept.bleeder)} bleeder working it falls "
        f"below {limit} {time}.",
    )


def _peak(voltage: Quantity) -> tuple[float | None, str]:
    """The highest voltage the text states, in volts, and what it was taken from."""
    stated = [abs(v) for v in (voltage.value, voltage.low, voltage.high) if v is not None]
    if not stated:
        return None, ""
    highest = voltage.high if voltage.kind == "range" and voltage.high is not None else voltage.value or max(stated)
    if voltage.qualifier in {"ac", "rms"}:
        peak = highest * math.sqrt(2)
        return peak, f"{format_value(peak, 'V')}, the peak of {format_quantity(voltage)}"
    return highest, format_value(highest, "V")


def lead_and_rest(hazard: Hazard) -> tuple[str, str]:
    """A hazard's caution as what is set bold and what follows: cut at its first colon, else after its label."""
    lead, colon, rest = hazard.caution.partition(": ")
    if colon and len(lead) <= LONGEST_LEAD:
        return f"{lead}:", rest
    return f"{hazard.label}.", hazard.caution
