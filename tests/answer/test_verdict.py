"""Verdicts on readings: within, outside, or not to be told."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.answer.verdict import verdict
from benchlore.quantity.parse import parse

CASES = [
    # expected, reading, word, side
    ("24 V ±5 %", "24.1 V", "within", None),
    ("24 V ±5 %", "22.8 V", "within", None),
    ("24 V ±5 %", "22.7 V", "outside", "low"),
    ("24 V ±5 %", "26 V", "outside", "high"),
    ("24 V ±5 %", "24100 mV", "within", None),
    ("-12 V ±5 %", "-12.1 V", "within", None),
    ("-12 V ±5 %", "-13 V", "outside", "low"),
    ("-12 V ±5 %", "12 V", "outside", "high"),
    ("9..23 V", "23 V", "within", None),
    ("<50 mV", "50 mV", "outside", "high"),
    ("≤50 mV", "50 mV", "within", None),
    ("over 1 MΩ", "1 MΩ", "outside", "low"),
    ("≥1 MΩ", "1 MΩ", "within", None),
    ("1 µF ±10 %", "0.41 µF", "outside", "low"),
    ("1 µF ±10 %", "0.99 µF", "within", None),
    # no stated tolerance never condemns
    ("24 V", "3 V", "cannot-tell", None),
    ("~3 Hz", "30 Hz", "cannot-tell", None),
    ("24 V ±5 %", "~24 V", "within", None),
    ("24 V ±5 %", "~3 V", "cannot-tell", None),
    # swings
    ("24 V ±5 %", "swings 9..23 V", "outside", "low"),
    ("24 V ±5 %", "swings 23.5..24.5 V", "within", None),
    ("24 V ±5 %", "swings 9..40 V", "outside", None),
    ("24 V ±5 %", "swings 30..40 V", "outside", "high"),
    ("24 V ±5 %", "23.9..24.3 V", "within", None),
    ("24 V ±5 %", "drifting", "cannot-tell", None),
    ("24 V ±5 %", "swings", "cannot-tell", None),
    # readings that are intervals themselves
    ("over 1 MΩ", "over 200 MΩ", "within", None),
    ("over 1 MΩ", "over 1 MΩ", "within", None),
    ("over 1 MΩ", "≥1 MΩ", "cannot-tell", None),
    ("over 1 MΩ", "over 500 kΩ", "cannot-tell", None),
    ("over 1 MΩ", "<1 MΩ", "outside", "low"),
    ("under 0.1 Ω", "under 0.2 Ω", "cannot-tell", None),
    ("under 0.1 Ω", "over 0.2 Ω", "outside", "high"),
    ("under 0.1 Ω", "≥0.1 Ω", "outside", "high"),
    ("24 V ±5 %", "24.1 V ±0.1 V", "within", None),
    ("24 V ±5 %", "22.8 V ±0.1 V", "cannot-tell", None),
    # over-range, open, short
    ("100 Ω ±5 %", "OL", "outside", "high"),
    ("100 Ω ±5 %", "open", "outside", "high"),
    ("100 Ω ±5 %", "short", "outside", "low"),
    ("over 1 MΩ", "open", "within", None),
    ("over 1 MΩ", "short", "outside", "low"),
    ("over 200 MΩ", "OL", "cannot-tell", None),
    ("under 0.5 Ω", "open", "outside", "high"),
    ("under 0.5 Ω", "short", "within", None),
    ("0.6 V ±0.1 V", "short", "outside", "low"),
    ("1 µF ±10 %", "open", "outside", "low"),
    ("1 µF ±10 %", "short", "outside", None),
    ("65 kHz ±5 %", "no pulses", "outside", "low"),
    ("5 V ±5 %", "open", "cannot-tell", None),
    ("OL", "OL", "within", None),
    ("OL", "open", "within", None),
    ("OL", "0.3 Ω", "outside", "low"),
    ("open", "short", "outside", "low"),
    ("short", "open", "outside", "high"),
    ("short", "short", "within", None),
    ("short", "0.3 Ω", "cannot-tell", None),
    ("no pulses", "no pulses", "within", None),
    # what cannot be compared
    ("24 V ±5 %", "24 A", "cannot-tell", None),
    ("24 V ±5 %", "24", "cannot-tell", None),
    ("<50 mV p-p", "12 mV rms", "cannot-tell", None),
    ("<50 mV p-p", "12 mV", "within", None),
    ("230 V ac ±10 %", "228 V rms", "within", None),
    ("230 V ac ±10 %", "228 V dc", "cannot-tell", None),
    ("±15 V", "15 V", "cannot-tell", None),
    ("15 V ±5 %", "±15 V", "cannot-tell", None),
]


@pytest.mark.parametrize(("expected", "reading", "word", "side"), CASES)
def test_verdicts(expected, reading, word, side):
    """Facts of the trade, common practice, no source."""
    found = verdict(parse(expected), parse(reading))
    assert (found.word, found.side) == (word, side)
    assert found.text


@pytest.mark.parametrize(
    ("reading", "uncertainty", "word", "probability"),
    [
        ("5.10 V", 0.05, "within", 1.0),
        ("5.21 V", 0.04605, "cannot-tell", 0.933773),
        ("5.25 V", 0.05, "cannot-tell", 0.5),
        ("5.40 V", 0.05, "outside", 0.0),
        ("5.25 V", 0, "within", None),
    ],
)
def test_the_meter_has_its_say(reading, uncertainty, word, probability):
    """u = Δ/√3 and the normal probability of JCGM 106; 5.21 V on 0.5 % + 2 counts is a computed check value."""
    found = verdict(parse("5 V ±5 %"), parse(reading), uncertainty=uncertainty)
    assert found.word == word
    assert found.probability == (None if probability is None else pytest.approx(probability, abs=5e-7))


def test_a_swing_near_the_limit_is_not_to_be_told():
    found = verdict(parse("24 V ±5 %"), parse("swings 22.7..24 V"), uncertainty=0.2)
    assert found.word == "cannot-tell"


def test_over_range_proves_a_lower_limit_when_the_meter_reaches_that_far():
    limit, reading = parse("over 1 MΩ"), parse("OL")
    assert verdict(limit, reading, full_scale=40e6).word == "within"
    assert verdict(limit, reading, full_scale=400e3).word == "cannot-tell"
    assert verdict(parse("100 kΩ ±5 %"), reading, full_scale=40e3).word == "cannot-tell"
    assert verdict(parse("10 kΩ ±5 %"), reading, full_scale=40e3).word == "outside"


def test_the_text_gives_the_figures():
    assert verdict(parse("24 V ±5 %"), parse("22.7 V")).text.replace("\u00a0", " ") == "22.7 V is below 22.8 V"
    within = verdict(parse("24 V ±5 %"), parse("24.1 V")).text.replace("\u00a0", " ")
    assert within == "24.1 V against 24 V ±5 % (22.8 V to 25.2 V)"


@given(st.floats(-50, 50), st.floats(-50, 0), st.floats(0, 50), st.floats(0, 5))
def test_more_uncertainty_never_makes_a_verdict_surer(value, low, high, uncertainty):
    expected, reading = parse(f"{low:.3f}..{high:.3f} V"), parse(f"{value:.3f} V")
    plain, unsure = verdict(expected, reading), verdict(expected, reading, uncertainty=uncertainty)
    assert unsure.word in {plain.word, "cannot-tell"}
    assert plain.word == ("within" if expected.low <= reading.value <= expected.high else "outside")
