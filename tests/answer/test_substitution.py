"""Substitution: the cases of ``substitution_cases.yaml``, and what must hold for every part."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from benchlore import data
from benchlore.answer.fitted import candidates, judged
from benchlore.answer.fuses import breaking_capacity, read_marking
from benchlore.answer.part_text import PartTextError, read_part
from benchlore.answer.rating_compare import compare_rating
from benchlore.answer.substitution import PartRatings, StandIn, stand_in
from benchlore.read.base import Base
from benchlore.terms.model import ComponentClass, Rating, RatingRule
from benchlore.terms.vocabulary import load

VOCABULARY = load(data.folder("schema") / "vocabulary")
CASES = yaml.safe_load((Path(__file__).with_name("substitution_cases.yaml")).read_text(encoding="utf-8"))
KINDS = {k: t for k, t in VOCABULARY.terms("component").items() if isinstance(t, ComponentClass)}
AT_LEAST = sorted(
    (kind_id, rating)
    for kind_id, kind in KINDS.items()
    for rating, rule in kind.ratings.items()
    if rule.compare == "at-least" and (term := VOCABULARY.get_as(Rating, rating)) and term.unit
)
VOLTAGES = [
    (kind_id, rating)
    for kind_id, rating in AT_LEAST
    if (term := VOCABULARY.get_as(Rating, rating)) and term.unit == "V" and not rating.endswith("-drop")
]


def answer(case: dict[str, str]) -> StandIn:
    kind, by = case["class"], case.get("by", case["class"])
    old, new = read_part(case["original"], kind, VOCABULARY), read_part(case["replacement"], by, VOCABULARY)
    return stand_in(PartRatings(kind, old), PartRatings(by, new), VOCABULARY)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['class']}-{case['rating'] or 'kind'}")
def test_cases(case):
    found = answer(case)
    assert found.word == case["answer"], found.reasons
    reasons = [reason for reason in found.reasons if reason.rating == case["rating"]]
    assert [r for r in reasons if case["reason"] in r.text.replace("\u00a0", " ")], found.reasons
    if case["answer"] == "no":
        assert "worse" in {reason.judgement for reason in reasons}


def test_there_are_forty_cases_over_twenty_classes():
    assert len(CASES) >= 40
    assert len({case["class"] for case in CASES}) >= 20
    assert {case["answer"] for case in CASES} == {"may-stand-in", "with-care", "no"}


def full(kind_id: str) -> dict[str, str]:
    """A part of that kind with every rating stated, with figures and words that mean something to each rule."""
    ratings = {}
    for rating, rule in KINDS[kind_id].ratings.items():
        term = VOCABULARY.get_as(Rating, rating)
        ratings[rating] = rule.order[0] if rule.order else f"100 {term.unit}" if term and term.unit else "as drawn"
    return ratings


@pytest.mark.parametrize("kind_id", sorted(KINDS))
def test_a_part_stands_in_for_itself(kind_id):
    same = PartRatings(kind_id, full(kind_id))
    found = stand_in(same, same, VOCABULARY)
    assert found.word == "may-stand-in", found.against


@given(st.sampled_from(AT_LEAST), st.floats(1e-3, 1e6), st.floats(1.0, 100.0), st.floats(1.0, 100.0))
def test_raising_an_at_least_rating_never_turns_a_yes_into_a_no(which, needed, first, second):
    kind_id, rating = which
    term = VOCABULARY.get_as(Rating, rating)
    assert term is not None

    def with_(figure: float) -> PartRatings:
        return PartRatings(kind_id, {**full(kind_id), rating: f"{figure:.9g} {term.unit}"})

    old = with_(needed)
    lower, higher = sorted((needed * first, needed * second))
    if stand_in(old, with_(lower), VOCABULARY).word != "no":
        assert stand_in(old, with_(higher), VOCABULARY).word != "no"


@given(st.sampled_from(VOLTAGES), st.floats(1, 1e5), st.floats(0.001, 0.999))
def test_a_lower_voltage_never_passes(which, needed, share):
    kind_id, rating = which
    old = PartRatings(kind_id, {**full(kind_id), rating: f"{needed:.9g} V"})
    new = PartRatings(kind_id, {**full(kind_id), rating: f"{needed * share:.9g} V"})
    assert stand_in(old, new, VOCABULARY).word == "no"


@given(st.sampled_from(["X1", "X2"]), st.sampled_from(["Y1", "Y2", "Y4"]), st.floats(1, 1000))
def test_an_x_capacitor_never_replaces_a_y_capacitor(x_class, y_class, volts):
    ratings = {"capacitance": "4.7 nF", "ac-voltage": f"{volts:.6g} V ac", "pitch": "10 mm", "approval": "as marked"}
    old = PartRatings("safety-y-capacitor", {**ratings, "safety-class": y_class})
    for kind in ("safety-film-capacitor", "safety-y-capacitor"):
        new = PartRatings(kind, {**ratings, "ac-voltage": "1000 V ac", "safety-class": x_class})
        assert stand_in(old, new, VOCABULARY).word == "no"


@given(st.text(max_size=30), st.text(max_size=30), st.sampled_from(AT_LEAST))
def test_hostile_texts_are_never_a_crash(old, new, which):
    compare_rating(KINDS[which[0]].ratings[which[1]], old, new, unit="V")


@given(st.text(max_size=60), st.sampled_from(sorted(KINDS)))
def test_a_part_text_is_read_or_refused(text, kind_id):
    try:
        ratings = read_part(text, kind_id, VOCABULARY)
    except PartTextError:
        return
    assert set(ratings) <= set(KINDS[kind_id].ratings)


def test_a_loss_is_bounded():
    rule = RatingRule(compare="at-most", loss="more heat")
    judged_as = [compare_rating(rule, "1 Ω", new, unit="ohm").judgement for new in ("0.9 Ω", "1 Ω", "1.5 Ω", "1.6 Ω")]
    assert judged_as == ["better", "same", "loss", "worse"]


def test_fuse_markings():
    """T2AL250V: time-lag, 2 A, low breaking capacity, 250 V; L is 35 A or ten times the rated current, E 150 A,
    H 1500 A (IEC 60127, at second hand)."""
    assert read_marking("T2AL250V") == {
        "speed-class": "T", "current": "2 A", "breaking-capacity": "L", "ac-voltage": "250 V ac"
    }  # fmt: skip
    assert read_marking("F 500 mA H") == {"speed-class": "F", "current": "500 mA", "breaking-capacity": "H"}
    assert read_marking("5 x 20") is None
    assert breaking_capacity({"breaking-capacity": "L", "current": "2 A"}) == 35
    assert breaking_capacity({"breaking-capacity": "L", "current": "6.3 A"}) == 63
    assert [breaking_capacity({"breaking-capacity": x}) for x in ("E", "H", "30 kA", "L")] == [150, 1500, 30e3, None]


def test_what_cannot_be_read_is_told_with_the_ratings_there_are():
    with pytest.raises(PartTextError, match="names no rating") as raised:
        read_part("220 µF, banana", "electrolytic-capacitor", VOCABULARY)
    assert "ripple-current" in raised.value.hint
    with pytest.raises(PartTextError, match="twice"):
        read_part("current 2 A, current 3 A", "fuse", VOCABULARY)


def test_fitted_parts_of_the_demo_base():
    base = Base(data.folder("entries").parent)
    wanted = PartRatings(
        "safety-film-capacitor",
        read_part("1 µF ±10 %, 275 V ac, X2, 27.5 mm pitch", "safety-film-capacitor", VOCABULARY),
    )
    found = candidates(wanted, ((r.slug, r.entry) for r in base.records()), VOCABULARY)
    assert {c.answer.word for c in found if c.fitted.slug == "bw-12-relay-chatters"} == {"with-care"}
    assert {c.answer.word for c in found if c.fitted.slug == "fm-5-smoke-and-still-kneads"} == {"no"}
    words = [c.answer.word for c in found]
    assert words == sorted(words, key=("may-stand-in", "with-care", "no").index)


def test_no_fitted_part_of_the_demo_base_is_worse_than_its_original():
    base = Base(data.folder("entries").parent)
    judgements = [(r.slug, p.ref, judged(p, VOCABULARY)) for r in base.records() for p in r.entry.parts]
    known = [(slug, ref, found) for slug, ref, found in judgements if found is not None]
    assert len(known) > 10
    assert [(slug, ref, found.against) for slug, ref, found in known if found.word == "no"] == []
