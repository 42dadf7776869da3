"""Checked after repair: proof, safety tests, soak, what was set or bypassed, and whether it came back."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.answer.verification import gap_shown
from benchlore.publish.sections.plate import Link
from benchlore.publish.sections.readings import shown
from benchlore.publish.sections.statements import RESULTS
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import NBSP, capital, day, unbroken
from benchlore.quantity.format import format_value
from benchlore.read.entry import Bypass, FaultEntry, SafetyCheck
from benchlore.terms.model import EquipmentClass

SURE = 0.9
"""The confidence with which a soak is judged."""
CALIBRATION = {"done": "Calibrated", "needed": "Calibration still needed", "not-applicable": ""}


@dataclass(frozen=True, slots=True)
class Checked:
    """Lines for the section; ``safety_missing`` says that mains equipment has no safety test on record."""

    lines: tuple[str, ...]
    safety: tuple[tuple[str, str], ...]
    """What was tested and read, and passed or failed."""
    history: tuple[tuple[str, str, Link | None], ...]
    """Date, result and the next visit's entry."""
    settings: tuple[str, ...]
    bypassed: tuple[str, ...]
    safety_missing: bool


def checked(entry: FaultEntry, site: SiteData) -> Checked:
    """What was proved after the repair of ``entry``, and what happened later."""
    proof = entry.verification
    lines = []
    history: list[tuple[str, str, Link | None]] = []
    if proof:
        lines += [unbroken(capital(check)) for check in proof.checks]
        if proof.soak:
            lines.append(f"Ran {shown(proof.soak)} on soak{_worth_of_soak(entry)}")
        history.append((day(entry.date), capital(RESULTS[proof.result]), None))
    else:
        lines.append("No check after the repair is recorded")
    for later in sorted(entry.follow_up, key=lambda f: f.date):
        told = capital(RESULTS[later.result]) + (f"; {unbroken(later.note)}" if later.note else "")
        history.append((day(later.date), told, _visit(later.entry, site)))
    if CALIBRATION.get(entry.calibration or ""):
        lines.append(CALIBRATION[entry.calibration or ""])
    kind = site.vocabulary.get_as(EquipmentClass, entry.equipment.class_)
    worked_on = entry.outcome in {"repaired", "partly-repaired"}
    return Checked(
        lines=tuple(lines),
        safety=tuple(_safety(check, site) for check in proof.safety) if proof else (),
        history=tuple(history),
        settings=tuple(_settings(entry)),
        bypassed=tuple(_bypassed(device) for device in entry.bypassed),
        safety_missing=bool(kind and kind.mains and worked_on and not (proof and proof.safety)),
    )


def _worth_of_soak(entry: FaultEntry) -> str:
    """What a clean soak shows of a fault that came and went; nothing for one that was there all the time."""
    proof = entry.verification
    soak = proof.soak.value if proof and proof.soak and proof.soak.unit == "s" else None
    if not proof or not soak or soak < 0 or proof.result == "came-back":
        return ""
    if not any(seen.pattern == "intermittent" for seen in entry.symptoms):
        return ""
    gap = format_value(gap_shown(soak, SURE), "s", 2)
    shows = f"shows with {SURE * 100:.0f}{NBSP}% confidence that it does not come oftener than once in {gap}"
    return f"; the fault came and went, and a clean run of that length {shows}"


def _safety(check: SafetyCheck, site: SiteData) -> tuple[str, str]:
    what = site.label("test", check.test)
    read = shown(check.value)
    applied = f" at {shown(check.applied)}" if check.applied else ""
    return f"{what} {read}{applied}".strip(), "passed" if check.result == "pass" else "failed"


def _bypassed(device: Bypass) -> str:
    why = f" ({device.why})" if device.why else ""
    return f"{device.what} bypassed for a test{why}; {'restored' if device.restored else 'NOT restored'}"


def _visit(slug: str | None, site: SiteData) -> Link | None:
    url = site.addresses.entry(slug) if slug else None
    return Link("the next visit", url) if url else None


def _settings(entry: FaultEntry) -> list[str]:
    told = []
    for setting in entry.adjustments:
        told.append(unbroken(f"{setting.what}: {_change(setting.before, setting.after)}"))
    for software in entry.software:
        backup = {True: "; backup taken", False: "; no backup taken", None: ""}[software.backup]
        told.append(f"{software.what}: {_change(software.before, software.after)}{backup}")
    return told


def _change(before: str | None, after: str | None) -> str:
    if before and after:
        return f"{before} before, {after} after"
    return after or (f"{before} before" if before else "set")
