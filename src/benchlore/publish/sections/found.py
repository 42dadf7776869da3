"""How it was found: the tests in order, as a list with marks and as stops on the minute ruler."""

from __future__ import annotations

import textwrap
from collections import Counter
from dataclasses import dataclass

from markupsafe import Markup

from benchlore.publish.drawings.marks import lone_mark
from benchlore.publish.drawings.ruler import Stop, minute_ruler
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import capital, count, inside, minutes_short, unbroken
from benchlore.read.entry import FaultEntry, TestMade

MOST_ON_RULER = 16
"""Beyond this the marks would touch; the list alone then tells it."""
_LABEL_WIDTH = 20
_POWER = {"off": "power off", "limited": "current-limited", "on": "powered"}
_LOAD = {"connected": "load connected", "disconnected": "load off", "dummy": "dummy load"}
_MARKS = {outcome: lone_mark(outcome) for outcome in ("normal", "abnormal", "inconclusive")}


@dataclass(frozen=True, slots=True)
class Tried:
    """One test as it is told in the list."""

    what: str
    conditions: str
    note: str
    outcome: str
    mark: Markup
    minutes: str
    at: str
    """The minute it ended at, where all tests have minutes."""


@dataclass(frozen=True, slots=True)
class Found:
    """The section: the list, the ruler (None with no test or too many), and a line that sums it up."""

    tests: tuple[Tried, ...]
    ruler: Markup | None
    summary: str


def found(entry: FaultEntry, site: SiteData) -> Found | None:
    """The tests of an entry; None when none are recorded."""
    if not entry.tests:
        return None
    ends = _ends(entry.tests)
    names = [_name(test, site) for test in entry.tests]
    ruler = None
    if len(entry.tests) <= MOST_ON_RULER:
        ruler = minute_ruler(
            [Stop(t.outcome, end, _lines(name)) for t, end, name in zip(entry.tests, ends, names, strict=True)]
        )
    tried = tuple(
        Tried(
            what=name,
            conditions=_conditions(test),
            note=unbroken(capital(test.note or "")),
            outcome=test.outcome,
            mark=_MARKS[test.outcome],
            minutes=minutes_short(test.minutes) if test.minutes is not None else "",
            at=f"{end:g}" if end is not None else "",
        )
        for test, end, name in zip(entry.tests, ends, names, strict=True)
    )
    return Found(tried, ruler, _summary(entry.tests, ends[-1]))


def _ends(tests: tuple[TestMade, ...]) -> list[float | None]:
    if any(test.minutes is None for test in tests):
        return [None] * len(tests)
    ends, total = [], 0.0
    for test in tests:
        total += test.minutes or 0.0
        ends.append(total)
    return list(ends)


def _name(test: TestMade, site: SiteData) -> str:
    where = [
        test.component or "",
        inside(site.label("block", test.target)) if test.target and not test.component else "",
    ]
    told = ", ".join(w for w in where if w)
    return f"{site.label('test', test.test)}, {told}" if told else site.label("test", test.test)


def _conditions(test: TestMade) -> str:
    parts = [_POWER.get(test.power or "", ""), _LOAD.get(test.load or "", "")]
    if test.in_circuit is not None:
        parts.append("in circuit" if test.in_circuit else "out of circuit")
    if test.fault_showing is False:
        parts.append("fault not showing at the time")
    return ", ".join(p for p in parts if p)


def _lines(name: str) -> tuple[str, ...]:
    head, _, tail = name.partition(", ")
    if tail and max(len(head), len(tail)) <= _LABEL_WIDTH + 4:
        return head, tail
    return tuple(textwrap.wrap(name, _LABEL_WIDTH, max_lines=2, placeholder=" …"))


def _summary(tests: tuple[TestMade, ...], total: float | None) -> str:
    outcomes = Counter(test.outcome for test in tests)
    told = ", ".join(f"{outcomes[o]} {o}" for o in ("normal", "abnormal", "inconclusive") if outcomes[o])
    time = f" in {minutes_short(total)}" if total else "; minutes not all recorded"
    return capital(f"{count(len(tests), 'test')}{time}: {told}.")
