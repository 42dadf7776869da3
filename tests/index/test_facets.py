"""Facets: keys of what people write, and counts that respect the other choices."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.cli.search import FACET_OPTIONS
from benchlore.index.entry_facets import facets_of
from benchlore.index.facets import FACET_NAMES, FacetIndex, chosen_keys, columns, facet_key
from tests.index.made_up import record, vocabulary


def values(**by_name: list[str]) -> list[list[tuple[str, str]]]:
    return [[(key, key.title()) for key in by_name.get(name.replace("class", "class_"), [])] for name in FACET_NAMES]


FOUR = FacetIndex(
    columns([
        values(class_=["drill"], outcome=["repaired"], hazard=["mains", "dust"]),
        values(class_=["drill"], outcome=["not-repaired"], hazard=["mains"]),
        values(class_=["kettle"], outcome=["repaired"]),
        values(class_=["saw"], outcome=["repaired"], hazard=["dust"]),
    ])
)


def counts(chosen: dict[str, list[str]], matching: set[int] | None = None) -> dict[str, dict[str, int]]:
    answer = FOUR.count({0, 1, 2, 3} if matching is None else matching, chosen)
    return {facet.name: {v.key: v.count for v in facet.values} for facet in answer if facet.values}


def test_a_choice_does_not_hide_its_alternatives() -> None:
    found = counts({"class": ["drill"]})
    assert found["class"] == {"drill": 2, "kettle": 1, "saw": 1}
    assert found["outcome"] == {"not-repaired": 1, "repaired": 1}


def test_several_values_mean_any_and_several_facets_all() -> None:
    chosen = {"class": ["drill", "kettle"], "outcome": ["repaired"]}
    assert FOUR.allowed(chosen) == {0, 2}
    assert counts(chosen)["hazard"] == {"mains": 1, "dust": 1}
    assert counts(chosen)["class"] == {"drill": 1, "kettle": 1, "saw": 1}


def test_counts_are_over_what_the_query_found() -> None:
    assert counts({}, {2, 3})["class"] == {"kettle": 1, "saw": 1}


def test_what_is_chosen_stays_listed() -> None:
    found = counts({"class": ["lamp"], "outcome": ["repaired"]})
    assert found["class"] == {"drill": 1, "kettle": 1, "lamp": 0, "saw": 1}
    assert found["outcome"]["repaired"] == 0


def test_order_is_count_then_key() -> None:
    (facet,) = [f for f in FOUR.count({0, 1, 2, 3}, {}) if f.name == "class"]
    assert [v.key for v in facet.values] == ["drill", "kettle", "saw"]


SOME_CHOICES = st.dictionaries(st.sampled_from(["class", "outcome"]), st.just(["repaired", "drill"]))


@given(st.sets(st.integers(0, 3)), SOME_CHOICES)
def test_choosing_a_value_shows_as_many_as_its_count_said(matching: set[int], chosen: dict[str, list[str]]) -> None:
    for facet in FOUR.count(matching, chosen):
        for value in facet.values:
            narrowed = FOUR.allowed({**chosen, facet.name: [value.key]})
            assert value.count == len(matching & (narrowed or set()))


@pytest.mark.parametrize(
    ("name", "written", "key"),
    [
        ("class", "Wet and dry vacuum", "wet-and-dry-vacuum"),
        ("board", "bwc 02", "bwc02"),
        ("maker", "Orrin & Dace", "orrin-dace"),
        ("outcome", "not repaired", "not-repaired"),
        ("licence", "CC-BY-SA-4.0", "cc-by-sa-4-0"),
    ],
)
def test_keys(name: str, written: str, key: str) -> None:
    assert facet_key(name, written) == key


def test_empty_choices_choose_nothing() -> None:
    assert chosen_keys({"class": [], "maker": []}) == {}


def test_an_entry_has_its_values() -> None:
    entry = record(
        "x",
        equipment={"class": "dehumidifier", "maker": "unknown", "boards": [{"marking": "BWC-02"}]},
        symptoms=[{"term": "no-power"}, {"note": "ticks"}],
        root_cause={"block": "low-voltage-supply", "component_class": "relay", "failure_mode": "open"},
        also_found=[
            {"role": "consequence", "component_class": "linear-regulator", "failure_mode": "short"},
            {"role": "separate", "component_class": "fuse", "failure_mode": "open"},
        ],
    ).entry
    found = dict(zip(FACET_NAMES, facets_of(entry, vocabulary(), "CC0-1.0"), strict=True))
    assert [key for key, _ in found["component"]] == ["relay", "fuse"]
    assert found["board"] == [("bwc02", "BWC-02")]
    assert found["maker"] == []
    assert [key for key, _ in found["symptom"]] == ["no-power"]
    assert found["year"] == [("2026", "2026")]
    assert found["licence"] == [("cc0-1-0", "CC0-1.0")]
    assert "mains" in [key for key, _ in found["hazard"]], "the class's hazards are joined to the entry's"


def test_the_command_has_an_option_for_every_facet() -> None:
    assert FACET_OPTIONS == FACET_NAMES
