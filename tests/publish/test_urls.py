"""Addresses: plain file names from any text, one for each thing, always the same."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.publish.urls import address, assign, numbered, to_root

PLAIN = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("dehumidifier", "dehumidifier"),
        ("BWC-02 rev B", "bwc-02-rev-b"),
        ("../../etc/passwd", "etc-passwd"),
        ("<script>", "script"),
        ("Été", "ete"),
        ("БП", "u431u43f"),
        ("...", "unnamed"),
        ("", "unnamed"),
        ("CON", "con-0"),
        ("com1", "com1-0"),
    ],
)
def test_text_becomes_a_plain_name(text: str, name: str) -> None:
    assert address(text) == name


@given(st.text(max_size=300))
def test_every_text_has_a_short_plain_name(text: str) -> None:
    name = address(text)
    assert PLAIN.fullmatch(name)
    assert len(name) <= 82


@given(st.lists(st.text(max_size=12), max_size=20))
def test_no_two_things_share_an_address_and_order_does_not_matter(keys: list[str]) -> None:
    given_out = assign(keys)
    assert set(given_out) == set(keys)
    assert len(set(given_out.values())) == len(given_out)
    assert all(PLAIN.fullmatch(name) for name in given_out.values())
    assert assign(reversed(keys)) == given_out


def test_a_term_keeps_its_address_whatever_a_stranger_calls_his() -> None:
    assert assign(["De humidifier", "de-humidifier", "DE HUMIDIFIER"])["de-humidifier"] == "de-humidifier"


def test_long_names_that_differ_at_the_end_stay_apart() -> None:
    assert address("a" * 100 + "1") != address("a" * 100 + "2")


def test_pages_of_a_list_cannot_meet_another_address() -> None:
    assert numbered("c/x.html", 1) == "c/x.html"
    assert numbered("c/x.html", 2) == "c/x.2.html"
    assert address("x.2") == "x-2"


def test_the_way_to_the_root() -> None:
    assert (to_root("index.html"), to_root("e/x.html")) == ("", "../")
