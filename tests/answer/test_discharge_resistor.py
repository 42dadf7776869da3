"""The resistor that can be bought: its value is one that is made, and it bears what it is asked to bear."""

from __future__ import annotations

import eseries
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchlore.answer.discharge_resistor import resistor_to_buy
from benchlore.answer.peak import highest_peak
from benchlore.answer.stored_energy import voltage_after
from benchlore.quantity.parse import parse

E12 = {round(v, 6) for v in eseries.erange(eseries.E12, 1, 1e9)}


@given(st.floats(1e-7, 2e-2), st.floats(61, 1000), st.floats(0.5, 120))
def test_it_does_what_is_asked(capacitance, voltage, seconds):
    bought = resistor_to_buy(capacitance, voltage, seconds)
    assume(bought is not None)
    assert any(abs(bought.each_ohm - value) < 1e-6 * value for value in E12)
    total = bought.count * bought.each_ohm
    assert voltage_after(capacitance, voltage, total, seconds) <= 60 * (1 + 1e-9)
    assert voltage / bought.count <= bought.working_V
    assert bought.each_peak_W == pytest.approx((voltage / bought.count) ** 2 / bought.each_ohm)
    assert bought.each_peak_W <= 5 * bought.power_W
    assert bought.count * bought.each_pulse_J <= capacitance * voltage**2 / 2
    if bought.discharge.time_s > 5:
        assert bought.each_pulse_J / bought.discharge.time_s <= bought.power_W


def test_the_usual_bulk_capacitor():
    """220 µF at 400 V within 10 s: R = t/(C·ln(V/60)) = 23.96 kΩ, so 22 kΩ of E12; 400²/22000 = 7.27 W at first."""
    bought = resistor_to_buy(220e-6, 400, 10)
    assert bought is not None
    assert (bought.count, bought.each_ohm, bought.series) == (1, 22e3, "E12")
    assert bought.each_peak_W == pytest.approx(7.2727, rel=1e-4)
    assert bought.power_W >= bought.each_peak_W / 3
    assert bought.working_V >= 400
    assert "data sheet decides" in bought.source


def test_a_high_voltage_is_shared_or_refused():
    shared = resistor_to_buy(12e-6, 566, 2)
    assert shared is not None
    assert shared.count > 1
    assert resistor_to_buy(1e-6, 2970, 10) is None


def test_too_much_in_too_short_a_time_has_no_usual_resistor():
    assert resistor_to_buy(2e-2, 400, 1) is None


@pytest.mark.parametrize(
    ("written", "volts", "at_highest"),
    [
        ("325 V", 325, False),
        ("230 V ac", 357.796, True),  # 230 V + 10 % = 253 V; its peak as in the rectifier table
        ("253 V ac", 357.796, False),
        ("12 V ac", 16.971, False),
        ("300..400 V", 400, False),
        ("2100 V rms", 2969.85, False),
    ],
)
def test_peak_at_the_highest_mains(written, volts, at_highest):
    found = highest_peak(parse(written), nominal_V=230, highest_V=253)
    assert found is not None
    assert found.volts == pytest.approx(volts, abs=5e-3)
    assert found.at_highest is at_highest


def test_no_voltage_has_no_peak():
    assert highest_peak(parse("open"), nominal_V=230, highest_V=253) is None
