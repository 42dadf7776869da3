"""Mistakes of several kinds, each over an index that is written down here."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.index.near_values import bare, in_words, near
from benchlore.index.spelling import correct, one_slip, slips
from tests.index.test_query import Known

WORDS = ["relay", "chatter", "capacitor", "vibration", "seal", "loose", "fan", "motor", "overheating"]
MARKS = ["mark:bwc02", "mark:irf840", "mark:1n4007", "alike:1rf840:irf840", "alike:0il12:oil12", "mark:oil12"]
KNOWN = Known(MARKS, WORDS)


def read(text: str) -> tuple[str, list[tuple[str, str]]]:
    mended, corrections = correct(text, KNOWN)
    return mended, [(c.typed, c.read) for c in corrections]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("relya", "relay"), ("capcitr", "capcitr"), ("capasitr", "capacitor"), ("vibratoin", "vibration"),
        ("vibartoin", "vibration"), ("looseseal", "loose seal"), ("fanmotor", "fan motor"), ("chat ter", "chatter"),
        ("re-lay", "relay"), ("BWC-O2", "BWC02"), ("bwco2,", "BWC02,"), ("1RF84O", "IRF840"), ("IN4007", "1N4007"),
        ("4k7", "4k7"), ("relay seal", "relay seal"), ("relya* x", "relya* x"), ("10 k", "10 k"),
    ],
)  # fmt: skip
def test_what_is_read(typed: str, meant: str) -> None:
    assert read(typed)[0] == meant


def test_what_was_typed_is_told() -> None:
    assert read("loo se BWC-O2")[1] == [("BWC-O2", "BWC02"), ("loo se", "loose")]


def _reference(a: str, b: str) -> int:
    """The published recurrence, plainly: Boytsov, "Indexing methods for approximate dictionary searching", 2011."""
    if not a or not b:
        return len(a) + len(b)
    least = min(_reference(a[:-1], b) + 1, _reference(a, b[:-1]) + 1, _reference(a[:-1], b[:-1]) + (a[-1] != b[-1]))
    if len(a) > 1 and len(b) > 1 and a[-1] == b[-2] and a[-2] == b[-1]:
        least = min(least, _reference(a[:-2], b[:-2]) + 1)
    return least


@given(st.text("abc", max_size=5), st.text("abc", max_size=5))
def test_slips_are_the_distance(a: str, b: str) -> None:
    assert slips(a, b) == _reference(a, b)
    assert one_slip(a, b) == (slips(a, b) == 1)


VALUES = Known([f"value:{v}" for v in ("ohm:47e2", "ohm:46e2", "ohm:51e2", "F:47e-8", "V:126e-1", "V:-12e0")])


@pytest.mark.parametrize(
    ("term", "found"),
    [
        ("value:ohm:465e1", {"value:ohm:46e2": 0.5, "value:ohm:47e2": 0.5, "value:ohm:51e2": 0.3}),
        ("value:ohm:47e2", {"value:ohm:46e2": 0.5, "value:ohm:51e2": 0.3}),
        ("value:F:46e-8", {"value:F:47e-8": 0.5}), ("value:ohm:47e3", {}), ("value:V:12e0", {"value:V:126e-1": 0.5}),
        ("value:V:-115e-1", {"value:V:-12e0": 0.5}), ("value:V:0e0", {}), ("value:F:47e-9", {}),
    ],
)  # fmt: skip
def test_near_values(term: str, found: dict[str, float]) -> None:
    assert {e.term: e.weight for e in near(term, VALUES)} == found


def test_near_values_across_a_power_of_ten() -> None:
    known = Known(["value:ohm:98e0", "value:ohm:102e0", "value:ohm:1e3", "value:ohm:1e2"])
    assert {e.term for e in near("value:ohm:1e2", known)} == {"value:ohm:98e0", "value:ohm:102e0"}
    assert {e.term for e in near("value:ohm:99e0", known)} == {"value:ohm:98e0", "value:ohm:102e0", "value:ohm:1e2"}


def test_the_window_is_what_was_said() -> None:
    assert [e.term for e in near("value:ohm:465e1", VALUES, 2)] == ["value:ohm:46e2", "value:ohm:47e2"]
    assert near("value:ohm:465e1", VALUES, 1) == []


def test_a_number_alone_that_can_mean_one_thing() -> None:
    assert bare("12", "6", VALUES) == "value:V:126e-1"
    assert bare("0", "47", VALUES) == "value:F:47e-8"
    assert bare("4700", "", VALUES) == "value:ohm:47e2"
    assert bare("4700", "", Known(["value:ohm:47e2", "value:V:47e2"])) is None
    assert bare("33", "", VALUES) is None
    assert bare("0", "0", VALUES) is None


@pytest.mark.parametrize(
    ("term", "said"),
    [
        ("value:ohm:47e2", "4.7 kΩ"), ("value:F:47e-8", "470 nF"), ("value:V:-12e0", "−12 V"),
        ("value:F:1e-14", "0.01 pF"),
        ("value:ohm:1e6", "1 MΩ"), ("value:V:126e-1", "12.6 V"), ("value:s:5e-4", "500 µs"),
        ("value:ohm:22e-2", "220 mΩ"),
    ],
)  # fmt: skip
def test_values_in_words(term: str, said: str) -> None:
    assert in_words(term).replace("\u00a0", " ") == said
