"""What a rectifier's diodes bear, by topology and supply; ripple of the capacitor behind it."""
# ruff: noqa: N803, N815 - unit symbols keep their case in names

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Topology = Literal["half-wave", "half-wave-capacitor", "centre-tap", "bridge", "doubler", "three-phase-bridge"]

# Peak inverse voltage in peaks of the (phase, or half-winding) voltage, mean diode current in output currents, and
# pulses of charge in one period. Handbook figures: partly seen in lecture notes, the rest from memory (high
# confidence), and each follows from the circuit.
_FIGURES: dict[Topology, tuple[float, float, int]] = {
    "half-wave": (1.0, 1.0, 1),
    "half-wave-capacitor": (2.0, 1.0, 1),
    "centre-tap": (2.0, 0.5, 2),
    "bridge": (1.0, 0.5, 2),
    "doubler": (2.0, 1.0, 1),
    "three-phase-bridge": (math.sqrt(3), 1 / 3, 6),
}
TOPOLOGIES: tuple[Topology, ...] = tuple(_FIGURES)
RATED_V = (50, 100, 200, 400, 600, 800, 1000, 1200, 1600)
"""Reverse voltages that rectifier diodes are made for (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Stress:
    """What each diode bears: peak inverse voltage in volts and mean forward current in amperes.

    ``with_margin_V`` is the inverse voltage times the margin; ``rated_V`` the rating to buy, None above those made.
    """

    topology: Topology
    peak_V: float
    inverse_V: float
    mean_A: float
    with_margin_V: float
    rated_V: int | None


def stress(topology: Topology, rms_V: float, output_A: float = 0.0, *, margin: float = 1.5) -> Stress:
    """The stress on each diode of a rectifier fed with ``rms_V``: of the phase, or of one half of a tapped winding.

    ``rms_V`` should be the highest the supply reaches. ``margin`` times the inverse voltage is what to buy for: 1.5 to
    2 on the mains, for transients (common practice, no source). Raises ValueError for what is not positive.
    """
    if topology not in _FIGURES:
        raise ValueError(f"there is no topology {topology!r}; there are {', '.join(TOPOLOGIES)}")
    if not (rms_V > 0 and output_A >= 0 and margin >= 1 and math.isfinite(rms_V + output_A + margin)):
        raise ValueError("voltage is positive, current not negative, and the margin 1 at least")
    inverse, share, _ = _FIGURES[topology]
    peak = math.sqrt(2) * rms_V
    wanted = inverse * peak * margin
    rated = next((volts for volts in RATED_V if volts >= wanted), None)
    return Stress(topology, peak, inverse * peak, share * output_A, wanted, rated)


def ripple(load_A: float, frequency_Hz: float, capacitance_F: float) -> float:
    """Peak-to-peak ripple in volts of a reservoir capacitor, about I/(f·C).

    ``frequency_Hz`` is that of the charging pulses, twice the line's after a bridge. An upper estimate: the capacitor
    is taken to feed the load all the time.
    """
    if not (load_A >= 0 and frequency_Hz > 0 and capacitance_F > 0):
        raise ValueError("current is not negative, frequency and capacitance are positive")
    return load_A / (frequency_Hz * capacitance_F)


def pulse_frequency(topology: Topology, line_Hz: float) -> float:
    """How often a second the reservoir capacitor is charged."""
    return _FIGURES[topology][2] * line_Hz
