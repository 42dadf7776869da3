"""Which tests told most for their minutes in the repairs of a class: what to try first, by what entries say."""

from __future__ import annotations

from collections.abc import Iterable
from statistics import median
from typing import NamedTuple

from benchlore.answer.cases import Case


class FirstTest(NamedTuple):
    """A test at a block: in how many repairs it was made, in how many it found something, its middle minutes."""

    test: str
    target: str
    made: int
    found: int
    minutes: float | None


def first_tests(cases: Iterable[Case], limit: int = 6) -> list[FirstTest]:
    """Tests that found something, the most found per minute first; each counts once in a repair.

    Order: found / (made + 2) over minutes, the share drawn towards nothing as the advisor's tables are (M = 2);
    then by name. A test whose minutes nobody told counts as 10.
    """
    outcomes: dict[tuple[str, str], list[bool]] = {}
    minutes: dict[tuple[str, str], list[float]] = {}
    for case in cases:
        here: dict[tuple[str, str], bool] = {}
        for made in case.tests:
            key = (made.test, made.target)
            here[key] = here.get(key, False) or made.outcome == "abnormal"
            if made.minutes:
                minutes.setdefault(key, []).append(made.minutes)
        for key, is_abnormal in here.items():
            outcomes.setdefault(key, []).append(is_abnormal)
    rows = [
        FirstTest(*key, len(said), sum(said), median(minutes[key]) if key in minutes else None)
        for key, said in outcomes.items()
        if any(said)
    ]
    rows.sort(key=lambda row: (-row.found / (row.made + 2) / (row.minutes or 10), row.test, row.target))
    return rows[:limit]
