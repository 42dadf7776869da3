"""How figures and dates are worded."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest

from benchlore.publish.wording import capital, count, day, inside, listed, minutes, money, totals, unbroken
from benchlore.read.fields import Money


def plain(text: str) -> str:
    return (
        text.replace("\N{NO-BREAK SPACE}", "_")
        .replace("\N{NARROW NO-BREAK SPACE}", "'")
        .replace("\N{WORD JOINER}", "~")
    )


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("below 0.9 µF", "below 0.9_µF"),
        ("24 V ±5 %", "24_V ±5_%"),
        ("310 V ac", "310_V_ac"),
        ("5 V p-p at 3 A", "5_V_p-~p at 3_A"),
        ("9…23 V", "9…~23_V"),
        ("wait 10 min, then", "wait 10_min, then"),
        ("4.7 kΩ", "4.7_kΩ"),
        ("2 Volkswagens", "2 Volkswagens"),
        ("pin 3 at the edge", "pin 3 at the edge"),
        ("no figures", "no figures"),
    ],
)
def test_number_and_unit_stay_together(text: str, kept: str) -> None:
    assert plain(unbroken(text)) == kept


@pytest.mark.parametrize(
    ("number", "text"), [(1, "1_minute"), (35, "35_minutes"), (7.5, "7.5_minutes"), (120, "2_h"), (150, "2_h_30_min")]
)
def test_minutes(number: float, text: str) -> None:
    assert plain(minutes(number)) == text


def test_money_is_summed_by_currency() -> None:
    prices = [(Money(Decimal("1.10"), None), 2), (Money(Decimal("3.00"), "USD"), 1), (Money(Decimal("0.35"), "EUR"), 1)]
    assert plain(totals(prices, "EUR") or "") == "2.55_€ + 3.00_$"
    assert totals([], "EUR") is None
    assert plain(money(Decimal(3), "CHF")) == "3.00_CHF"


def test_counts_and_days() -> None:
    assert plain(count(1, "repair")) == "1_repair"
    assert plain(count(12345, "repair")) == "12'345_repairs"
    assert plain(day(dt.date(2026, 5, 3))) == "3_May_2026"


@pytest.mark.parametrize(
    ("label", "text"),
    [("Fuse blown", "fuse blown"), ("X capacitor", "X capacitor"), ("LED", "LED"), ("ESR check", "ESR check")],
)
def test_labels_inside_a_sentence(label: str, text: str) -> None:
    assert inside(label) == text


@pytest.mark.parametrize(
    ("text", "told"),
    [("ripple", "Ripple"), ("mA through R1", "mA through R1"), ("µF", "µF"), ("i2c bus", "i2c bus"), ("", "")],
)
def test_capitals_never_change_a_unit(text: str, told: str) -> None:
    assert capital(text) == told


def test_lists() -> None:
    assert [listed(x) for x in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == ["", "a", "a and b", "a, b and c"]
