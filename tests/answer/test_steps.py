"""Steps on a unit: the order of safety, the low rail, and what is done where nothing is written up."""

from __future__ import annotations

import random

import pytest

from benchlore.answer.diagnose import diagnose
from benchlore.answer.evidence import Result
from benchlore.answer.question import Question
from benchlore.answer.steps import COLD_CHECKS, DANGER, Step, before
from benchlore.data import folder
from benchlore.terms.model import EquipmentClass, Test
from benchlore.terms.vocabulary import Vocabulary, load


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return load(folder("schema") / "vocabulary")


def random_question(draw: random.Random, vocabulary: Vocabulary) -> Question:
    class_id = draw.choice(sorted(vocabulary.terms("class")))
    term = vocabulary.get_as(EquipmentClass, class_id)
    assert term
    symptoms = draw.sample(sorted(vocabulary.terms("symptom")), draw.randrange(4))
    results = tuple(
        Result(
            draw.choice(sorted(vocabulary.terms("test"))), draw.choice(term.blocks),
            draw.choice(["normal", "abnormal", "inconclusive"]), load=draw.choice(["", "", "disconnected"]),
            side=draw.choice(["", "low", "high"]),
        )
        for _ in range(draw.randrange(4))
    )  # fmt: skip
    return Question(class_id, seen=dict.fromkeys(symptoms, 1.0), results=results)


def assert_in_order(steps: tuple[Step, ...], question: Question, vocabulary: Vocabulary) -> None:
    """No powered step before an unpowered check that it depends on; nothing powered after danger but cold checks."""
    done = {result.test for result in question.results}
    for step in steps:
        if step.kind == "test" and step.power != "off":
            missing = [t for t in before(step.test, vocabulary) if t not in done]
            assert missing == [], f"{step.test} before {missing}"
            if set(question.seen) & DANGER:
                assert set(COLD_CHECKS) <= done
        done.add(step.test)


@pytest.mark.parametrize("part", range(4))
def test_no_plan_over_1000_random_cases_powers_up_before_its_cold_checks(vocabulary: Vocabulary, part: int) -> None:
    draw = random.Random(part)
    powered = 0
    for _ in range(250):
        question = random_question(draw, vocabulary)
        steps = diagnose(question, [], [], vocabulary).steps
        assert_in_order(steps, question, vocabulary)
        powered += sum(1 for step in steps if step.kind == "test" and step.power != "off")
    assert powered, "the rule was put to the test"


def test_the_first_power_up_is_limited_where_the_vocabulary_says_so(vocabulary: Vocabulary) -> None:
    draw = random.Random(9)
    met = 0
    for _ in range(150):
        question = random_question(draw, vocabulary)
        steps = diagnose(question, [], [], vocabulary).steps
        tests = {t: vocabulary.get_as(Test, t) for t in {s.test for s in steps} | {r.test for r in question.results}}
        has_power = any(tests[r.test].power != "off" for r in question.results)  # type: ignore[union-attr]
        first = next((s for s in steps if s.kind == "test" and s.power != "off"), None)
        if first and not has_power and tests[first.test].first_power_up_limited:  # type: ignore[union-attr]
            assert first.power == "limited"
            met += 1
    assert met


def test_everything_before_comes_in_an_order_that_keeps_to_itself(vocabulary: Vocabulary) -> None:
    for test_id in vocabulary.terms("test"):
        seen: set[str] = set()
        for earlier in before(test_id, vocabulary):
            assert set(before(earlier, vocabulary)) <= seen
            seen.add(earlier)


def test_a_low_rail_is_split_before_the_supply_is_suspected(vocabulary: Vocabulary) -> None:
    low = Result("voltage-check", "low-voltage-supply", "abnormal", side="low")
    question = Question("dehumidifier", seen={"dim-display": 1.0}, results=(low,))
    first = diagnose(question, [], [], vocabulary).steps[0]
    assert first.splits_rail
    assert (first.test, first.target, first.power) == ("rail-resistance-check", "low-voltage-supply", "off")


@pytest.mark.parametrize(
    "told",
    [
        Result("rail-resistance-check", "low-voltage-supply", "normal"),
        Result("voltage-check", "low-voltage-supply", "normal", load="disconnected"),
        Result("load-disconnect-check", "low-voltage-supply", "abnormal"),
    ],
)
def test_a_rail_that_was_split_is_not_split_again(vocabulary: Vocabulary, told: Result) -> None:
    low = Result("voltage-check", "low-voltage-supply", "abnormal", side="low")
    question = Question("dehumidifier", results=(low, told))
    assert not any(step.splits_rail for step in diagnose(question, [], [], vocabulary).steps)


def test_a_class_without_entries_gets_advice_by_its_blocks_and_is_told_so(vocabulary: Vocabulary) -> None:
    for class_id in vocabulary.terms("class"):
        answer = diagnose(Question(class_id, seen={"no-power": 1.0}), [], [], vocabulary)
        assert answer.rests_on_none
        assert answer.half_split or len(vocabulary.get_as(EquipmentClass, class_id).blocks) < 8  # type: ignore[union-attr]
        assert sum(c.probability for c in answer.causes) == pytest.approx(1)
        assert answer.steps
