"""``benchlore verdict``, with a published-style worked case: GUM type B uncertainty and ILAC-G8 decisions."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.acceptance.command import run

SHOP = """\
name: Test bench
currency: EUR
supply: {voltage: 230 V, highest: 253 V, frequency: 50 Hz}
instruments:
  three-digit:
    label: three-digit meter
    counts: 999
    accuracy: {dc-voltage: 0.5 % + 2, ac-voltage: 1 % + 4}
"""


@pytest.fixture
def base(tmp_path: Path) -> Path:
    (tmp_path / "site_config").mkdir()
    (tmp_path / "site_config" / "shop.yaml").write_text(SHOP)
    return tmp_path


def test_the_worked_case(base: Path) -> None:
    """5.21 V read with ±(0.5 % + 2 of 0.01 V) against 5 V ±5 %: computed with the GUM's rectangular u = Δ/√3 and
    checked with suncal: Δ .04605, u .026587, p .933773; pass by simple acceptance, conditional pass with w = U."""
    ran = run("verdict", "5 V ±5 %", "5.21 V", "--instrument", "three-digit", "--json", cwd=base)
    answer = json.loads(ran.out)
    assert answer["half_width"] == pytest.approx(0.04605)
    assert answer["standard_uncertainty"] == pytest.approx(0.026587, abs=1e-6)
    assert answer["probability_of_conformity"] == pytest.approx(0.933773, abs=1e-6)
    assert answer["decisions"]["simple"]["decision"] == "pass"
    assert answer["decisions"]["ilac-g8"]["decision"] == "conditional-pass"
    assert answer["verdict"] == "cannot-tell"
    assert ran.code == 1


def test_the_kind_of_current_picks_the_accuracy(base: Path) -> None:
    ran = run("verdict", "230 V ac ±10 %", "230 V ac", "--instrument", "three-digit", "--json", cwd=base)
    answer = json.loads(ran.out)
    assert answer["quantity"] == "ac-voltage"
    assert answer["half_width"] == pytest.approx(2.3 + 4)
    assert (ran.code, answer["verdict"]) == (0, "within")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["5 V", "4,7k"], "READING"),
        (["5 V ±5 %", "5 V", "--instrument", "scope"], "three-digit"),
        (["1 kΩ ±5 %", "1 kΩ", "--instrument", "three-digit"], "--quantity"),
    ],
)
def test_what_cannot_be_judged_is_said(words: list[str], told: str, base: Path) -> None:
    ran = run("verdict", *words, cwd=base)
    assert ran.code == 2
    assert told in ran.err
    assert "Traceback" not in ran.err


def test_without_a_meter_it_needs_no_base(tmp_path: Path) -> None:
    ran = run("verdict", "24 V ±5 %", "22.7V", "--explain", cwd=tmp_path)
    assert ran.code == 1
    assert ran.out.startswith("outside, too low")
