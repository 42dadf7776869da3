"""Rectifier stress and ripple against handbook figures; electrolytic life against makers' technical notes."""

from __future__ import annotations

import math

import pytest

from benchlore.answer.electrolytic_life import CAP_HOURS, life
from benchlore.answer.rectifier import TOPOLOGIES, pulse_frequency, ripple, stress


@pytest.mark.parametrize(
    ("topology", "peaks", "current"),
    [
        ("half-wave", 1, 1),
        ("half-wave-capacitor", 2, 1),
        ("centre-tap", 2, 1 / 2),
        ("bridge", 1, 1 / 2),
        ("doubler", 2, 1),
        ("three-phase-bridge", math.sqrt(3), 1 / 3),
    ],
)
def test_peak_inverse_voltage_and_current(topology, peaks, current):
    """Handbook factors: PIV in peaks of the phase, mean diode current in output currents (partly from memory)."""
    found = stress(topology, 24, 3)
    assert found.peak_V == pytest.approx(33.941, abs=5e-4)
    assert found.inverse_V == pytest.approx(peaks * 33.941, abs=2e-3)
    assert found.mean_A == pytest.approx(3 * current)


def test_three_phase_against_the_direct_voltage():
    """The inverse voltage is 1.047 (π/3) of the mean direct voltage, which is 3√6/π of the phase's rms."""
    direct = 3 * math.sqrt(6) / math.pi * 230
    assert stress("three-phase-bridge", 230).inverse_V / direct == pytest.approx(1.047, abs=5e-4)


def test_worked_voltages():
    peaks = [stress("bridge", rms).peak_V for rms in (12, 24, 230, 253)]
    assert peaks == pytest.approx([16.971, 33.941, 325.269, 357.796], abs=5e-4)
    assert stress("centre-tap", 24).inverse_V == pytest.approx(67.882, abs=5e-4)
    bridge = stress("bridge", 253, margin=1.5)
    assert (bridge.with_margin_V, bridge.rated_V) == (pytest.approx(536.7, abs=5e-2), 600)
    doubled = stress("bridge", 253, margin=2)
    assert (doubled.with_margin_V, doubled.rated_V) == (pytest.approx(715.6, abs=5e-2), 800)
    assert stress("half-wave-capacitor", 2000).rated_V is None


def test_ripple():
    assert ripple(1, 100, 4700e-6) == pytest.approx(2.128, abs=5e-4)
    assert ripple(0.5, 120, 1000e-6) == pytest.approx(4.167, abs=5e-4)
    assert [pulse_frequency(t, 50) for t in TOPOLOGIES] == [50, 50, 100, 100, 50, 300]


@pytest.mark.parametrize("wrong", [("bridge", -1, 0), ("bridge", 12, -1), ("octopus", 12, 0)])
def test_impossible_rectifiers(wrong):
    with pytest.raises(ValueError, match=r".+"):
        stress(*wrong)


@pytest.mark.parametrize(
    ("rated", "at", "degc", "hours"),
    [(2000, 105, 95, 4000), (2000, 105, 85, 8000), (2000, 105, 75, 16000), (2000, 105, 65, 32000),
     (2000, 105, 55, 64000), (1000, 85, 45, 16000), (5000, 105, 60, 113137)],
)  # fmt: skip
def test_electrolytic_life(rated, at, degc, hours):
    """L = L0·2^((T0 - T)/10): technical notes of two makers (Rubycon, Chemi-con)."""
    assert life(rated, at, degc).hours == pytest.approx(hours, abs=0.5)


def test_life_is_not_claimed_beyond_fifteen_years():
    long = life(10_000, 105, 30)
    assert long.hours > CAP_HOURS
    assert long.claimed_hours == CAP_HOURS
    assert not long.within_rule


def test_ripple_halves_life_every_five_degrees():
    """2^(-ΔT/5): one maker's data sheet."""
    assert life(2000, 105, 85, ripple_rise=5).hours == pytest.approx(4000)
    with pytest.raises(ValueError, match="above its rated temperature"):
        life(2000, 85, 90)
