"""``benchlore discharge`` as it is typed: figures of published tables, rounding, and what it never says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from benchlore.cli.discharge import command


def run(*words: str, cwd: Path | None = None):
    return CliRunner().invoke(command, words)


def test_a_bulk_capacitor_in_words() -> None:
    text = run("220uF", "400V", "--bleeder", "100k").output.replace("\u00a0", " ")
    assert text.splitlines()[0] == "220 µF at 400 V"
    assert "measure it, proving the meter before and after" in text.splitlines()[1]
    assert "holds 17.6 J (88 mC)" in text
    assert "with the bleeder open and the load dead: it stays charged" in text
    assert "with the 100 kΩ bleeder working: below 60 V after 41.7 s, 1.6 W at first" in text
    assert "to buy: 22 kΩ (E12), metal oxide film, 3 W, working voltage 500 V or more" in text
    assert "[from memory]" in text
    assert "IEC 60335-1" in text


@pytest.mark.parametrize(
    ("words", "expected"),
    [  # E = CV²/2, Q = CV, t = RC·ln(V/V1), P = V²/R: computed by hand, 2970 V case from a published oven circuit
        (("470uF", "400V", "--bleeder", "100k"), {"energy": 37.6, "charge": 0.188, "time": 89.1646}),
        (("470uF", "400V", "--bleeder", "2.2k"), {"time": 1.96162, "bleeder_power": 72.727}),
        (("220uF", "400V", "--bleeder", "1k", "--below", "50V"), {"time": 0.457477, "bleeder_power": 160}),
        (("100uF", "330V", "--bleeder", "10k"), {"energy": 5.445, "time": 1.70475, "bleeder_power": 10.89}),
        (("1uF", "2970V", "--bleeder", "10M"), {"time": 39.0197, "bleeder_power": 0.88209}),
        (("470uF", "400V", "--within", "5s"), {"resistor": 5607.7, "peak_power": 28.53}),
        (("0.22uF", "373.352V", "--bleeder", "1M"), {"time": 0.402199, "bleeder_power": 0.139392}),
    ],
)
def test_figures_for_machines(words, expected) -> None:
    told = json.loads(run(*words, "--json").output)
    for key, value in expected.items():
        assert told[key] == pytest.approx(value, rel=2e-4), key
    assert told["stays_charged_with_bleeder_open"] is True
    assert told["time_bleeder_open"] is None


def test_the_mains_is_taken_at_its_highest() -> None:
    for written in ("mains", "230 V ac"):
        told = json.loads(run("1uF", written, "--json").output)
        assert told["voltage"] == pytest.approx(357.796, abs=1e-3)
        assert told["from_rms"] == 253


def test_high_voltage_is_handed_on() -> None:
    text = run("1uF", "2970V").output.replace("\u00a0", " ")
    assert "people trained and equipped" in text
    assert "to buy" not in text
    assert "at most" not in text


def test_low_voltage_burns() -> None:
    assert "a short circuit can still burn" in run("4700uF", "35V").output


@pytest.mark.parametrize("words", [("220uF", "400V"), ("1uF", "mains"), ("1uF", "2970V"), ("22000uF", "12V")])
def test_it_never_promises_safety(words) -> None:
    for text in (run(*words).output, run(*words, "--json").output):
        assert "safe" not in text.lower().replace("electrical safety manual", "")


WRONG = [("10mF", "63V"), ("220uF", "open"), ("0uF", "5V"), ("220uF", "400V", "--within", "3h")]


@pytest.mark.parametrize("words", WRONG)
def test_what_cannot_be_computed_is_said(words) -> None:
    done = run(*words)
    assert done.exit_code != 0
    assert type(done.exception).__name__ == "BenchloreError"
