"""``benchlore discharge``: what a charged capacitor holds, and the resistor to discharge it with."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from benchlore.errors import BenchloreError

if TYPE_CHECKING:
    from benchlore.answer.peak import Peak
    from benchlore.quantity.model import Quantity
    from benchlore.read.shop import Supply

LONGEST_S = 3600.0


@click.command(
    context_settings={"ignore_unknown_options": True},
    epilog="""\b
Examples:
  benchlore discharge 220uF 400V
  benchlore discharge 470uF 400V --bleeder 100k --within 5s
  benchlore discharge 1uF mains                       the peak of the highest mains of the shop (else 253 V)
  benchlore discharge 1uF "230 V ac" --bleeder 1M     taken at the highest mains, too
  benchlore discharge 10000uF 63V --below 5V
""",
)
@click.argument("capacitance")
@click.argument("voltage")
@click.option("--bleeder", metavar="OHMS", help="The resistor across it, such as 100k.")
@click.option("--below", default="60 V", show_default=True, metavar="VOLTS", help="The voltage to fall below.")
@click.option("--within", default="10 s", show_default=True, metavar="TIME", help="How soon a resistor shall do it.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines, in SI units.")
@click.option(
    "--base",
    "base_folder",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    metavar="DIR",
    help="The knowledge base whose mains supply is meant; found from the current folder upwards.",
)
def command(
    capacitance: str,
    voltage: str,
    bleeder: str | None,
    below: str,
    within: str,
    as_json: bool,
    base_folder: Path | None,
) -> None:
    """Compute what CAPACITANCE at VOLTAGE holds, how it discharges, and a resistor for it that can be bought.

    VOLTAGE is d.c. or a peak; an rms voltage says so (230 V ac), and "mains" is the highest mains. Figures are by
    calculation: measure, proving the meter before and after. Local codes and licensed practice come first.
    """
    farads = _value(capacitance, "F", "CAPACITANCE")
    peak = _peak(voltage, _supply(base_folder))
    limit, seconds = _value(below, "V", "--below"), _value(within, "s", "--within")
    ohms = _value(bleeder, "ohm", "--bleeder") if bleeder else None
    if seconds > LONGEST_S:
        raise BenchloreError("--within is an hour at most")
    figures = _figures(farads, peak, ohms, limit, seconds)
    click.echo(json.dumps(figures, indent=2, ensure_ascii=False) if as_json else "\n".join(_told(figures, peak)))


def _quantity(text: str, unit: str, where: str) -> Quantity:
    from benchlore.quantity.model import QuantityError
    from benchlore.quantity.parse import parse

    try:
        found = parse(text, unit=unit)
    except QuantityError as error:
        raise BenchloreError(f"{where}: {error.message}", hint=error.hint) from None
    if found.unit != unit:
        raise BenchloreError(f"{where}: {text} is not in {unit}")
    return found


def _value(text: str, unit: str, where: str) -> float:
    found = _quantity(text, unit, where)
    if not found.value or found.value < 0:
        raise BenchloreError(f"{where}: one value above nothing is needed, not {text}")
    return found.value


def _supply(folder: Path | None) -> Supply:
    from benchlore.read.base import Base, BaseNotFound
    from benchlore.read.shop import Shop

    try:
        return (Base(folder) if folder else Base.find(Path.cwd())).shop.supply
    except BaseNotFound:
        if folder:
            raise
        return Shop(name="no shop").supply


def _peak(text: str, supply: Supply) -> Peak:
    from benchlore.answer.peak import Peak, highest_peak
    from benchlore.answer.stored_energy import peak_of_rms

    if text.strip().lower() == "mains":
        return Peak(peak_of_rms(supply.highest), supply.highest, True)
    found = highest_peak(_quantity(text, "V", "VOLTAGE"), nominal_V=supply.voltage, highest_V=supply.highest)
    if found is None or found.volts == 0:
        raise BenchloreError(f"VOLTAGE: {text} states no voltage to compute with")
    return found


def _figures(farads: float, peak: Peak, bleeder: float | None, below: float, within: float) -> dict[str, Any]:
    from benchlore.answer.discharge_resistor import resistor_to_buy
    from benchlore.answer.stored_energy import resistor_for, stored_energy
    from benchlore.answer.thresholds import exceeded

    held = stored_energy(farads, peak.volts, bleeder_ohm=bleeder, threshold_V=below)
    worth_it = peak.volts > below
    exact = resistor_for(farads, peak.volts, within, threshold_V=below) if worth_it else None
    buy = resistor_to_buy(farads, peak.volts, within, threshold_V=below) if worth_it else None
    return {
        "capacitance": farads,
        "voltage": peak.volts,
        "from_rms": peak.rms,
        "energy": held.energy_J,
        "charge": held.charge_C,
        "below": below,
        "bleeder": bleeder,
        "time": held.time_with_bleeder_s,
        "bleeder_power": held.bleeder_power_W,
        "time_bleeder_open": None if worth_it else 0.0,
        "stays_charged_with_bleeder_open": worth_it,
        "within": within,
        "resistor": exact.resistor_ohm if exact else None,
        "peak_power": exact.peak_power_W if exact else None,
        "pulse_energy": exact.pulse_energy_J if exact else None,
        "buy": {
            "count": buy.count,
            "each": buy.each_ohm,
            "kind": buy.kind,
            "power": buy.power_W,
            "working_voltage": buy.working_V,
            "series": buy.series,
            "time": buy.discharge.time_s,
            "peak_power_each": buy.each_peak_W,
            "pulse_energy_each": buy.each_pulse_J,
            "source": buy.source,
        }
        if buy
        else None,
        "exceeded": [
            {
                "id": e.threshold.id,
                "quantity": e.threshold.quantity,
                "figure": e.threshold.figure,
                "unit": e.threshold.unit,
                "what": e.threshold.what,
                "source": e.threshold.source,
                "from_memory": e.threshold.memory,
            }
            for e in exceeded(farads, peak.volts)
        ],
        "caution": "By calculation: measure it, proving the meter before and after.",
    }


def _told(figures: dict[str, Any], peak: Peak) -> list[str]:
    from benchlore.quantity.format import format_value as told

    volts, below = told(figures["voltage"], "V"), told(figures["below"], "V")
    origin = ""
    if peak.rms:
        origin = f", the peak of {told(peak.rms, 'V')} ac{' (the highest mains)' if peak.at_highest else ''}"
    lines = [click.style(f"{told(figures['capacitance'], 'F')} at {volts}{origin}", bold=True)]
    lines.append(f"  {figures['caution']}")
    lines.append(f"  holds {told(figures['energy'], 'J')} ({told(figures['charge'], 'C')})")
    if figures["stays_charged_with_bleeder_open"]:
        lines.append("  with the bleeder open and the load dead: it stays charged; no time can be given")
        if figures["time"] is not None:
            lines.append(
                f"  with the {told(figures['bleeder'], 'ohm')} bleeder working: below {below} after"
                f" {told(figures['time'], 's')}, {told(figures['bleeder_power'], 'W')} at first"
            )
        lines += _resistor(figures, below)
    else:
        lines.append(f"  that is not above {below}; a short circuit can still burn")
    if figures["exceeded"]:
        lines.append("Above these published figures:")
        for row in figures["exceeded"]:
            memory = " [from memory]" if row["from_memory"] else ""
            lines.append(f"  {told(row['figure'], row['unit'])}  {row['what']}: {row['source']}{memory}")
    lines.append("A discharged capacitor can recover voltage: measure again.")
    lines.append("Local codes and licensed practice come first.")
    return lines


def _resistor(figures: dict[str, Any], below: str) -> list[str]:
    from benchlore.answer.discharge_resistor import ORDINARY_V
    from benchlore.quantity.format import format_value as told

    if figures["voltage"] > ORDINARY_V:
        no = f"  above {told(ORDINARY_V, 'V')} no ordinary resistor, lead or meter will do:"
        return [f"{no} leave it to people trained and equipped for it"]
    lines = [
        f"  to fall below {below} within {told(figures['within'], 's')}: {told(figures['resistor'], 'ohm')} at most,"
        f" {told(figures['peak_power'], 'W')} at first, {told(figures['pulse_energy'], 'J')} into it"
    ]
    buy = figures["buy"]
    if buy is None:
        lines.append("    no usual resistor bears that: give it more time (--within)")
        return lines
    number = f"{buy['count']} in series, each " if buy["count"] > 1 else ""
    lines.append(
        f"    to buy: {number}{told(buy['each'], 'ohm')} ({buy['series']}), {buy['kind']}, {told(buy['power'], 'W')},"
        f" working voltage {told(buy['working_voltage'], 'V')} or more"
    )
    each = " in each" if buy["count"] > 1 else ""
    lines.append(
        f"    it then takes {told(buy['time'], 's')}, with {told(buy['peak_power_each'], 'W')} at first and"
        f" {told(buy['pulse_energy_each'], 'J')}{each}; the part's data sheet decides (usual figures, from memory)"
    )
    return lines
