"""The phrase recogniser's rules, on a small vocabulary of its own."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.terms.model import FailureMode, Symptom, Term
from benchlore.terms.recogniser import Recogniser


def _symptom(label: str, *phrases: str) -> Term:
    return Symptom(label=label, definition="For a test.", phrases=phrases, group="test")


RECOGNISER = Recogniser(
    {
        "symptom": {
            "no-power": _symptom("No power", "won't turn on", "completely dead"),
            "blown-fuse": _symptom("Blown fuse", "fuse blown", "fuse has gone"),
            "hum": _symptom("Hum", "hums"),
            "loud-hum": _symptom("Loud hum"),
            "old-name": Symptom(label="Old name", definition="For a test.", group="test", replaced_by="hum"),
            "cracked-screen": _symptom("Screen cracked"),
            "starts-then-dies": _symptom("Starts then stops"),
            "motor-dead": _symptom("Motor dead"),
            "print-streaks": _symptom("Streaks in the print", "streaks"),
            "leaks-water": _symptom("Leaks water", "Leaks."),
            "burnt-smell": _symptom("Burnt smell", "smell of burning", "burning smell"),
        }
    }
)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Won't turn on", [("no-power", False)]),
        ("it will not turn on", [("no-power", False)]),
        ("never turns on", [("no-power", False)]),
        ("turns on", []),
        ("wont turn on, hums", [("no-power", False), ("hum", False)]),
        ("a loud hum", [("loud-hum", False)]),
        ("fuse not blown", [("blown-fuse", True)]),
        ("the fuse is not blown", [("blown-fuse", True)]),
        ("no blown fuse", [("blown-fuse", True)]),
        ("fuse is blown", [("blown-fuse", False)]),
        ("no sign of burning smell", [("burnt-smell", True)]),
        ("no power", [("no-power", False)]),
        ("doesn't hum", [("hum", True)]),
        ("no power, hum", [("no-power", False), ("hum", False)]),
        ("old name", [("hum", False)]),
        # words of one meaning, and words between
        ("the kettle has conked out, completely kaput", [("no-power", False)]),
        ("I turn the thing on and then it cuts out", [("starts-then-dies", False)]),
        ("smashed the LCD", [("cracked-screen", False)]),
        ("the display is badly shattered", [("cracked-screen", False)]),
        ("screen fine. Cracked foot", []),
        ("the screen or the old grey upper rear case cracked", []),
        ("it refuses to turn on", [("no-power", False)]),
        ("no fuse has ever blown", [("blown-fuse", True)]),
        ("motor OK", [("motor-dead", True)]),
        ("no lines or streaks", [("print-streaks", True)]),
        ("lines or streaks", [("print-streaks", False)]),
        # a phrase with a full stop is a clause of its own
        ("Leaks.", [("leaks-water", False)]),
        ("Not noisy, not leaking", [("leaks-water", True)]),
        ("leaks oil", []),
    ],
)
def test_what_is_recognised(text: str, expected: list[tuple[str, bool]]) -> None:
    assert [(found.id, found.negated) for found in RECOGNISER.find_in(text)] == expected


def test_places_point_into_the_text() -> None:
    text = "Since Monday it WON'T turn on at all"
    (found,) = RECOGNISER.find_in(text)
    assert text[found.start : found.end] == "WON'T turn on"


def test_other_kinds_are_read_word_for_word() -> None:
    terms: dict[str, dict[str, Term]] = {
        "failure-mode": {"open-circuit": FailureMode(label="Open circuit", definition="Open.", phrases=("has blown",))}
    }
    recogniser = Recogniser(terms)
    assert [found.id for found in recogniser.find_in("open circuit, has blown")] == ["open-circuit"] * 2
    assert recogniser.find_in("circuit open; it blew; an open old circuit") == []


def test_the_most_specific_phrase_is_taken_first() -> None:
    recogniser = Recogniser(
        {
            "symptom": {
                "error-code": _symptom("Error code"),
                "charge-error": _symptom("Error code on the charger"),
                "no-fan": _symptom("Fan dead"),
                "remote-dead": _symptom("Remote dead"),
            }
        }
    )
    assert [f.id for f in recogniser.find_in("an error code shows on the charger")] == ["charge-error"]
    assert [f.id for f in recogniser.find_in("the remote for the fan has packed up")] == ["no-fan"]


@pytest.mark.parametrize("text", ["not " * 3000, "turn " * 3000, "screen cracked not " * 1000])
def test_long_repetitions_are_read(text: str) -> None:
    assert len(RECOGNISER.find_in(text)) <= 3000


@given(st.text(max_size=300))
def test_any_text_is_read(text: str) -> None:
    for found in RECOGNISER.find_in(text):
        assert 0 <= found.start < found.end <= len(text)
