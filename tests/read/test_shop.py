"""The shop's configuration: what it says, what a meter's accuracy comes to, and errors with their place."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from benchlore.read.base import Base
from benchlore.read.shop import Accuracy, Shop, ShopError, last_digit, read_shop

REPOSITORY = Path(__file__).parents[2]
SAMPLE = REPOSITORY / "tests" / "sample_base"


def shop(tmp_path: Path, text: str) -> Shop:
    path = tmp_path / "shop.yaml"
    path.write_text(text, encoding="utf-8")
    return read_shop(path, "site_config/shop.yaml")


def test_the_sample_shop() -> None:
    sample = Base(SAMPLE).shop
    assert (sample.name, sample.currency, sample.labour_rate) == ("Sample bench", "GBP", Decimal(24))
    assert (sample.supply.voltage, sample.supply.highest, sample.supply.frequency) == (230.0, 253.0, 50.0)
    assert sample.instruments["dmm"].accuracy["dc-voltage"] == Accuracy(percent=0.5, counts=2)
    assert sample.site_url == "https://bench.example.org/repairs/"


def test_the_demo_shop() -> None:
    demo = Base(REPOSITORY).shop
    assert (demo.name, demo.currency) == ("Millrace workshop", "EUR")
    vocabulary = Base(REPOSITORY).vocabulary
    for instrument in demo.instruments.values():
        assert [quantity for quantity in instrument.accuracy if vocabulary.get("quantity", quantity) is None] == []
    assert [test for test in demo.safety_limits if vocabulary.get("test", test) is None] == []


def test_every_instrument_of_the_demo_entries_is_in_the_shop() -> None:
    base = Base(REPOSITORY)
    used = {m.instrument for record in base.records() for m in record.entry.measurements if m.instrument}
    assert used - set(base.shop.instruments) == set()


def test_little_is_needed(tmp_path: Path) -> None:
    assert shop(tmp_path, "name: Bench\n").currency == "EUR"


def test_safety_limits_by_class_of_protection() -> None:
    limits = Base(SAMPLE).shop.safety_limits["insulation-check"]
    one, two = limits.for_protection("I"), limits.for_protection("II")
    assert one is not None
    assert two is not None
    assert (one.low, one.unit) == (1e6, "ohm")
    assert two.low == 2e6
    assert limits.for_protection("III") is None
    assert limits.for_protection(None) is None


@pytest.mark.parametrize(
    ("value", "counts", "digit"),
    [
        (24.1, 4000, 0.01),
        (230.0, 4000, 0.1),
        (3.999, 4000, 0.001),
        (4.001, 4000, 0.01),
        (5.9, 6000, 0.001),
        (0.99e-6, 4000, 1e-9),
        (4700.0, 4000, 10.0),
        (1e6, 6000, 1000.0),
        (-12.0, 6000, 0.01),
    ],
)
def test_the_last_digit_of_a_display(value: float, counts: int, digit: float) -> None:
    """A display of N counts shows a reading in the lowest decade range that holds it (common practice, no source)."""
    assert last_digit(value, counts) == pytest.approx(digit)


def test_the_uncertainty_of_a_reading(tmp_path: Path) -> None:
    """±(0.5 % + 2) on 24.10 V of a 4000-count meter: 0.1205 V and two hundredths (worked by hand)."""
    made = shop(
        tmp_path,
        "name: x\ninstruments:\n"
        "  a: {label: meter, counts: 4000, accuracy: {dc-voltage: 0.5 % + 2, temperature: 1 % + 2 °C}}\n"
        "  b: {label: gauge, accuracy: {length: 0.03 mm, dc-voltage: ±(3 %)}}\n",
    )
    meter, gauge = made.instruments["a"], made.instruments["b"]
    assert meter.uncertainty("dc-voltage", 24.10) == pytest.approx(0.1405)
    assert meter.uncertainty("dc-voltage", -24.10) == pytest.approx(0.1405)
    assert meter.uncertainty("dc-voltage", 0.0) == 0.0
    assert meter.uncertainty("temperature", 50.0) == pytest.approx(2.5)
    assert meter.uncertainty("resistance", 50.0) is None
    assert gauge.uncertainty("length", 0.008) == pytest.approx(0.03e-3)
    assert gauge.uncertainty("dc-voltage", 10.0) == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("name: x\ncurency: EUR\n", "2:1", "curency"),
        ("currency: EUR\n", "1:1", "name is missing"),
        ("name: x\ncurrency: euro\n", "2:11", "currency"),
        ("name: x\nlabour_rate: much\n", "2:14", "labour_rate"),
        ("name: x\nlabour_rate: -1\n", "2:14", "at least 0"),
        ("name: x\nsupply: {voltage: 50 Hz, highest: 253 V, frequency: 50 Hz}\n", "2:19", "voltage"),
        ("name: x\nsupply: {voltage: lots, highest: 253 V, frequency: 50 Hz}\n", "2:19", "voltage"),
        ("name: x\nsupply: {voltage: 230 V}\n", "2:1", "highest is missing"),
        ("name: x\ninstruments: {a: {label: b, accuracy: {dc-voltage: good}}}\n", "2:52", "reads like 0.5 %"),
        ("name: x\ninstruments: {a: {label: b, counts: many}}\n", "2:37", "counts"),
        ("name: x\nsafety_limits: {insulation-check: {I: fine}}\n", "2:39", "I"),
        ("name: x\nsite_url: javascript:alert(1)\n", "2:11", "site_url"),
        ("name: x\nlanguage: English\n", "2:11", "language"),
        ("name: x: y\n", "1:7", "second colon"),
        ("a: &a [x]\nb: *a\n", "1:4", "anchor"),
        ("", "1:1", "empty"),
    ],
)
def test_errors_have_their_place(tmp_path: Path, text: str, place: str, words: str) -> None:
    with pytest.raises(ShopError) as caught:
        shop(tmp_path, text)
    assert str(caught.value).startswith(f"site_config/shop.yaml:{place}: ")
    assert f"{caught.value.line}:{caught.value.column}" == place
    assert words in str(caught.value)
    assert caught.value.problems


def test_a_shop_that_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "shop.yaml"
    path.write_bytes(b"name: \xff\n")
    with pytest.raises(ShopError, match="UTF-8"):
        read_shop(path, "shop.yaml")
    path.unlink()
    path.mkdir()
    with pytest.raises(ShopError, match="ordinary file"):
        read_shop(path, "shop.yaml")
