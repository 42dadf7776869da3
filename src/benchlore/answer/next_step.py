"""The next step by expected cost of repair: the order of repairs, teardown groups, and what a test is worth.

Costs are minutes. One fault at a time. A repair costs its minutes whether or not it mends; when it does not, that cause
is ruled out. Sources: the order of actions by p/c and of groups behind one opening: J. B. Kadane and H. A. Simon,
"Optimal strategies for a class of constrained sequential problems", Annals of Statistics 5 (1977); a test's worth as
the saving in expected cost of repair: D. Heckerman, J. S. Breese and K. Rommelse, "Decision-theoretic
troubleshooting", Communications of the ACM 38 (1995).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

MOST_LOOKED_INTO = 12
"""Tests looked at two steps deep."""


@dataclass(frozen=True, slots=True)
class Work:
    """A repair: ``minutes`` lost when it does not mend, checking included; ``group`` is the teardown it lies behind."""

    key: str
    minutes: float
    group: str = ""


@dataclass(frozen=True)
class Trial:
    """A test: ``minutes``, and the chance of an abnormal outcome by cause (in the order of the causes).

    ``group`` is the teardown it lies behind; whoever makes the test has opened it for what follows.
    """

    key: str
    minutes: float
    abnormal: tuple[float, ...]
    group: str = ""

    @cached_property
    def normal(self) -> tuple[float, ...]:
        """The chance of a normal outcome by cause."""
        return tuple(1 - share for share in self.abnormal)


class Advice(NamedTuple):
    """What to do next: a repair or a test, what the whole is then expected to cost, and what that saves."""

    kind: str
    """``repair``, ``test``, ``hand-back`` or ``stop`` (nothing left to do)."""
    key: str
    expected: float
    saves: float
    """Minutes saved against repairing in the best order without this test; 0 for a repair."""


def in_order(probabilities: Sequence[float], order: Sequence[int], minutes: Sequence[float]) -> float:
    """Expected cost of repairs made in ``order`` until one mends (no groups). Probabilities may sum to less than 1."""
    left = sum(probabilities)
    total = 0.0
    for index in order:
        total += minutes[index] * left
        left -= probabilities[index]
    return total


def best_order(
    probabilities: Sequence[float],
    works: Sequence[Work],
    openings: Mapping[str, float] | None = None,
    opened: frozenset[str] = frozenset(),
) -> list[int]:
    """The order of repairs with the least expected cost.

    Without groups by p/c, the greatest first. An unopened group competes by its best beginning, by Σp / (C_open + Σc);
    once begun it is open, and what is left in it competes alone (Kadane and Simon 1977).
    """
    openings = openings or {}
    ratio = {i: probabilities[i] / max(works[i].minutes, 1e-9) for i in range(len(works))}
    by_group: dict[str, list[int]] = {}
    loose: list[int] = []
    for i in sorted(ratio, key=lambda i: (-ratio[i], i)):
        group = works[i].group
        if openings.get(group, 0.0) > 0 and group not in opened:
            by_group.setdefault(group, []).append(i)
        else:
            loose.append(i)
    order: list[int] = []
    begins = {group: _beginning(members, probabilities, works, openings[group]) for group, members in by_group.items()}
    while loose or by_group:
        best_group = max(begins, key=lambda g: (begins[g][0], -by_group[g][0]), default=None)
        if loose and (best_group is None or ratio[loose[0]] >= begins[best_group][0]):
            order.append(loose.pop(0))
            continue
        assert best_group is not None
        count = begins.pop(best_group)[1]
        members = by_group.pop(best_group)
        order += members[:count]
        loose = sorted([*loose, *members[count:]], key=lambda i: (-ratio[i], i))
    return order


def _beginning(
    members: Sequence[int], probabilities: Sequence[float], works: Sequence[Work], opening: float
) -> tuple[float, int]:
    best, best_count, chance, cost = -1.0, 1, 0.0, opening
    for count, i in enumerate(members, start=1):
        chance += probabilities[i]
        cost += works[i].minutes
        if chance / cost > best:
            best, best_count = chance / cost, count
    return best, best_count


def order_cost(
    probabilities: Sequence[float],
    works: Sequence[Work],
    order: Sequence[int],
    openings: Mapping[str, float] | None = None,
    opened: frozenset[str] = frozenset(),
) -> float:
    """Expected cost of repairs made in ``order``, each group's opening paid once, when first met."""
    openings = openings or {}
    left = sum(probabilities)
    total = 0.0
    open_now = set(opened)
    for i in order:
        cost = works[i].minutes
        if works[i].group not in open_now:
            cost += openings.get(works[i].group, 0.0)
            open_now.add(works[i].group)
        total += cost * left
        left -= probabilities[i]
    return total


class Advisor:
    """Advises on one unit: causes with the work that mends each, the openings, and the tests at hand.

    ``works[i]`` mends cause ``i``. ``hand_back`` are the minutes that handing back unrepaired is worth losing; None
    when that is no choice.
    """

    def __init__(
        self,
        works: Sequence[Work],
        trials: Sequence[Trial],
        openings: Mapping[str, float] | None = None,
        hand_back: float | None = None,
    ) -> None:
        self.works = works
        self.trials = trials
        self.openings = dict(openings or {})
        self.hand_back = hand_back
        self._facts = [(max(w.minutes, 1e-9), w.group, self.openings.get(w.group, 0.0)) for w in works]

    def repair_cost(self, weights: Sequence[float], opened: frozenset[str] = frozenset()) -> float:
        """Expected cost of repairing in the best order without any test, times the weights' sum."""
        cost = self._least_cost(weights, opened)
        return cost if self.hand_back is None else min(cost, self.hand_back * sum(weights))

    def _least_cost(self, weights: Sequence[float], opened: frozenset[str]) -> float:
        """The cost of :func:`best_order`, without making the order.

        What is left of a group after its best beginning is worth less per minute than that beginning, so one sort by
        chance over minutes, a beginning keeping together, gives the order.
        """
        units: list[tuple[float, str, int, float, float]] = []
        groups: dict[str, list[tuple[float, str, int, float, float]]] = {}
        left = 0.0
        for weight, (minutes, group, opening) in zip(weights, self._facts, strict=True):
            if weight <= 0:
                continue
            left += weight
            unit = (-weight / minutes, "", 0, minutes, weight)
            if opening and group not in opened:
                groups.setdefault(group, []).append(unit)
            else:
                units.append(unit)
        for group, members in groups.items():
            members.sort()
            chance, cost = 0.0, self.openings[group]
            best, count = 0.0, 0
            for number, (_, _, _, minutes, weight) in enumerate(members, start=1):
                chance += weight
                cost += minutes
                if chance / cost > best:
                    best, count = chance / cost, number
            opening = self.openings[group]
            for number, (_, _, _, minutes, weight) in enumerate(members[:count]):
                units.append((-best, group, number, minutes + (0.0 if number else opening), weight))
            units += members[count:]
        units.sort()
        total = 0.0
        for _, _, _, minutes, weight in units:
            total += minutes * left
            left -= weight
        return total

    def best_order(self, weights: Sequence[float], opened: frozenset[str] = frozenset()) -> list[int]:
        """The causes worth working on, in the best order; those with no weight are left out."""
        kept = [i for i, weight in enumerate(weights) if weight > 0]
        order = best_order([weights[i] for i in kept], [self.works[i] for i in kept], self.openings, opened)
        return [kept[i] for i in order]

    def tested_cost(
        self, trial: Trial, weights: Sequence[float], deeper: Sequence[Trial] = (), opened: frozenset[str] = frozenset()
    ) -> float:
        """t + ΣP(o)·ECR(o), times the weights' sum; after each outcome the best of repairing and of ``deeper``."""
        total = (trial.minutes + self._opening(trial.group, opened)) * sum(weights)
        if trial.group:
            opened = opened | {trial.group}
        for shares in (trial.abnormal, trial.normal):
            after = [w * s for w, s in zip(weights, shares, strict=True)]
            best = self.repair_cost(after, opened)
            for other in deeper:
                if other.key != trial.key and other.minutes * sum(after) < best:
                    best = min(best, self.tested_cost(other, after, (), opened))
            total += best
        return total

    def _opening(self, group: str, opened: frozenset[str]) -> float:
        return 0.0 if group in opened else self.openings.get(group, 0.0)

    def advise(
        self,
        weights: Sequence[float],
        made: frozenset[str] = frozenset(),
        opened: frozenset[str] = frozenset(),
        only: frozenset[str] | None = None,
    ) -> Advice:
        """The best next step, two steps ahead. ``weights`` are the causes' probabilities (any scale).

        ``made`` are tests already made; ``only`` limits the tests that may come next, not what is looked at after.
        """
        whole = sum(weights)
        order = self.best_order(weights, opened)
        if not order or whole <= 0:
            return Advice("stop", "", 0.0, 0.0)
        plain = self.repair_cost(weights, opened)
        open_tests = [t for t in self.trials if t.key not in made]
        scored = sorted(
            ((self.tested_cost(t, weights, (), opened), n, t) for n, t in enumerate(open_tests)), key=lambda s: s[:2]
        )
        deep = [trial for _, _, trial in scored[:MOST_LOOKED_INTO]]
        first = self.works[order[0]]
        repaired = self._after_repair(order[0], weights, deep, opened)
        best = Advice("repair", first.key, min(plain, repaired) / whole, 0.0)
        if self.hand_back is not None and self.hand_back * whole <= plain:
            best = Advice("hand-back", "", self.hand_back, 0.0)
        for trial in deep:
            if only is not None and trial.key not in only:
                continue
            cost = self.tested_cost(trial, weights, deep, opened) / whole
            if cost < best.expected - 1e-12:
                best = Advice("test", trial.key, cost, plain / whole - cost)
        return best

    def _after_repair(
        self, index: int, weights: Sequence[float], deep: Sequence[Trial], opened: frozenset[str]
    ) -> float:
        work = self.works[index]
        opening = self._opening(work.group, opened)
        after = [0.0 if i == index else w for i, w in enumerate(weights)]
        now_open = opened | {work.group}
        best = self.repair_cost(after, now_open)
        for trial in deep:
            best = min(best, self.tested_cost(trial, after, (), now_open))
        return (work.minutes + opening) * sum(weights) + best
