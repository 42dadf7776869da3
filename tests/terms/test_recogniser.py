"""The phrase recogniser's rules, on a small vocabulary of its own."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.terms.model import Symptom, Term
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
    ],
)
def test_what_is_recognised(text: str, expected: list[tuple[str, bool]]) -> None:
    assert [(found.id, found.negated) for found in RECOGNISER.find_in(text)] == expected


def test_places_point_into_the_text() -> None:
    text = "Since Monday it WON'T turn on at all"
    (found,) = RECOGNISER.find_in(text)
    assert text[found.start : found.end] == "WON'T turn on"


@given(st.text(max_size=300))
def test_any_text_is_read(text: str) -> None:
    for found in RECOGNISER.find_in(text):
        assert 0 <= found.start < found.end <= len(text)
