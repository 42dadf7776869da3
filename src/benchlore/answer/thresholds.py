"""Published thresholds of voltage, charge and stored energy that a charged capacitor exceeds, each with its source."""
# ruff: noqa: N803, N815 - unit symbols keep their case in names

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from benchlore.answer.stored_energy import stored_energy

Measured = Literal["voltage", "capacitance", "charge", "energy"]
_UNITS: dict[Measured, str] = {"voltage": "V", "capacitance": "F", "charge": "C", "energy": "J"}


@dataclass(frozen=True, slots=True)
class Threshold:
    """One published figure.

    ``figure`` is in SI units (``unit``); it holds for voltages over ``above_V`` up to ``up_to_V`` (d.c. or peak).
    ``memory`` says that it was written down from memory: no caution may rest on it alone.
    """

    id: str
    quantity: Measured
    figure: float
    what: str
    source: str
    memory: bool
    above_V: float = 0.0
    up_to_V: float = float("inf")

    @property
    def unit(self) -> str:
        """The SI unit of the figure."""
        return _UNITS[self.quantity]


@dataclass(frozen=True, slots=True)
class Exceeded:
    """A threshold that is exceeded, and the figure that exceeds it, in the threshold's unit."""

    threshold: Threshold
    value: float


@cache
def thresholds() -> tuple[Threshold, ...]:
    """All of them, in the order of the data file."""
    text = files("benchlore.answer").joinpath("data/thresholds.json").read_text(encoding="utf-8")
    return tuple(Threshold(**row) for row in json.loads(text)["thresholds"])


def exceeded(capacitance_F: float, voltage_V: float) -> tuple[Exceeded, ...]:
    """The thresholds that a capacitor at a d.c. (or peak) voltage exceeds, those seen in a source first.

    Raises ValueError as :func:`benchlore.answer.stored_energy.stored_energy` does. An empty answer says only that
    none of these is exceeded.
    """
    held = stored_energy(capacitance_F, voltage_V)
    voltage = abs(voltage_V)
    values: dict[Measured, float] = {
        "voltage": voltage,
        "capacitance": capacitance_F,
        "charge": held.charge_C,
        "energy": held.energy_J,
    }
    found = [
        Exceeded(threshold, values[threshold.quantity])
        for threshold in thresholds()
        if threshold.above_V < voltage <= threshold.up_to_V
        and values[threshold.quantity] > threshold.figure * (1 + 1e-9)
    ]
    return tuple(sorted(found, key=lambda e: e.threshold.memory))
