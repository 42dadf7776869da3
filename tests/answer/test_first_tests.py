"""Tests that told most for their minutes."""

from __future__ import annotations

from benchlore.answer.cases import Case, TestSeen
from benchlore.answer.first_tests import first_tests
from benchlore.answer.hypotheses import Hypothesis


def case(*tests: TestSeen) -> Case:
    return Case("x", Hypothesis("b", "c", "open"), tests=tests)


def test_what_found_more_in_fewer_minutes_comes_first_and_what_found_nothing_not_at_all() -> None:
    quick = TestSeen("fuse-check", "mains-input", "abnormal", minutes=2)
    slow = TestSeen("voltage-check", "low-voltage-supply", "abnormal", minutes=20)
    nothing = TestSeen("visual-inspection", "", "normal", minutes=5)
    rows = first_tests([case(quick, slow, nothing), case(quick, slow)])
    assert [(row.test, row.found, row.made, row.minutes) for row in rows] == [
        ("fuse-check", 2, 2, 2), ("voltage-check", 2, 2, 20),
    ]  # fmt: skip


def test_a_test_made_twice_in_a_repair_counts_once() -> None:
    twice = [TestSeen("voltage-check", "b", outcome) for outcome in ("normal", "abnormal")]
    (row,) = first_tests([case(*twice)])
    assert (row.made, row.found, row.minutes) == (1, 1, None)
