"""Published thresholds: every figure has its source, those from memory say so, and what exceeds them is found."""

from __future__ import annotations

import pytest

from benchlore.answer.thresholds import exceeded, thresholds


def test_every_threshold_names_its_source():
    for threshold in thresholds():
        assert len(threshold.source) > 10
        assert threshold.figure > 0
        assert threshold.above_V < threshold.up_to_V


def test_no_quantity_rests_on_memory_alone():
    seen = {t.quantity for t in thresholds() if not t.memory}
    assert seen == {t.quantity for t in thresholds()} == {"voltage", "capacitance", "charge", "energy"}


@pytest.mark.parametrize(
    ("capacitance", "voltage", "found", "not_found"),
    [
        # IEC 60335-1 8.1.4 and IEC 60950-1 2.4, at second hand: 0.1 µF up to 450 V, 45 µC up to 15 kV, 350 mJ above.
        (0.22e-6, 373.35, {"touch-capacitance", "machinery-charge"}, {"touch-charge", "touch-energy"}),
        (0.1e-6, 325, set(), {"touch-capacitance", "touch-charge"}),
        (46e-9, 1000, {"touch-charge"}, {"touch-capacitance", "machinery-charge"}),
        (2e-9, 25e3, {"touch-energy", "reflex"}, {"touch-capacitance"}),
        (1.1e-9, 25e3, set(), {"touch-energy"}),
        # LBNL electrical safety manual: 10 J at 100 V and more is reached at 125 µF, 400 V.
        (126e-6, 400, {"capacitor-shock"}, {"capacitor-arc", "thermal"}),
        (124e-6, 400, {"machinery-charge"}, {"capacitor-shock"}),
        (98.8e-6, 450, {"capacitor-shock"}, set()),
        (2001e-6, 100, {"capacitor-shock"}, set()),
        (100e-3, 50, {"thermal"}, {"capacitor-shock", "selv-dc"}),
        # Department of Energy hazard classes, at second hand: 0.25 J above 400 V is reached at 3.125 µF, 400 V.
        (3.2e-6, 401, {"reflex"}, set()),
        (10e-6, 60, {"accessible-peak"}, {"selv-dc", "es1-dc"}),
    ],
)
def test_what_is_exceeded(capacitance, voltage, found, not_found):
    ids = {e.threshold.id for e in exceeded(capacitance, voltage)}
    assert found <= ids
    assert not not_found & ids


def test_what_was_seen_in_a_source_stands_first():
    memory = [e.threshold.memory for e in exceeded(220e-6, 400)]
    assert memory == sorted(memory)
    assert memory[0] is False


def test_a_small_charge_exceeds_nothing():
    assert exceeded(1e-6, 12) == ()
