"""What a charged capacitor holds, and how it discharges: energy, charge, time, resistor, power."""
# ruff: noqa: N803, N815 - unit symbols keep their case in names

from __future__ import annotations

import math
from dataclasses import dataclass

TOUCH_LIMIT_V = 60.0
"""V d.c. up to which IEC 60950-1 (SELV) and IEC 62368-1 (ES1) do not call a d.c. voltage hazardous to touch."""
SMALL_CHARGE_UP_TO_V = 450.0
"""V up to which the limit is a capacitance, and above which it is a charge (IEC 60335-1 8.1.4, IEC 60950-1 2.4)."""
CHARGE_UP_TO_V = 15_000.0
"""V up to which the limit is a charge, and above which it is an energy (the same clauses)."""
LARGEST_CAPACITANCE_F = 0.1e-6
LARGEST_CHARGE_C = 45e-6
LARGEST_ENERGY_J = 0.35
BURN_ENERGY_J = 100.0
"""J above which a source below 100 V is a thermal hazard (LBNL electrical safety manual, T2.3.5)."""


@dataclass(frozen=True, slots=True)
class StoredEnergy:
    """What a charged capacitor holds, in SI units.

    ``time_with_bleeder_s`` is how long a working bleeder takes down to ``threshold_V`` (0 when the voltage is not above
    it), None without a bleeder. With the bleeder open or absent there is no time to compute: the capacitor stays
    charged until it is discharged on purpose. ``bleeder_power_W`` is what the bleeder takes at the full voltage.
    ``hazardous`` is :func:`is_hazardous_charge`.
    """

    energy_J: float
    charge_C: float
    threshold_V: float
    time_with_bleeder_s: float | None
    bleeder_power_W: float | None
    hazardous: bool


@dataclass(frozen=True, slots=True)
class Discharge:
    """A discharge through a resistor, from the full voltage down to a threshold, in SI units.

    ``peak_power_W`` and ``peak_current_A`` are those of the first moment, ``pulse_energy_J`` what the resistor has
    taken when the threshold is reached; its working voltage must cover the full voltage. A resting capacitor can
    recover some voltage (dielectric absorption): measure again.
    """

    resistor_ohm: float
    time_s: float
    peak_power_W: float
    peak_current_A: float
    pulse_energy_J: float


def stored_energy(
    capacitance_F: float, voltage_V: float, *, bleeder_ohm: float | None = None, threshold_V: float = TOUCH_LIMIT_V
) -> StoredEnergy:
    """Energy and charge of a capacitor at a d.c. (or peak) voltage, and the time a working bleeder takes.

    E = CV²/2, Q = CV, t = RC·ln(V/threshold). Raises ValueError unless capacitance, bleeder and threshold are
    positive and all are finite; the sign of the voltage is dropped.
    """
    _positive("capacitance", capacitance_F)
    _positive("threshold", threshold_V)
    voltage = _voltage(voltage_V)
    time = power = None
    if bleeder_ohm is not None:
        time = discharge_time(capacitance_F, voltage, bleeder_ohm, threshold_V=threshold_V)
        power = voltage**2 / bleeder_ohm
    return StoredEnergy(
        energy_J=capacitance_F * voltage**2 / 2,
        charge_C=capacitance_F * voltage,
        threshold_V=threshold_V,
        time_with_bleeder_s=time,
        bleeder_power_W=power,
        hazardous=is_hazardous_charge(capacitance_F, voltage),
    )


def is_hazardous_charge(capacitance_F: float, voltage_V: float) -> bool:
    """Whether a capacitor at this d.c. voltage is past the limits for charge that may be touched, or can burn.

    Above 60 V d.c. up to 450 V: more than 0.1 µF. Up to 15 kV: more than 45 µC. Above: more than 350 mJ (IEC 60335-1
    8.1.4 and IEC 60950-1 2.4, seen at second hand; they begin at 42.4 V peak, which is the a.c. limit). At a lower
    voltage: more than 100 J (burns, not shock; LBNL). False says only that these limits are not passed.
    """
    voltage = _voltage(voltage_V)
    energy = capacitance_F * voltage**2 / 2
    if voltage <= TOUCH_LIMIT_V:
        return energy > BURN_ENERGY_J
    if voltage <= SMALL_CHARGE_UP_TO_V:
        return capacitance_F > LARGEST_CAPACITANCE_F
    if voltage <= CHARGE_UP_TO_V:
        return capacitance_F * voltage > LARGEST_CHARGE_C
    return energy > LARGEST_ENERGY_J


def discharge_time(
    capacitance_F: float, voltage_V: float, resistor_ohm: float, *, threshold_V: float = TOUCH_LIMIT_V
) -> float:
    """Seconds until the voltage has fallen to the threshold: t = RC·ln(V/threshold); 0 when it is not above it."""
    _positive("capacitance", capacitance_F)
    _positive("resistance", resistor_ohm)
    _positive("threshold", threshold_V)
    voltage = _voltage(voltage_V)
    return resistor_ohm * capacitance_F * math.log(voltage / threshold_V) if voltage > threshold_V else 0.0


def voltage_after(capacitance_F: float, voltage_V: float, resistor_ohm: float, seconds: float) -> float:
    """Volts left after a time of discharging: V·e^(-t/RC)."""
    _positive("capacitance", capacitance_F)
    _positive("resistance", resistor_ohm)
    return _voltage(voltage_V) * math.exp(-seconds / (resistor_ohm * capacitance_F))


def discharge_through(
    capacitance_F: float, voltage_V: float, resistor_ohm: float, *, threshold_V: float = TOUCH_LIMIT_V
) -> Discharge:
    """The discharge through a given resistor: P = V²/R, I = V/R, and E(1 - e^(-2t/RC)) taken by the resistor."""
    time = discharge_time(capacitance_F, voltage_V, resistor_ohm, threshold_V=threshold_V)
    voltage = _voltage(voltage_V)
    energy = capacitance_F * voltage**2 / 2
    return Discharge(
        resistor_ohm=resistor_ohm,
        time_s=time,
        peak_power_W=voltage**2 / resistor_ohm,
        peak_current_A=voltage / resistor_ohm,
        pulse_energy_J=energy * -math.expm1(-2 * time / (resistor_ohm * capacitance_F)),
    )


def resistor_for(
    capacitance_F: float, voltage_V: float, seconds: float, *, threshold_V: float = TOUCH_LIMIT_V
) -> Discharge:
    """The discharge through the largest resistor that reaches the threshold in time: R = t / (C·ln(V/threshold)).

    Raises ValueError when the voltage is not above the threshold: there is nothing to discharge.
    """
    _positive("capacitance", capacitance_F)
    _positive("time", seconds)
    _positive("threshold", threshold_V)
    voltage = _voltage(voltage_V)
    if voltage <= threshold_V:
        raise ValueError(f"{voltage} V is not above {threshold_V} V: there is nothing to discharge")
    resistor = seconds / (capacitance_F * math.log(voltage / threshold_V))
    return discharge_through(capacitance_F, voltage, resistor, threshold_V=threshold_V)


def peak_of_rms(rms_V: float) -> float:
    """The peak of a sine voltage: √2 times its rms value, which is what a rectifier charges a capacitor to."""
    return math.sqrt(2) * rms_V


def _positive(what: str, value: float) -> None:
    if not (value > 0 and math.isfinite(value)):
        raise ValueError(f"{what} must be positive and finite, not {value}")


def _voltage(value: float) -> float:
    if not math.isfinite(value):
        raise ValueError(f"voltage must be finite, not {value}")
    return abs(value)
