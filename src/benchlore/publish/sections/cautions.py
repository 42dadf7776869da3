"""The caution box: the hazards of the entry, its class and what was done, and the energy that capacitors keep."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.answer.discharge_resistor import ORDINARY_V, resistor_to_buy
from benchlore.answer.peak import Peak, highest_peak
from benchlore.answer.stored_energy import TOUCH_LIMIT_V, stored_energy
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import CAUTIONS
from benchlore.publish.wording import capital, inside
from benchlore.quantity.format import format_quantity, format_value
from benchlore.quantity.model import Quantity
from benchlore.read.entry import FaultEntry, StoredEnergy
from benchlore.read.shop import Supply
from benchlore.terms.model import EquipmentClass, Hazard

LONGEST_LEAD = 60
STORED = "stored-energy"
DISCHARGE_S = 10.0
"""Seconds within which the resistor that is named discharges a capacitor to 60 V."""
IN_FULL_FROM = 3
MOST_IN_FULL = 3
"""Cautions of this severity and more are worded in full, up to so many; others are named and lead to their own place
on the cautions page. More text than that hides, on a phone, what the page is about."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One hazard by its term id, worded, with its place on the cautions page (None when the term is unknown)."""

    hazard: str
    lead: str
    text: str
    url: str | None
    sign: str


@dataclass(frozen=True, slots=True)
class KeptEnergy:
    """What one capacitor keeps: a bold lead, how long it takes with the bleeder open and working, and a resistor."""

    lead: str
    text: str
    resistor: str = ""


@dataclass(frozen=True, slots=True)
class CautionBox:
    """All cautions of a page: those that can kill at once in full, the others by name; ``sign`` is the one drawn."""

    cautions: tuple[Caution, ...]
    others: tuple[Caution, ...]
    energies: tuple[KeptEnergy, ...]
    sign: str

    @property
    def recorded(self) -> bool:
        """Whether any hazard is known."""
        return bool(self.cautions or self.others or self.energies)


def entry_cautions(entry: FaultEntry, site: SiteData) -> CautionBox:
    """The hazards of the class, of what was done, and of the entry, joined, with the energy kept."""
    kind = site.vocabulary.get_as(EquipmentClass, entry.equipment.class_)
    hazards = list(entry.hazards)
    if kind:
        hazards += kind.hazards
        for action in entry.fix.actions if entry.fix else ():
            hazards += kind.hazards_by_action.get(action.do, ())
    return _box(hazards, tuple(_kept(kept, site.shop.supply) for kept in entry.stored_energy), site)


def class_cautions(class_id: str, site: SiteData) -> CautionBox:
    """The hazards of an equipment class, those of particular work included."""
    kind = site.vocabulary.get_as(EquipmentClass, class_id)
    hazards = [*kind.hazards, *(h for more in kind.hazards_by_action.values() for h in more)] if kind else []
    return _box(hazards, (), site)


def _box(hazard_ids: list[str], energies: tuple[KeptEnergy, ...], site: SiteData) -> CautionBox:
    found = [(hazard_id, site.vocabulary.get_as(Hazard, hazard_id)) for hazard_id in dict.fromkeys(hazard_ids)]
    found.sort(key=lambda pair: -pair[1].severity if pair[1] else 0)
    full: list[Caution] = []
    others: list[Caution] = []
    for hazard_id, term in found:
        if term is None:
            others.append(Caution(hazard_id, hazard_id.replace("-", " "), "", None, "general"))
            continue
        url = f"{CAUTIONS}#{hazard_id}"
        told_in_figures = hazard_id == STORED and energies
        if term.severity >= IN_FULL_FROM and len(full) < MOST_IN_FULL and not told_in_figures:
            full.append(Caution(hazard_id, *lead_and_rest(term), url, term.sign))
        else:
            others.append(Caution(hazard_id, inside(term.label), term.caution, url, term.sign))
    sign = "electricity" if energies else (*full, *others)[0].sign if full or others else "general"
    return CautionBox(tuple(full), tuple(others), energies, sign)


def _kept(kept: StoredEnergy, supply: Supply) -> KeptEnergy:
    named = f"{capital(kept.component)}, {format_quantity(kept.capacitance)}"
    capacitance = kept.capacitance.value
    peak = highest_peak(kept.voltage, nominal_V=supply.voltage, highest_V=supply.highest)
    if not capacitance or not peak or not peak.volts or capacitance < 0:
        return KeptEnergy(
            f"{named}, keeps its charge.", "How much cannot be computed from what is written; measure it."
        )
    bleeder = kept.bleeder if isinstance(kept.bleeder, Quantity) and kept.bleeder.value else None
    figures = stored_energy(capacitance, peak.volts, bleeder_ohm=bleeder.value if bleeder else None)
    amounts = f"{format_value(figures.energy_J, 'J')} ({format_value(figures.charge_C, 'C')})"
    return KeptEnergy(
        f"{named}, holds {amounts} at {_told_peak(peak)}.",
        _time(kept, peak.volts, bleeder, figures.time_with_bleeder_s),
        _resistor(capacitance, peak.volts),
    )


def _resistor(capacitance: float, peak: float) -> str:
    """A resistor that can be bought to discharge it with; empty where there is nothing to discharge."""
    if peak <= TOUCH_LIMIT_V:
        return ""
    if peak > ORDINARY_V:
        return "No ordinary resistor, lead or meter will do at this voltage: leave it to people equipped for it."
    buy = resistor_to_buy(capacitance, peak, DISCHARGE_S)
    if buy is None:
        return ""
    value, volts = format_value(buy.each_ohm, "ohm"), format_value(buy.working_V, "V")
    part = f"{value} {format_value(buy.power_W, 'W')} {buy.kind}, {volts} or more"
    number = f"{buy.count} in series, each {part}" if buy.count > 1 else part
    seconds = format_value(buy.discharge.time_s, "s", 2)
    return f"To discharge it: {number}, insulated leads, for at least {seconds}."


def _time(kept: StoredEnergy, peak: float, bleeder: Quantity | None, seconds: float | None) -> str:
    """How long it stays charged: with the bleeder open first, with a working bleeder second."""
    limit = format_value(TOUCH_LIMIT_V, "V")
    if peak <= TOUCH_LIMIT_V:
        return f"That is under {limit}, but a short circuit can still burn."
    if bleeder is None:
        return (
            "It has no bleeder: it stays charged."
            if kept.bleeder == "none"
            else "Count on no bleeder: it stays charged."
        )
    falls = f"falls below {limit} in {format_value(seconds, 's', 2)}" if seconds else f"falls below {limit}"
    return f"With the bleeder open it stays charged; with the {format_quantity(bleeder)} bleeder working it {falls}."


def _told_peak(peak: Peak) -> str:
    """The voltage, and the alternating voltage whose peak it is."""
    volts = format_value(peak.volts, "V")
    if peak.rms is None:
        return volts
    highest = ", the highest mains" if peak.at_highest else ""
    return f"{volts}, the peak of {format_value(peak.rms, 'V')} ac{highest}"


def lead_and_rest(hazard: Hazard) -> tuple[str, str]:
    """A hazard's caution as what is set bold and what follows: cut at its first colon, else after its label."""
    lead, colon, rest = hazard.caution.partition(": ")
    if colon and len(lead) <= LONGEST_LEAD:
        return f"{lead}:", rest
    return f"{hazard.label}.", hazard.caution
