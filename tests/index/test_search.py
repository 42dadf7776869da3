"""Searching the sample base and made-up entries: what a technician would expect to find, and in which order."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlore.cli.search import answer_json, command
from benchlore.errors import BenchloreError
from benchlore.index.documents import document
from benchlore.index.lexicon import VocabularyLexicon
from benchlore.index.search import Answer, Searcher
from benchlore.index.store import MemoryStore
from benchlore.read.base import Base, Record
from tests.index.made_up import made_up, record, vocabulary

SAMPLE = Path(__file__).parents[1] / "sample_base"


def searcher(records: list[Record]) -> Searcher:
    documents = [document(r, vocabulary(), currency="EUR") for r in records]
    return Searcher(MemoryStore(documents), VocabularyLexicon(vocabulary()))


def board(model: str, *markings: str, maker: str = "Brackwater") -> dict[str, object]:
    boards = [{"marking": marking} for marking in markings]
    return {"class": "dehumidifier", "maker": maker, "model": model, "boards": boards}


REPAIRS = [
    record(
        "bw-12-chatters",
        title="Relay chatters; dropper capacitor had lost its value",
        equipment=board("BW-12", "BWC-02"),
        symptoms=[{"term": "relay-chatter", "note": "when the compressor should start"}],
        not_seen=["blown-fuse"],
        root_cause={"block": "low-voltage-supply", "component": "C1", "component_class": "safety-film-capacitor"},
        measurements=[{"point": "C1", "quantity": "capacitance", "before": "0.47 µF"}],
        parts=[{"ref": "C1", "type": "IRF840", "unit_price": "1.10", "quantity": 2}],
        minutes=60,
    ),
    record(
        "bw-16-dead", title="Dead after a surge; fuse and varistor", equipment=board("BW-16", "bwc 02"),
        symptoms=[{"term": "no-power"}, {"term": "blown-fuse"}], notes="R5 is 4k7. Same relay as in the others.",
    ),
    record(
        "bw-20-hums", title="Hums and clicks off", equipment=board("BW-20", "BWC02"), symptoms=[{"term": "hums"}],
        documents=[{"title": "BW-16 service sheet", "covers": "BWC-02"}],
        notes="470n across the contact, 4.7 kΩ fitted",
    ),
    record(
        "tw-9-leaks", title="Leaks at the seal", equipment=board("TW-9", "TWB-1", maker="Tarnwick"),
        symptoms=[{"note": "water under the unit; the seal was loose"}], notes="IRF830 and a 4700 ohm resistor",
    ),
    record("no-plate", title="Loose seal again", symptoms=[{"note": "the loose seal came back"}]),
]  # fmt: skip
SHOP = searcher(REPAIRS)


def found(query: str, **filters: list[str]) -> list[str]:
    return [hit.slug for hit in SHOP.search(query, filters).hits]


@pytest.mark.parametrize("written", ["BWC-02", "bwc 02", "BWC02", "bwc_02"])
def test_a_board_marking_finds_every_unit_that_carries_it(written: str) -> None:
    assert set(found(written)) == {"bw-12-chatters", "bw-16-dead", "bw-20-hums"}


@pytest.mark.parametrize("written", ["BW-16", "bw16", "BW 16"])
def test_a_model_finds_its_own_entries_then_its_sisters(written: str) -> None:
    answer = SHOP.search(written)
    assert answer.hits[0].slug == "bw-16-dead"
    assert answer.hits[0].sister_of is None
    assert {hit.slug for hit in answer.hits[1:]} == {"bw-12-chatters", "bw-20-hums"}
    assert {hit.sister_of for hit in answer.hits[1:]} == {written}
    assert answer.hits[0].score > answer.hits[1].score
    assert answer.sisters[0].models == ("BW-12", "BW-20")


def test_a_unit_of_a_model_known_to_carry_the_board_is_a_sister_of_the_board() -> None:
    unlabelled = record("bw-12-bare", equipment={"class": "dehumidifier", "model": "BW-12"})
    hits = {h.slug: h for h in searcher([*REPAIRS, unlabelled]).search("BWC-02").hits}
    assert hits["bw-12-bare"].sister_of == "BWC-02"
    assert hits["bw-12-chatters"].sister_of is None
    assert min(h.score for s, h in hits.items() if s != "bw-12-bare") > hits["bw-12-bare"].score


def test_the_start_of_a_part_number() -> None:
    assert set(found("irf8")) == {"bw-12-chatters", "tw-9-leaks"}
    assert SHOP.search("irf8").hits[0].reasons[0].kind == "start"
    assert SHOP.search("irf8").hits[0].reasons[0].found in {"IRF840", "IRF830"}
    assert found("irf84") == ["bw-12-chatters"]


@pytest.mark.parametrize("written", ["4k7", "4700 ohm", "4.7 kΩ", "4.7kohm"])
def test_a_value_in_any_notation(written: str) -> None:
    assert set(found(written)) == {"bw-16-dead", "bw-20-hums", "tw-9-leaks"}


@pytest.mark.parametrize("written", ["0.47uF", "470n", "470 nF", "0,47 µF"])
def test_a_capacitance_in_any_notation(written: str) -> None:
    assert set(found(written)) == {"bw-12-chatters", "bw-20-hums"}


def test_what_people_say_finds_the_symptom() -> None:
    assert found("completely dead")[0] == "bw-16-dead"
    assert found("won't turn on") == ["bw-16-dead"]
    assert SHOP.search("won't turn on").read_as[0].label == vocabulary().label("symptom", "no-power")


def test_negation_finds_what_was_looked_for_and_not_there() -> None:
    assert found("fuse not blown") == ["bw-12-chatters"]
    assert SHOP.search("fuse not blown").hits[0].reasons[0].kind == "not-seen"
    assert "bw-12-chatters" not in found("blown fuse")


def test_an_entry_that_misses_a_word_comes_lower_and_says_so() -> None:
    first, second = SHOP.search("loose seal water").hits
    assert (first.slug, first.missed) == ("tw-9-leaks", ())
    assert (second.slug, second.missed) == ("no-plate", ("water",))
    assert first.score > second.score


def test_a_phrase_must_stand_there_word_for_word() -> None:
    assert found('"loose seal"') == ["no-plate"]
    assert set(found("loose seal")) == {"no-plate", "tw-9-leaks"}
    assert found('"seal loose"') == []
    assert found('"seal was loose"') == ["tw-9-leaks"]


def test_typing_mistakes() -> None:
    answer = SHOP.search("relya chater")
    assert answer.hits[0].slug == "bw-12-chatters"
    assert [typed for typed, _ in answer.corrected] == ["relya", "chater"]
    assert all(right.startswith(("relay", "chatter")) for _, right in answer.corrected)


def test_filters_in_the_query_and_beside_it_do_the_same() -> None:
    assert found("seal maker:Tarnwick") == found("seal", maker=["tarnwick"]) == ["tw-9-leaks"]
    assert SHOP.search("seal maker:tarnwick").filters == {"maker": ["tarnwick"]}


def test_a_filter_changes_no_score() -> None:
    scores = {hit.slug: hit.score for hit in SHOP.search("seal").hits}
    assert all(scores[hit.slug] == hit.score for hit in SHOP.search("seal", {"maker": ["Tarnwick"]}).hits)


def test_without_words_all_that_fits_by_slug() -> None:
    assert found("") == sorted(r.slug for r in REPAIRS)
    assert found("board:BWC-02") == ["bw-12-chatters", "bw-16-dead", "bw-20-hums"]


def test_a_filter_that_is_no_facet_is_refused_with_a_hint() -> None:
    with pytest.raises(BenchloreError, match="no facet 'clas'") as refused:
        SHOP.search("seal", {"clas": ["x"]})
    assert "class" in refused.value.hint


def test_limit_and_total() -> None:
    answer = SHOP.search("", limit=2)
    assert (answer.total, len(answer.hits)) == (5, 2)
    assert len(SHOP.search("", limit=None).hits) == 5


def test_ties_go_by_slug() -> None:
    same = [record(slug, title="Seal") for slug in ("zz-top", "aa-top", "mm-top")]
    assert [hit.slug for hit in searcher(same).search("seal").hits] == ["aa-top", "mm-top", "zz-top"]


def test_narrower_symptoms_are_found_by_the_broader_word() -> None:
    kinds = vocabulary().terms("component")
    narrow = next((i, t) for i, t in kinds.items() if t.broader and not t.replaced_by)
    entry = record("narrow", root_cause={"component_class": narrow[0]})
    other = record("other", title="Nothing of the kind")
    label = vocabulary().label("component", narrow[1].broader or "")
    assert "narrow" in [hit.slug for hit in searcher([entry, other]).search(label).hits]


def test_a_hit_carries_what_it_shows() -> None:
    card = SHOP.search("relay chatters").hits[0].card
    assert (card.equipment, card.minutes, card.cost) == ("Brackwater BW-12", 60, "2.20 EUR")
    assert card.cause == vocabulary().label("component", "safety-film-capacitor")


def test_reasons_name_text_and_field() -> None:
    (hit,) = SHOP.search("relay chatters 0.47uF", {"maker": ["Brackwater"], "outcome": ["repaired"]}, limit=1).hits
    assert [(r.kind, r.text, r.field) for r in hit.reasons] == [
        ("term", "relay chatters", "symptoms"),
        ("value", "0.47uF", "readings"),
    ]


MADE_UP = searcher(made_up(40))


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200))
def test_any_string_can_be_searched(query: str) -> None:
    answer = MADE_UP.search(query)
    assert answer.total >= len(answer.hits)
    assert answer.hits == tuple(sorted(answer.hits, key=lambda h: (-h.score, h.slug)))


def test_the_sample_base_by_symptom() -> None:
    base = Base(SAMPLE)
    documents = [document(r, base.vocabulary) for r in base.records()]
    sample = Searcher(MemoryStore(documents), VocabularyLexicon(base.vocabulary))
    hits = sample.search("tw12 display dark").hits
    assert [hit.slug for hit in hits[:2]] == ["tw-12-display-dark", "tw-8-fan-stops"]
    assert hits[1].sister_of == "tw12"


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return lambda *words: CliRunner().invoke(command, [*words, "--base", str(SAMPLE)])


def test_the_command_speaks_to_a_technician(run) -> None:
    told = run("tw12", "display", "dark").output
    assert "1. Display dark" in told
    assert "35 min" in told
    assert "shares a board with tw12; nothing about" in told
    assert "Narrow it down" in told


def test_the_command_speaks_to_machines(run) -> None:
    told = json.loads(run("tw12", "--json").output)
    assert told["total"] == len(told["hits"]) == 2
    assert {"id", "title", "score", "reasons"} <= told["hits"][0].keys()
    assert {facet["name"] for facet in told["facets"]} >= {"class", "symptom", "outcome"}


def test_the_command_takes_facets(run) -> None:
    assert json.loads(run("--class", "Dehumidifier", "--facet", "year=2026", "--json").output)["total"] == 2
    told = run("display", "--class", "dehumidifer").output
    assert "did you mean dehumidifier?" in told
    assert "NAME=VALUE" in run("x", "--facet", "class").output
    assert run().exit_code == 2


def test_json_is_plain() -> None:
    answer: Answer = SHOP.search('"loose seal" BW-16 fuse not blown relya 4k7')
    assert json.loads(json.dumps(answer_json(answer))) == answer_json(answer)
