"""The colour code, both ways, against published rows of bands."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.quantity.colours import COLOURS, band_names, bands_for, read_bands
from benchlore.quantity.model import QuantityError
from benchlore.quantity.preferred import figures

CHECK = json.loads((Path(__file__).parents[1] / "vectors" / "check_values.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("bands", "ohms", "percent"), CHECK["colour"])
def test_published_rows(bands, ohms, percent):
    first = read_bands(bands)[0]
    assert first.quantity.value == pytest.approx(ohms, rel=1e-12)
    assert first.tolerance_percent == percent
    assert not first.reversed


@pytest.mark.parametrize(
    ("bands", "ohms", "percent", "tcr"),
    [
        ("brown black black gold brown", 10, 1, None),
        ("yellow violet black red brown", 47e3, 1, None),
        ("orange white black orange brown red", 390e3, 1, 50),
    ],
)
def test_rows_of_five_and_six(bands, ohms, percent, tcr):
    """Public resistor tables."""
    readings = {(reading.quantity.value, reading.tolerance_percent, reading.tcr_ppm) for reading in read_bands(bands)}
    assert (ohms, percent, tcr) in readings


def test_a_row_may_be_held_the_wrong_way_round():
    assert read_bands("gold red violet yellow")[0].quantity.value == 4700
    assert read_bands("gold red violet yellow")[0].reversed


def test_both_directions_are_given_when_both_are_preferred():
    readings = read_bands("brown black black red brown")
    assert {(reading.quantity.value, reading.reversed) for reading in readings} == {(10e3, False), (120, True)}
    assert not readings[0].reversed


def test_a_value_outside_the_series_gives_way():
    assert [reading.quantity.value for reading in read_bands("red violet green yellow")] == [2.7e6, 2.7e6]
    # Backwards that is 45 and 7 noughts, a red tolerance: 450 MΩ, which no series holds.


def test_lists_that_disagree_are_both_given():
    """Grey: 0.01 % in newer lists, 0.05 % in older ones; 10 % on high-voltage parts (public tables)."""
    readings = read_bands("brown black black red grey")
    forwards = [reading for reading in readings if not reading.reversed]
    by_list = {name: reading.tolerance_percent for reading in forwards for name in reading.lists}
    assert by_list["newer lists"] == 0.01
    assert by_list["older lists"] == 0.05
    assert by_list["high-voltage parts without metal in the lacquer"] == 10


def test_yellow_on_a_high_voltage_part_is_five_per_cent():
    """A 2.7 MΩ metal-glaze resistor ends in yellow: ±5 %, not ±0.02 % (public maker's table)."""
    readings = read_bands("red violet green yellow")
    assert {reading.tolerance_percent for reading in readings if reading.quantity.value == 2.7e6} == {5, 0.02}


@pytest.mark.parametrize("words", ["brown", "brown black", "brown black red gold gold gold gold", "brown tea", ""])
def test_what_is_no_row_of_bands(words):
    with pytest.raises(QuantityError):
        read_bands(words)


def test_no_resistor_has_metal_at_both_ends():
    with pytest.raises(QuantityError, match="no resistor"):
        read_bands("gold red violet silver")


def test_names_and_codes_of_colours():
    """Two-letter codes of IEC 60757, from memory, high confidence."""
    assert band_names("BN-BK-RD-GD") == ("brown", "black", "red", "gold")
    assert band_names("Purple, gray") == ("violet", "grey")
    assert band_names("mauve") is None


def test_bands_of_a_value():
    assert bands_for(4700) == ("yellow", "violet", "red", "gold")
    assert bands_for(390e3, figures=3, tolerance_percent=1, tcr_ppm=50) == (
        "orange", "white", "black", "orange", "brown", "red",
    )  # fmt: skip
    assert bands_for(0.1, tolerance_percent=20) == ("brown", "black", "silver")


@pytest.mark.parametrize(
    ("value", "asked"),
    [
        (4990, {}),
        (0, {}),
        (1e15, {}),
        (4700, {"tolerance_percent": 7}),
        (4700, {"tcr_ppm": 50}),
        (4700, {"figures": 4}),
    ],
)
def test_values_that_have_no_bands(value, asked):
    with pytest.raises(ValueError, match=r"figures|colour"):
        bands_for(value, **asked)


@given(st.sampled_from(figures("E24")), st.integers(-2, 6), st.sampled_from([1, 2, 5, 10]))
def test_a_value_written_in_bands_is_read_again(figure, power, percent):
    value = float(f"{figure}e{power}")
    readings = read_bands(" ".join(bands_for(value, tolerance_percent=percent)))
    assert any(
        reading.quantity.value == value and reading.tolerance_percent == percent and not reading.reversed
        for reading in readings
    )


@given(st.lists(st.sampled_from(COLOURS), min_size=3, max_size=6))
def test_any_row_is_read_or_refused(names):
    try:
        readings = read_bands(" ".join(names))
    except QuantityError:
        return
    assert readings
    assert len({reading.preferred for reading in readings}) == 1
    for reading in readings:
        assert reading.quantity.low < reading.quantity.value < reading.quantity.high
