"""The vocabulary's own checks: every term well formed, every reference defined, no phrase claimed twice."""

from __future__ import annotations

import math
from collections import defaultdict

import pytest

from benchlore import data
from benchlore.terms.model import KINDS, Block, ComponentClass, EquipmentClass, Rating
from benchlore.terms.model import Test as BenchTest
from benchlore.terms.recogniser import phrase_stems
from benchlore.terms.vocabulary import VocabularyError, load, read_terms

VOCABULARY = load(data.folder("schema") / "vocabulary")


def _undefined(kind: str, ids: object, where: str) -> list[str]:
    assert not isinstance(ids, str)
    return [f"{where}: no {kind} {i!r}" for i in ids if VOCABULARY.get(kind, i) is None]  # type: ignore[attr-defined]


def test_every_reference_is_defined() -> None:
    wrong: list[str] = []
    for term_id, term in VOCABULARY.terms("class").items():
        assert isinstance(term, EquipmentClass)
        wrong += _undefined("block", term.blocks, term_id)
        wrong += _undefined("hazard", term.hazards, term_id)
        wrong += _undefined("action", term.hazards_by_action, term_id)
        for hazards in term.hazards_by_action.values():
            wrong += _undefined("hazard", hazards, term_id)
        for group in term.teardown:
            wrong += [f"{term_id}: teardown names {b!r}, not its own" for b in group.blocks if b not in term.blocks]
    for term_id, term in VOCABULARY.terms("block").items():
        assert isinstance(term, Block)
        wrong += _undefined("component", term.components, term_id)
        wrong += _undefined("block", (*term.source_side, *term.load_side), term_id)
    for term_id, term in VOCABULARY.terms("test").items():
        assert isinstance(term, BenchTest)
        wrong += _undefined("block", term.speaks_about, term_id)
        wrong += _undefined("component", term.component_classes, term_id)
        wrong += _undefined("test", term.after, term_id)
        wrong += _undefined("quantity", [term.quantity] if term.quantity else [], term_id)
    for term_id, term in VOCABULARY.terms("component").items():
        assert isinstance(term, ComponentClass)
        wrong += _undefined("rating", term.ratings, term_id)
        wrong += _undefined("failure-mode", term.failure_modes, term_id)
        wrong += _undefined("component", term.stand_ins, term_id)
    for kind in KINDS:
        for term_id, term in VOCABULARY.terms(kind).items():
            wrong += _undefined(kind, [i for i in (term.broader, term.replaced_by) if i], f"{kind} {term_id}")
    assert wrong == []


@pytest.mark.parametrize("kind", KINDS)
def test_no_phrase_is_claimed_by_two_terms_of_a_kind(kind: str) -> None:
    owners: dict[tuple[str, ...], set[str]] = defaultdict(set)
    for term_id, term in VOCABULARY.terms(kind).items():
        if not term.replaced_by:
            for phrase in (term.label, *term.phrases):
                owners[phrase_stems(phrase, kind)].add(term_id)
    assert {" ".join(stems): ids for stems, ids in owners.items() if len(ids) > 1} == {}


def test_failure_mode_ratios_of_a_component_sum_to_one() -> None:
    """They are P(mode | the part failed), so they share out one."""
    wrong = {
        term_id: total
        for term_id, term in VOCABULARY.terms("component").items()
        if isinstance(term, ComponentClass)
        and not math.isclose(total := sum(mode.ratio for mode in term.failure_modes.values()), 1, abs_tol=0.03)
    }
    assert wrong == {}


def test_a_lower_voltage_is_never_a_loss_to_be_borne() -> None:
    volts = {i for i, rating in VOCABULARY.terms("rating").items() if isinstance(rating, Rating) and rating.unit == "V"}
    drops = {"forward-voltage", "saturation-voltage", "offset-voltage"}
    for term_id, term in VOCABULARY.terms("component").items():
        assert isinstance(term, ComponentClass)
        assert not [r for r, rule in term.ratings.items() if rule.loss and r in volts - drops], term_id


def test_a_safety_critical_class_bears_no_loss() -> None:
    for term_id, term in VOCABULARY.terms("component").items():
        assert isinstance(term, ComponentClass)
        assert not term.safety_critical or not any(rule.loss for rule in term.ratings.values()), term_id


def test_unpowered_checks_come_before_powered_ones() -> None:
    """A test's prerequisites never need more power than the test itself."""
    order = {"off": 0, "limited": 1, "on": 2}
    wrong = []
    for term_id, term in VOCABULARY.terms("test").items():
        assert isinstance(term, BenchTest)
        for before in term.after:
            earlier = VOCABULARY.get_as(BenchTest, before)
            if earlier is not None and order[earlier.power] > order[term.power]:
                wrong.append(f"{term_id} after {before}")
    assert wrong == []


def test_hazards_never_promise_safety() -> None:
    for term in VOCABULARY.terms("hazard").values():
        assert " is safe" not in term.model_dump_json()


def test_defects_are_named_with_their_file(tmp_path) -> None:  # type: ignore[no-untyped-def]
    folder = tmp_path / "symptoms"
    folder.mkdir()
    (folder / "bad.yaml").write_text("hum: {label: Hum, definition: It hums., group: noise, colour: red}\n")
    (folder / "worse.yaml").write_text("hum: [\n")
    with pytest.raises(VocabularyError) as raised:
        read_terms(tmp_path)
    assert any("bad.yaml" in p and "colour" in p for p in raised.value.problems)
    assert any("worse.yaml" in p for p in raised.value.problems)


def test_did_you_mean() -> None:
    assert VOCABULARY.suggest("symptom", "relay chater")[0] == "relay-chatter"
    assert VOCABULARY.suggest("class", "dehumidifer")[0] == "dehumidifier"
