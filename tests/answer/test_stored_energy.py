"""Stored energy and discharge, against published worked numbers."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from benchlore.answer.stored_energy import (
    discharge_through,
    discharge_time,
    is_hazardous_charge,
    peak_of_rms,
    resistor_for,
    stored_energy,
    voltage_after,
)

CHECK = json.loads((Path(__file__).parents[1] / "vectors" / "check_values.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CHECK["discharge"], ids=lambda case: f"{case['C']} F {case['V0']} V")
def test_discharges(case):
    held = stored_energy(case["C"], case["V0"], bleeder_ohm=case["R"], threshold_V=case["V1"])
    assert held.energy_J == pytest.approx(case["E"], rel=1e-12)
    assert held.charge_C == pytest.approx(case["Q"], rel=1e-12)
    assert held.time_with_bleeder_s == pytest.approx(case["t"], rel=1e-12)
    assert held.bleeder_power_W == pytest.approx(case["Ppk"], rel=1e-12)
    through = discharge_through(case["C"], case["V0"], case["R"], threshold_V=case["V1"])
    assert (through.time_s, through.peak_power_W) == pytest.approx((case["t"], case["Ppk"]), rel=1e-12)
    assert through.peak_current_A == pytest.approx(case["V0"] / case["R"])
    back = resistor_for(case["C"], case["V0"], case["t"], threshold_V=case["V1"])
    assert back.resistor_ohm == pytest.approx(case["R"], rel=1e-12)


@pytest.mark.parametrize(
    ("capacitance", "voltage", "energy"),
    [
        (10e-6, 230, 0.26),  # an engineering table on the web gives 0.26 J
        (100e-6, 2000, 200),  # published 200 J
        (3300e-6, 450, 334),  # published, about 334 J
        (470e-6, 400, 37.6),
        (220e-6, 400, 17.6),
        (68e-6, 400, 5.44),
        (100e-6, 330, 5.445),
        (160e-6, 330, 8.712),
        (1e-6, 2969.85, 4.41),
        (2e-9, 25e3, 0.625),
        (1e-9, 27e3, 0.3645),
        (10e-3, 63, 19.845),
        (22e-3, 80, 70.4),
        (0.22e-6, 373.35, 0.0153),
        (0.1e-6, 450, 0.010125),
        (2000e-6, 100, 10),
        (189.35e-6, 325, 10),
        (125e-6, 400, 10),
        (98.77e-6, 450, 10),
        (3.125e-6, 400, 0.25),
        (1.12e-9, 25e3, 0.35),
    ],
)
def test_energies(capacitance, voltage, energy):
    assert stored_energy(capacitance, voltage).energy_J == pytest.approx(energy, rel=0.02 if energy == 0.26 else 3e-3)


def test_the_limits_of_the_standards_meet():
    """0.1 µF × 450 V is 45 µC (IEC 60335-1 8.1.4 and IEC 60950-1 2.4)."""
    assert stored_energy(0.1e-6, 450).charge_C == pytest.approx(45e-6)


@pytest.mark.parametrize(
    ("capacitance", "voltage", "hazardous"),
    [
        (0.22e-6, 373.35, True),
        (0.1e-6, 325, False),
        (0.101e-6, 325, True),
        (0.2e-6, 60, False),
        (470e-6, 400, True),
        (44e-9, 1000, False),
        (46e-9, 1000, True),
        (1e-6, 2970, True),
        (2e-9, 25e3, True),
        (1e-9, 25e3, False),
        (10e-3, 50, False),
        (100e-3, 50, True),
        (470e-6, -400, True),
    ],
)
def test_hazardous_charges(capacitance, voltage, hazardous):
    """IEC 60335-1 8.1.4 and IEC 60950-1 2.4, seen at second hand; 100 J below 100 V: LBNL electrical safety manual."""
    assert is_hazardous_charge(capacitance, voltage) is hazardous
    assert stored_energy(capacitance, voltage).hazardous is hazardous


@pytest.mark.parametrize(
    ("capacitance", "voltage", "seconds", "threshold", "megohms"),
    [
        (0.22e-6, 373.352, 2, 60, 4.973),
        (0.22e-6, 373.352, 1, 34, 1.897),
        (1e-6, 373.352, 2, 60, 1.094),
        (1e-6, 373.352, 1, 34, 0.417),
        (470e-6, 400, 5, 60, 5.608e-3),
    ],
)
def test_largest_bleeder(capacitance, voltage, seconds, threshold, megohms):
    found = resistor_for(capacitance, voltage, seconds, threshold_V=threshold)
    assert found.resistor_ohm == pytest.approx(megohms * 1e6, rel=2e-3)


def test_peak_power_of_a_bank():
    assert resistor_for(470e-6, 400, 5).peak_power_W == pytest.approx(28.5, rel=2e-3)


def test_time_constants():
    """After n time constants 36.788, 13.534, 4.979, 1.832, 0.674 % of the voltage are left."""
    left = [voltage_after(1e-6, 100, 1e6, n) for n in range(1, 6)]
    assert left == pytest.approx([36.788, 13.534, 4.979, 1.832, 0.674], abs=5e-4)


@given(st.floats(1e-9, 1e-2), st.floats(61, 5000), st.floats(10, 1e7))
def test_the_resistor_takes_the_energy_that_is_lost(capacitance, voltage, resistor):
    through = discharge_through(capacitance, voltage, resistor)
    tau = resistor * capacitance
    taken, _ = quad(lambda s: (voltage * math.exp(-s)) ** 2 / resistor * tau, 0, through.time_s / tau)
    assert through.pulse_energy_J == pytest.approx(taken, rel=1e-6)
    assert voltage_after(capacitance, voltage, resistor, through.time_s) == pytest.approx(60, rel=1e-9)


def test_without_a_bleeder_there_is_no_time():
    held = stored_energy(470e-6, 400)
    assert held.time_with_bleeder_s is None
    assert held.bleeder_power_W is None


def test_below_the_threshold_there_is_nothing_to_wait_for():
    assert stored_energy(470e-6, 48, bleeder_ohm=1000).time_with_bleeder_s == 0
    assert discharge_time(470e-6, 60, 1000) == 0
    with pytest.raises(ValueError, match="nothing to discharge"):
        resistor_for(470e-6, 48, 5)


def test_peak_of_the_mains():
    peaks = [peak_of_rms(rms) for rms in (120, 230, 240, 264)]
    assert peaks == pytest.approx([169.706, 325.269, 339.411, 373.352], abs=5e-4)


@pytest.mark.parametrize("bad", [0, -1e-6, float("nan"), float("inf")])
def test_impossible_figures_are_refused(bad):
    with pytest.raises(ValueError, match="capacitance"):
        stored_energy(bad, 400)
    with pytest.raises(ValueError, match="resistance"):
        discharge_time(1e-6, 400, bad)
    with pytest.raises(ValueError, match="voltage"):
        stored_energy(1e-6, math.nan)
