"""Tests and readings as a technician reads them. Rules of the trade: common practice, no source."""

from __future__ import annotations

import pytest

from benchlore.answer.cases import Case, TestSeen
from benchlore.answer.evidence import Result, Wiring, contradictions, likelihoods
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis, base_shares
from benchlore.data import folder
from benchlore.terms.vocabulary import Vocabulary, load

SUPPLY = "low-voltage-supply"
DROPPER = Hypothesis(SUPPLY, "safety-film-capacitor", "low-capacitance")
ZENER = Hypothesis(SUPPLY, "zener-diode", "short")
DRY = Hypothesis(SUPPLY, "electrolytic-capacitor", "high-esr")
UPSTREAM = Hypothesis("mains-input", "mains-switch", "fails-to-operate")
SHORTED_LOAD = Hypothesis("control-logic", "ceramic-capacitor", "short")
OPEN_LOAD = Hypothesis("control-logic", "microcontroller", "no-output")
ELSEWHERE = Hypothesis("refrigeration-circuit", "heat-exchanger", "punctured")
ALL = (DROPPER, ZENER, DRY, UPSTREAM, SHORTED_LOAD, OPEN_LOAD, ELSEWHERE, NOT_SEEN_BEFORE)


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return load(folder("schema") / "vocabulary")


@pytest.fixture
def read(vocabulary: Vocabulary):  # type: ignore[no-untyped-def]
    base = base_shares("dehumidifier", vocabulary)
    wiring = Wiring("dehumidifier", vocabulary)

    def of(test: str, outcome: str, target: str = SUPPLY, cases: tuple[Case, ...] = (), **more: object):  # type: ignore[no-untyped-def]
        result = Result(test, target, outcome, **more)  # type: ignore[arg-type]
        return likelihoods(result, ALL, base, vocabulary, wiring, cases)

    return of


def test_a_low_rail_speaks_of_source_upstream_and_shorted_loads(read) -> None:  # type: ignore[no-untyped-def]
    low = read("voltage-check", "abnormal", side="low")
    for cause in (DROPPER, ZENER, UPSTREAM, SHORTED_LOAD):
        assert low[cause] > low[OPEN_LOAD] + 1
        assert low[cause] > low[ELSEWHERE] + 1


def test_still_low_with_the_load_off_clears_the_loads(read) -> None:  # type: ignore[no-untyped-def]
    low = read("voltage-check", "abnormal", side="low", load="disconnected")
    assert low[ZENER] > low[SHORTED_LOAD] + 1
    assert low[SHORTED_LOAD] == pytest.approx(low[ELSEWHERE])


def test_good_with_the_load_off_clears_the_source_but_a_weak_one_less(read) -> None:  # type: ignore[no-untyped-def]
    good = read("voltage-check", "normal", load="disconnected")
    assert good[ZENER] < good[DROPPER] < good[SHORTED_LOAD]
    with_load = read("voltage-check", "normal")
    assert with_load[SHORTED_LOAD] < with_load[OPEN_LOAD]


def test_a_high_rail_is_no_shorted_load(read) -> None:  # type: ignore[no-untyped-def]
    high = read("voltage-check", "abnormal", side="high")
    assert high[SHORTED_LOAD] == pytest.approx(high[ELSEWHERE])
    assert high[ZENER] > high[SHORTED_LOAD]


def test_a_normal_result_while_the_fault_was_away_clears_nothing(read) -> None:  # type: ignore[no-untyped-def]
    assert set(read("voltage-check", "normal", fault_showing=False).values()) == {0.0}
    assert set(read("voltage-check", "inconclusive").values()) == {0.0}
    assert read("voltage-check", "abnormal", fault_showing=False)[ZENER] < 0


def test_a_good_capacitance_in_circuit_does_not_clear_high_series_resistance(read) -> None:  # type: ignore[no-untyped-def]
    capacitance = read("capacitance-check", "normal", in_circuit=True)
    assert capacitance[DRY] == pytest.approx(capacitance[ELSEWHERE])
    out = read("capacitance-check", "normal", in_circuit=False)
    assert out[DROPPER] < capacitance[DROPPER] < capacitance[ELSEWHERE]


def test_the_rails_resistance_finds_shorts_alone(read) -> None:  # type: ignore[no-untyped-def]
    short = read("rail-resistance-check", "abnormal")
    assert short[SHORTED_LOAD] > short[OPEN_LOAD] + 1
    assert short[ZENER] > short[DROPPER] + 1


def test_the_unseen_may_lie_anywhere(read) -> None:  # type: ignore[no-untyped-def]
    low = read("voltage-check", "abnormal", side="low")
    assert low[ELSEWHERE] < low[NOT_SEEN_BEFORE] < low[ZENER]


def test_how_a_test_came_out_before_joins_in(read) -> None:  # type: ignore[no-untyped-def]
    case = Case("x", ELSEWHERE, tests=(TestSeen("voltage-check", SUPPLY, "abnormal"),))
    plain = read("voltage-check", "abnormal")
    assert read("voltage-check", "abnormal", cases=(case,) * 4)[ELSEWHERE] > plain[ELSEWHERE]


def test_contradictions_are_named() -> None:
    good, bad = (Result("voltage-check", SUPPLY, outcome) for outcome in ("normal", "abnormal"))
    assert "both normal and abnormal" in contradictions([good, bad], [], [])[0]
    assert contradictions([good, Result("voltage-check", SUPPLY, "abnormal", load="disconnected")], [], []) == []
    assert "both as seen and as not there" in contradictions([], ["hum"], ["hum"])[0]
    away = Result("voltage-check", SUPPLY, "normal", fault_showing=False)
    assert contradictions([away, bad], [], []) == []
