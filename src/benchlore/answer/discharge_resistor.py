"""A resistor that can be bought to discharge a capacitor with: value, power, working voltage, pulse energy."""
# ruff: noqa: N803, N815 - unit symbols keep their case in names

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from benchlore.answer.stored_energy import TOUCH_LIMIT_V, Discharge, discharge_through, resistor_for
from benchlore.quantity.preferred import neighbours


@cache
def _data() -> dict[str, Any]:
    text = files("benchlore.answer").joinpath("data/resistors.json").read_text(encoding="utf-8")
    data: dict[str, Any] = json.loads(text)
    return data


ORDINARY_V: float = _data()["most_V"]
"""Above this no resistor is named: it takes tools made for that voltage, and people trained for it."""


@dataclass(frozen=True, slots=True)
class BoughtResistor:
    """``count`` equal resistors in series, each of ``each_ohm`` (a preferred number of ``series``), ``power_W`` and
    ``working_V``; ``discharge`` is what happens through all of them, and the other figures are for one of them.

    ``kind`` is what to ask for; ``source`` says where its usual figures come from: its data sheet decides.
    """

    count: int
    each_ohm: float
    kind: str
    power_W: float
    working_V: float
    series: str
    discharge: Discharge
    each_peak_W: float
    each_pulse_J: float
    source: str


def resistor_to_buy(
    capacitance_F: float, voltage_V: float, seconds: float, *, threshold_V: float = TOUCH_LIMIT_V
) -> BoughtResistor | None:
    """The smallest usual resistor, or a few small ones in series, to reach the threshold within ``seconds``.

    The value is the preferred number at or below t/(C·ln(V/threshold)), shared among those in series. Each one's
    working voltage covers its share of the full voltage; its peak power stays within the short overload of its kind;
    and its mean power over the discharge within its rated power, or the overload when that lasts five seconds at most.
    None where no usual one will do, and above :data:`ORDINARY_V`. Raises ValueError
    as :func:`benchlore.answer.stored_energy.resistor_for` does.
    """
    data = _data()
    wanted = resistor_for(capacitance_F, voltage_V, seconds, threshold_V=threshold_V).resistor_ohm
    voltage = abs(voltage_V)
    if voltage > ORDINARY_V:
        return None
    found: list[BoughtResistor] = []
    for count in range(1, data["most_in_series"] + 1):
        each, _ = neighbours(min(wanted / count, data["most_ohm"]), data["series"])
        if each < data["least_ohm"]:
            break
        through = discharge_through(capacitance_F, voltage, each * count, threshold_V=threshold_V)
        for kind in data["kinds"]:
            if _bears(kind, count, voltage, through):
                found.append(
                    BoughtResistor(
                        count, each, kind["kind"], kind["power_W"], kind["voltage_V"], data["series"], through,
                        through.peak_power_W / count, through.pulse_energy_J / count, data["source"],
                    )
                )
                break
    return min(found, key=lambda r: (r.power_W * r.count**2, r.count), default=None)


def _bears(kind: Mapping[str, Any], count: int, voltage: float, through: Discharge) -> bool:
    """Whether one of ``count`` resistors of that kind in series bears its share of the discharge."""
    mean = through.pulse_energy_J / count / through.time_s
    return bool(
        kind["voltage_V"] >= voltage / count
        and through.peak_power_W / count <= kind["power_W"] * kind["overload"]
        and mean <= kind["power_W"] * (kind["overload"] if through.time_s <= 5 else 1)
    )
