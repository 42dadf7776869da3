"""Measuring diagnosis: what is learned from, what counts as right, and the figures by an independent library."""

from __future__ import annotations

import math

import pytest

from benchlore.answer.cases import Case
from benchlore.answer.hypotheses import Hypothesis
from benchlore.answer.measure_diagnosis import Measured, Prediction, in_date_order, leave_one_out
from benchlore.data import folder
from benchlore.terms.vocabulary import Vocabulary, load

A = Hypothesis("low-voltage-supply", "safety-film-capacitor", "low-capacitance")
B = Hypothesis("fan-circuit", "bearing", "seized")


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return load(folder("schema") / "vocabulary")


def case(n: int, cause: Hypothesis, symptom: str) -> Case:
    scopes = frozenset({"class:dehumidifier"})
    return Case(f"e{n}", cause, frozenset({symptom}), scopes=scopes, date=f"2025-01-{n + 1:02}")


def test_symptoms_that_tell_beat_counting_causes(vocabulary: Vocabulary) -> None:
    cases = [case(n, A if n % 2 else B, "dim-display" if n % 2 else "grinding-noise") for n in range(16)]
    measured = leave_one_out(cases, vocabulary)
    assert measured.count == 16
    assert measured.new == 0
    assert measured.top(1) == 1.0
    assert measured.log_loss < measured.frequency_loss


def test_date_order_never_looks_ahead(vocabulary: Vocabulary) -> None:
    cases = [case(n, A if n < 3 else B, "dim-display") for n in range(6)]
    measured = in_date_order(cases, vocabulary)
    assert [p.is_new for p in measured.predictions] == [True, False, False, True, False, False]


def test_only_the_classes_asked_for_are_predicted(vocabulary: Vocabulary) -> None:
    cases = [case(n, A, "dim-display") for n in range(4)]
    assert leave_one_out(cases, vocabulary, frozenset({"toaster"})).count == 0


def test_figures_by_hand() -> None:
    rows = [(0.9, 1, 0.9, True), (0.1, 3, 0.7, False), (0.2, 5, 0.7, False), (0.7, 1, 0.7, True)]
    measured = Measured(
        tuple(Prediction(str(n), "x", *row, False, 0.5) for n, row in enumerate(rows))
    )
    assert measured.top(1) == 0.5
    assert measured.top(3) == 0.75
    assert measured.log_loss == pytest.approx(-sum(math.log(r[0]) for r in rows) / 4)
    assert measured.calibration_error == pytest.approx((1 * 0.1 + 3 * abs(0.7 - 1 / 3)) / 4)
