"""Small sums of the bench: divider, LED resistor, RC times, and a reading's verdict with the meter's uncertainty.

The twin of ``helpers_math.js``; both follow the formulas stated here and are held together by shared vectors.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlore.answer.conformity import (
    Decision,
    Limits,
    decide,
    guard_band,
    meter_spread,
    probability_of_conformity,
    standard_uncertainty,
)
from benchlore.quantity.preferred import neighbours

POWER_MARGIN = 2.0
"""A resistor's rated power is taken twice what it turns into heat (common practice, no source)."""
RATED_W = (0.125, 0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0)
"""Rated powers that resistors are usually made with, in watts."""


@dataclass(frozen=True, slots=True)
class Divider:
    """Output in volts, current in amperes, heat in watts, and the source resistance of the tap in ohms."""

    output: float
    current: float
    upper_power: float
    lower_power: float
    source: float


def divider(supply: float, upper: float, lower: float, load: float | None = None) -> Divider:
    """A divider of two resistors (ohms) from ``supply`` (volts), with or without a load across the lower one.

    V = Vs·Rl/(Ru + Rl) with Rl = lower ∥ load; the source resistance is upper ∥ lower. Raises ValueError unless all
    resistances are positive.
    """
    _positive(upper, lower, *([load] if load is not None else []))
    loaded = lower if load is None else lower * load / (lower + load)
    current = supply / (upper + loaded)
    output = current * loaded
    return Divider(output, current, current**2 * upper, output**2 / lower, upper * lower / (upper + lower))


@dataclass(frozen=True, slots=True)
class LedResistor:
    """The exact resistance, the preferred number (E24) at or above it, the current through that, its heat and the
    rated power to buy (None when it is more than is usual), in SI units."""

    exact: float
    resistor: float
    current: float
    power: float
    rated: float | None


def led_resistor(supply: float, forward: float, current: float) -> LedResistor:
    """The series resistor of a light-emitting diode: R = (Vs - Vf)/I, the next E24 value up.

    ``forward`` is the voltage of the diode, or of all in series. Raises ValueError when it is not below the supply.
    """
    _positive(supply, forward, current)
    if forward >= supply:
        raise ValueError("the supply has to be above the forward voltage")
    exact = (supply - forward) / current
    _, chosen = neighbours(exact, "E24")
    flows = (supply - forward) / chosen
    power = flows**2 * chosen
    return LedResistor(exact, chosen, flows, power, next((w for w in RATED_W if w >= power * POWER_MARGIN), None))


@dataclass(frozen=True, slots=True)
class RcTimes:
    """Time constant in seconds, corner frequency in hertz, and seconds to 90, 95 and 99 per cent of the way."""

    tau: float
    corner: float
    to_90: float
    to_95: float
    to_99: float


def rc_times(resistance: float, capacitance: float) -> RcTimes:
    """τ = RC, f = 1/(2πRC), t = τ·ln(1/(1 - share)). Raises ValueError unless both are positive."""
    _positive(resistance, capacitance)
    tau = resistance * capacitance
    return RcTimes(tau, 1 / (2 * math.pi * tau), tau * math.log(10), tau * math.log(20), tau * math.log(100))


def rc_fall(resistance: float, capacitance: float, start: float, end: float) -> float:
    """Seconds until a capacitor falls from ``start`` to ``end`` volts through the resistor: RC·ln(start/end)."""
    _positive(resistance, capacitance, start, end)
    if end > start:
        raise ValueError("it falls from the higher voltage to the lower")
    return resistance * capacitance * math.log(start / end)


@dataclass(frozen=True, slots=True)
class MeterVerdict:
    """``half_width`` of the meter's accuracy in the reading's unit, ``probability`` that the true value is within, and
    the decisions by simple acceptance and with the guard band w = U (U = 2u, u = Δ/√3)."""

    half_width: float
    probability: float
    simple: Decision
    guarded: Decision


def meter_verdict(
    reading: float, low: float, high: float, *, percent: float, counts: float = 0.0, resolution: float = 0.0
) -> MeterVerdict:
    """A reading against two limits, with the accuracy of the meter, ±(% of reading + counts of the last digit)."""
    if not low <= high:
        raise ValueError("the lower limit comes first")
    half_width = meter_spread(reading, percent=percent, counts=counts, resolution=resolution)
    u = standard_uncertainty(half_width)
    limits = Limits(low, high)
    return MeterVerdict(
        half_width,
        probability_of_conformity(reading, u, limits),
        decide(reading, limits),
        decide(reading, limits, guard_band("ilac-g8", 2 * u)),
    )


def _positive(*values: float) -> None:
    if not all(value > 0 and math.isfinite(value) for value in values):
        raise ValueError("every value is positive and finite")
