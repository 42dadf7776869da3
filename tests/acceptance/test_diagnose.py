"""``benchlore diagnose`` as it is typed."""

from __future__ import annotations

import json
import math

from click.testing import CliRunner

from benchlore.cli import group
from tests.acceptance.command import REPOSITORY, run

CAUTION = "A ranking is no substitute for measurement, isolation, and licensed practice where required."


def test_plain_words_give_causes_the_next_step_and_the_caution() -> None:
    done = run("diagnose", "BW-12 relay chatters,", "display dim, 24 V rail", "reads 15, fuse ok")
    assert done.code == 0, done.err
    assert "X capacitor, capacitance too low (low-voltage supply)" in done.out
    assert "1. Disconnect the load, or measure the rail's resistance with power off" in done.out
    assert "bw-12-relay-chatters" in done.out
    assert "nine in ten up to" in done.out
    assert CAUTION in done.out


def test_json_has_stable_keys_and_probabilities_that_sum_to_one() -> None:
    done = run("diagnose", "--model", "BW-16", "--symptom", "dim-display", "--not-seen", "blown-fuse", "--json")
    answer = json.loads(done.out)
    assert {"causes", "next_step", "estimate", "caution", "read_as"} <= set(answer)
    assert math.isclose(math.fsum(cause["probability"] for cause in answer["causes"]), 1.0, abs_tol=1e-9)
    assert sum(cause["not_seen_before"] for cause in answer["causes"]) == 1
    assert {
        "block", "component_class", "failure_mode", "not_seen_before", "probability", "entries", "evidence",
    } <= set(answer["causes"][0])  # fmt: skip
    assert answer["read_as"]["boards"] == ["BWC-02"]
    assert answer["estimate"]["minutes"]["p50"] < answer["estimate"]["minutes"]["p90"]


def test_a_class_without_entries_says_that_it_rests_on_none() -> None:
    done = run("diagnose", "--class", "electric-blanket", "--symptom", "no-heat")
    assert done.code == 0, done.err
    assert "this rests on none" in done.out
    assert "Half-split" in done.out
    assert CAUTION in done.out


def test_a_case_unlike_anything_leads_with_not_seen_before() -> None:
    symptoms = ("--symptom", "paper-jam", "--symptom", "skipped-stitches")
    done = run("diagnose", "--class", "dehumidifier", *symptoms, "--json")
    assert json.loads(done.out)["causes"][0]["not_seen_before"] is True


def test_contradictory_evidence_is_named() -> None:
    tests = [f"voltage-check low-voltage-supply {outcome}" for outcome in ("normal", "abnormal")]
    done = run("diagnose", "--class", "dehumidifier", "--test", tests[0], "--test", tests[1])
    assert "Contradiction: voltage check (low voltage supply) came out both normal and abnormal" in done.out


def test_what_is_missing_or_mistyped_is_said() -> None:
    assert "what kind of equipment" in run("diagnose", "hums").err
    typo = run("diagnose", "--class", "dehumidifier", "--symptom", "relay-chattr")
    assert (typo.code, "relay-chatter?" in typo.err) == (2, True)
    assert "Examples" in run("diagnose", "--help").out


def test_measured_quality_of_the_demo_base_is_printed_by_one_command() -> None:
    done = run("evaluate", "diagnosis")
    assert done.code == 0, done.err
    assert "each from all others, deep classes" in done.out
    assert "how often it was right" in done.out
    rows = json.loads(run("evaluate", "diagnosis", "--json").out)
    assert {row["way"] for row in rows} == {"each from all others", "in date order"}
    assert all(0 <= row["top_1"] <= row["top_3"] <= 1 for row in rows)


def test_the_dialogue_asks_and_takes_dont_know_for_an_answer() -> None:
    done = CliRunner().invoke(
        group, ["diagnose", "BW-16 display dim", "--ask", "--base", str(REPOSITORY)], input="n\n\nq\n"
    )
    assert done.exit_code == 0, done.output
    assert done.output.count("seen? [y/n, Enter: don't know, q: enough]") == 3
    assert "not there: " in done.output
    assert CAUTION in done.output


def test_a_repair_worth_next_to_nothing_is_handed_back() -> None:
    done = run("diagnose", "--class", "dehumidifier", "--symptom", "dim-display", "--worth", "0.01")
    assert "Hand back unrepaired" in done.out
