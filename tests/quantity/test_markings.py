"""What is printed on components, against published lists."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.quantity.markings import (
    ceramic_code,
    date_code,
    dielectric_code,
    eia96,
    marking_readings,
    resistor_code,
    voltage_code,
)
from benchlore.quantity.preferred import figures

CHECK = json.loads((Path(__file__).parents[1] / "vectors" / "check_values.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("code", "ohms"), CHECK["smd_resistor"])
def test_chip_resistors(code, ohms):
    """Number codes and EIA-96, second-hand from public lists."""
    assert marking_readings(code, "resistor")[0].quantity.value == pytest.approx(ohms, rel=1e-12)


@pytest.mark.parametrize(
    ("code", "ohms"),
    [("100", 10), ("000", 0), ("0000", 0), ("0", 0), ("R022", 0.022), ("47R", 47), ("1R00", 1)],
)
def test_number_codes_with_their_exceptions(code, ohms):
    assert resistor_code(code).value == ohms


@pytest.mark.parametrize("code", ["", "R", "12", "12345", "012", "4k7", "ABC", "４７２"])
def test_what_is_no_number_code(code):
    assert resistor_code(code) is None


@pytest.mark.parametrize(
    ("code", "ohms"),
    [
        ("01C", 10e3),
        ("10C", 12.4e3),
        ("96C", 97.6e3),
        ("68X", 49.9),
        ("30A", 200),
        ("18B", 1500),
        ("11B", 1270),
        ("12X", 13.0),
    ],
)
def test_eia96_lists(code, ohms):
    """EIA-96: a public encyclopaedia and a public label list."""
    (quantity,) = eia96(code)
    assert quantity.value == pytest.approx(ohms, rel=1e-12)
    assert (quantity.low, quantity.high) == pytest.approx((ohms * 0.99, ohms * 1.01), rel=1e-12)


def test_eia96_letters_that_lists_disagree_on():
    assert eia96("22R") == ()
    assert [quantity.value for quantity in eia96("22R", letters_r_and_s=True)] == pytest.approx([1.65, 16.5])
    assert [quantity.value for quantity in eia96("22S", letters_r_and_s=True)] == pytest.approx([16.5, 1.65])


@pytest.mark.parametrize("code", ["00A", "97A", "1A", "A01", "01G", "01I"])
def test_what_is_no_eia96_code(code):
    assert eia96(code) == ()


@given(st.integers(1, 96), st.sampled_from("ZYXABHCDEF"))
def test_eia96_is_the_e96_series(place, letter):
    power = {"Z": -3, "Y": -2, "X": -1, "A": 0, "B": 1, "H": 1, "C": 2, "D": 3, "E": 4, "F": 5}[letter]
    (quantity,) = eia96(f"{place:02}{letter}")
    assert quantity.value == pytest.approx(figures("E96")[place - 1] * 10.0**power, rel=1e-12)


def test_letter_digit_code_wins_and_the_other_reading_is_reported():
    values = [reading.quantity.value for reading in marking_readings("22R")]
    assert values == pytest.approx([22, 1.65, 16.5])
    assert [reading.quantity.value for reading in marking_readings("10R")] == pytest.approx([10, 1.24, 12.4])


@pytest.mark.parametrize(("code", "farads"), CHECK["cap_code_pF"])
def test_ceramic_codes(code, farads):
    assert ceramic_code(code).value == pytest.approx(farads, rel=1e-12)


@pytest.mark.parametrize(
    ("code", "farads", "minus", "plus"),
    [
        ("104K", 1e-7, 10, 10),
        ("103J", 1e-8, 5, 5),
        ("104Z", 1e-7, 20, 80),
        ("158", 0.15e-12, None, None),
        ("103", 1e-8, None, None),
    ],
)
def test_ceramic_codes_with_a_tolerance(code, farads, minus, plus):
    """The letter is a tolerance, neither kelvin nor kilo; 8 as the last figure (×0.01) from memory, high confidence."""
    quantity = ceramic_code(code)
    assert quantity.value == pytest.approx(farads, rel=1e-12)
    if minus is not None:
        assert (quantity.low, quantity.high) == pytest.approx((farads * (1 - minus / 100), farads * (1 + plus / 100)))


@pytest.mark.parametrize("code", ["10", "1044", "107", "104X", "000", "K104"])
def test_what_is_no_ceramic_code(code):
    assert ceramic_code(code) is None


# Second-hand from public capacitor tables; mantissas from memory, high confidence.
VOLTAGES = {"0G": 4, "0J": 6.3, "1A": 10, "1C": 16, "1E": 25, "1V": 35, "1H": 50, "2A": 100, "2D": 200, "2E": 250,
            "2H": 500, "2J": 630, "3A": 1000}  # fmt: skip


@pytest.mark.parametrize("code", VOLTAGES)
def test_voltage_codes(code):
    quantity = voltage_code(code)
    assert (quantity.value, quantity.unit, quantity.qualifier) == (VOLTAGES[code], "V", "dc")


@pytest.mark.parametrize("code", ["1B", "4A", "H1", "1", "1HH"])
def test_what_is_no_voltage_code(code):
    assert voltage_code(code) is None


@pytest.mark.parametrize(
    ("code", "low", "high", "down", "up"),
    [
        ("X7R", -55, 125, -15, 15),
        ("X5R", -55, 85, -15, 15),
        ("Y5V", -30, 85, -82, 22),
        ("Z5U", 10, 85, -56, 22),
        ("X8P", -55, 150, -10, 10),
    ],
)
def test_dielectric_codes(code, low, high, down, up):
    """EIA dielectric codes, from memory, high confidence."""
    found = dielectric_code(code)
    assert (found.low_degc, found.high_degc) == (low, high)
    assert (found.change_low_percent, found.change_high_percent) == (down, up)


def test_class_one_dielectric_is_in_parts_per_million():
    for code in ("C0G", "NP0", "npo"):
        assert dielectric_code(code).change_ppm == 30
    assert dielectric_code("X9R") is None


def test_date_codes_are_sets():
    """IEC 60062 date code, the table from memory, medium confidence: K is 1998 and 2018, month O October."""
    assert date_code("K9", latest=2026) == ((1998, 9), (2018, 9))
    assert date_code("AO") == ((1990, 10), (2010, 10), (2030, 10))
    assert date_code("K9", made=2019) == ((2018, 9),)
    assert date_code("K9", made=2004) == ((1998, 9),)
    assert date_code("AN", latest=2026) == ((1990, 11), (2010, 11))
    assert date_code("G1") == date_code("A0") == date_code("A") == ()


@given(st.text(max_size=12))
def test_any_marking_gives_readings_or_nothing(text):
    for reading in marking_readings(text):
        assert reading.because
