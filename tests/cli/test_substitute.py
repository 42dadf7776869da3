"""``benchlore substitute`` as it is typed."""

from __future__ import annotations

import json

from click.testing import CliRunner

from benchlore import data
from benchlore.cli.substitute import command

DEMO = str(data.folder("entries").parent)


def run(*words: str):
    return CliRunner().invoke(command, words)


def test_two_parts_in_words() -> None:
    done = run("--class", "mosfet", "N channel, VDSS 500 V, RDS(on) 0.85 Ω", "N channel, VDSS 600 V, RDS(on) 1 Ω")
    assert done.exit_code == 0
    assert done.output.startswith("With care\n  loses      On resistance: 1\u00a0Ω in place of 0.85\u00a0Ω")
    assert "data sheets and the maker's documents come first" in done.output


def test_another_kind_of_part_for_machines() -> None:
    words = ("--class", "y-capacitor", "--by", "x-capacitor", "4.7 nF, Y2, 250 V ac", "4.7 nF, X2, 275 V ac", "--json")
    done = run(*words)
    told = json.loads(done.output)
    assert done.exit_code == 1
    assert (told["answer"], told["safety_critical"]) == ("no", True)
    assert told["reasons"][0]["judgement"] == "worse"
    assert told["original"]["ratings"] == {"capacitance": "4.7 nF", "safety-class": "Y2", "ac-voltage": "250 V ac"}


def test_against_what_was_fitted() -> None:
    done = run("--base", DEMO, "--class", "x-capacitor", "1 µF, 275 V ac, X2, pitch 27.5 mm")
    assert done.exit_code == 0
    assert "fitted in bw-12-relay-chatters" in done.output
    assert "may not stand in" in done.output
    told = json.loads(run("--base", DEMO, "--class", "x-capacitor", "1 µF, 275 V ac, X2", "--json").output)
    assert told["total"] == len(told["parts"]) > 3


def test_an_unknown_kind_is_told_with_what_was_meant() -> None:
    done = run("--class", "mosfett", "1 A", "2 A")
    assert done.exit_code == 1
    assert "mosfett" in str(done.exception)
    assert "mosfet" in done.exception.hint
