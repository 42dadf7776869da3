"""``benchlore value`` as a user calls it: what it prints, its JSON, its exit code."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from benchlore.cli.value import command


def run(*words: str):
    return CliRunner().invoke(command, list(words))


def test_words_need_no_quotes():
    done = run("24", "V", "±10", "%")
    assert done.exit_code == 0
    assert done.output.replace("\u00a0", " ").splitlines()[:2] == ["24 V ±10 %", "  from 21.6 V to 26.4 V"]


def test_a_leading_minus_is_no_option():
    assert json.loads(run("-12", "V", "±5", "%", "--json").output)["low"] == -12.6


def test_json_is_in_si_units():
    answer = json.loads(run("4k7", "--json").output)
    assert (answer["kind"], answer["value"], answer["unit"]) == ("value", 4700, "ohm")
    assert (answer["low"], answer["high"]) == (None, None)
    assert answer["series"] == "E3"
    assert answer["readings"][0]["value"] == 4700


def test_json_of_every_kind():
    kinds = {
        "4.7 kΩ": "value",
        "24 V ±10 %": "tolerance",
        "9..23 V": "range",
        "<50 mV p-p": "bound",
        "~3 Hz": "approx",
        "±15 V": "dual",
        "OL": "overload",
        "open": "state",
        "10 mF": "ambiguous",
        "cheese": "error",
    }
    for text, kind in kinds.items():
        done = run(text, "--json")
        answer = json.loads(done.output)
        assert answer["kind"] == kind
        assert {"value", "low", "high", "unit", "readings"} <= set(answer)
        assert done.exit_code == (1 if kind in {"ambiguous", "error"} else 0)


def test_ambiguous_shows_both_readings():
    done = run("10", "mF")
    assert done.exit_code == 1
    assert "10000\u00a0µF" in done.output
    assert "10\u00a0µF" in done.output


def test_the_component_settles_it():
    assert json.loads(run("104K", "--component", "capacitor", "--json").output)["value"] == pytest.approx(1e-7)
    assert json.loads(run("100", "--unit", "Ω", "--json").output)["unit"] == "ohm"


def test_colour_bands_and_dielectrics():
    assert json.loads(run("brown", "black", "red", "gold", "--json").output)["value"] == 1000
    assert "15 %" in run("X7R").output


def test_an_unknown_unit_is_a_wrong_call():
    done = run("5", "--unit", "furlong")
    assert done.exit_code == 2
    assert "furlong" in done.output


def test_help_has_examples():
    assert "benchlore value 4k7" in run("--help").output
