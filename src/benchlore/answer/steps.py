"""Steps on a real unit: which tests and repairs come into question, what they cost, and in which order they may come.

The order of safety is a rule ahead of any ranking:

* a test comes after those that the vocabulary puts before it; a powered one after every unpowered check on the way;
* where smoke, sparks, a blown fuse or a tripped breaker was seen, no power before look, fuses and rail resistances;
* the first power-up is current-limited where the vocabulary says so.

A low rail with its load on is split first: measure the rail's resistance unpowered, or take the load off; only then
is the supply itself suspected.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median

from benchlore.answer.cases import Case
from benchlore.answer.evidence import RAIL_SHORT_TEST, RAIL_TESTS, Result, Wiring, abnormal_share
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis
from benchlore.answer.next_step import Advisor, Trial, Work
from benchlore.terms.model import ComponentClass, EquipmentClass, Test
from benchlore.terms.vocabulary import Vocabulary

MOST_CAUSES = 16
MOST_BLOCKS = 8
MOST_TRIALS = 40
PLAN_LENGTH = 5
LOOK = "visual-inspection"
NOWHERE = ("", "")
"""Place of what was not seen before."""
SEARCHING = 400.0
"""Minutes that going by the blocks is reckoned with: so many that likely known causes come first (our choice)."""
DANGER = frozenset({"smoke", "burnt-smell", "sparks-inside", "flames", "trips-breaker", "blown-fuse"})
"""Symptoms after which nothing is powered before ``COLD_CHECKS``."""
COLD_CHECKS = (LOOK, "fuse-check", RAIL_SHORT_TEST)
MENDING = {
    "electronic": 15.0, "electromechanical": 20.0, "mechanical": 20.0, "joint": 8.0, "track": 15.0, "connector": 6.0,
    "cable": 12.0, "seal": 10.0, "firmware": 10.0, "setting": 5.0, "outside": 3.0,
}  # fmt: skip
"""Minutes to mend and try, by family of component, where no entry tells (common practice, no source)."""
_USUAL = 15.0
_TELLING = 0.1
_CONDEMNS = 0.65
OFF_THE_CHAIN = frozenset(
    {"outside-the-unit", "enclosure-and-seals", "wiring-and-connectors", "firmware-and-settings", "safety-interlock"}
)
"""Blocks that stand beside the flow of power or signals."""
_OUTSIDE = frozenset(
    {
        "operate-as-customer", "supply-outlet-check", "power-consumption-check", "functional-test",
        "reset-and-default-check",
    }
)
"""Tests made with the unit closed."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step. ``kind``: ``test``, ``repair`` (``test`` condemns the part before it is replaced, where one can),
    ``half-split``, ``hand-back`` or ``stop``; minutes include opening up.

    ``for_test`` is the powered or later test that this one must come before. ``saves`` are the minutes it saves on
    average; ``hazards`` are hazard terms whose cautions hold before it.
    """

    kind: str
    test: str = ""
    target: str = ""
    component: str = ""
    power: str = "off"
    minutes: float = 0.0
    opening: str = ""
    saves: float = 0.0
    for_test: str = ""
    splits_rail: bool = False
    hazards: tuple[str, ...] = ()


@dataclass
class Unit:
    """What the steps depend on: the class, likely causes with probabilities, what was done and seen."""

    equipment_class: str
    shares: Mapping[Hypothesis, float]
    vocabulary: Vocabulary
    wiring: Wiring
    results: Sequence[Result] = ()
    seen: frozenset[str] = frozenset()
    cases: Sequence[Case] = ()
    minute_cost: float = 0.0
    """Money for a minute of work; 0 when parts at risk are not to be counted."""
    hand_back: float | None = None
    opened: frozenset[str] = frozenset()
    done: frozenset[str] = field(default=frozenset())
    """Tests made, by id."""


def before(test_id: str, vocabulary: Vocabulary) -> list[str]:
    """Every test that must come before, directly or not, in an order that keeps to itself."""
    ordered: list[str] = []

    def visit(current: str, path: tuple[str, ...]) -> None:
        test = vocabulary.get_as(Test, current)
        for earlier in test.after if test else ():
            if earlier not in path and earlier not in ordered:
                visit(earlier, (*path, earlier))
                ordered.append(earlier)

    visit(test_id, (test_id,))
    return ordered


def needed_first(test_id: str, unit: Unit) -> list[str]:
    """The tests still to be made before this one, in order; unpowered checks before powered ones."""
    test = unit.vocabulary.get_as(Test, test_id)
    if test is None:
        return []
    needed = before(test_id, unit.vocabulary)
    if test.power != "off":
        if unit.seen & DANGER:
            needed += [check for check in COLD_CHECKS if check not in needed and check != test_id]
        powered = [t for t in needed if (term := unit.vocabulary.get_as(Test, t)) and term.power != "off"]
        for earlier in powered:
            needed += [t for t in before(earlier, unit.vocabulary) if t not in needed]
    elif unit.done:
        needed = [t for t in needed if t != LOOK]  # whoever has measured inside has looked
    open_now = [t for t in dict.fromkeys(needed) if t not in unit.done]
    return sorted(open_now, key=lambda t: (t != LOOK, _is_powered(t, unit.vocabulary), len(before(t, unit.vocabulary))))


def _is_powered(test_id: str, vocabulary: Vocabulary) -> bool:
    test = vocabulary.get_as(Test, test_id)
    return test is not None and test.power != "off"


class Steps:
    """The candidates for one unit, and the plan made of them."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        term = unit.vocabulary.get_as(EquipmentClass, unit.equipment_class)
        self._term = term
        self._group_of = {b: g.label for g in (term.teardown if term else ()) for b in g.blocks}
        self._openings = {g.label: g.minutes for g in (term.teardown if term else ())}
        pairs: dict[tuple[str, str], dict[Hypothesis, float]] = {}
        for cause, share in unit.shares.items():
            if cause != NOT_SEEN_BEFORE and share > 0:
                pairs.setdefault((cause.block, cause.component), {})[cause] = share
        ranked = sorted(pairs.items(), key=lambda item: (-sum(item[1].values()), item[0]))[:MOST_CAUSES]
        self._unseen = unit.shares.get(NOT_SEEN_BEFORE, 0.0)
        if self._unseen > 0:
            ranked.append((NOWHERE, {NOT_SEEN_BEFORE: self._unseen}))
        self.pairs = [pair for pair, _ in ranked]
        self._causes = [causes for _, causes in ranked]
        self.weights = [sum(causes.values()) for causes in self._causes]
        self._minutes = _made_minutes(unit.cases)
        self._made = frozenset(f"{r.test}@{r.target}" for r in unit.results if r.outcome != "inconclusive")
        works = [Work("/".join(p), self._mending(p), self._group_of.get(p[0], "")) for p in self.pairs]
        trials = self._trials()
        self.advisor = Advisor(works, trials, self._openings, unit.hand_back)
        self._trial = {trial.key: trial for trial in trials}

    def _mending(self, pair: tuple[str, str]) -> float:
        if pair == NOWHERE:
            return SEARCHING
        inspection = self._inspection(pair)
        if inspection:
            return self.test_minutes(inspection, pair[0])
        found = [c for c in self.unit.cases if (c.cause.block, c.cause.component) == pair]
        minutes = [c.repair_minutes for c in found if c.repair_minutes]
        component = self.unit.vocabulary.get_as(ComponentClass, pair[1])
        taken = median(minutes) if minutes else MENDING.get(component.family if component else "", _USUAL)
        costs = [c.parts_cost for c in found if c.parts_cost]
        if costs and self.unit.minute_cost > 0:
            taken += median(costs) / self.unit.minute_cost
        return max(1.0, taken)

    def _inspection(self, pair: tuple[str, str]) -> str:
        """The unpowered test that best condemns a part before it is replaced; empty when none does, or it was made."""
        best, strength = "", _CONDEMNS
        for test_id, term in self.unit.vocabulary.terms("test").items():
            if isinstance(term, Test) and term.power == "off" and term.quantity and not term.replaced_by:
                told = term.component_classes.get(pair[1], 0.0)
                if told > strength and f"{test_id}@{pair[0]}" not in self._made:
                    best, strength = test_id, told
        return best

    def _trials(self) -> list[Trial]:
        mass: dict[str, float] = {}
        for (block, _), weight in zip(self.pairs, self.weights, strict=True):
            mass[block] = mass.get(block, 0.0) + weight
        blocks = sorted((b for b in mass if b), key=lambda b: (-mass[b], b))[:MOST_BLOCKS]
        parts = {b: {component for block, component in self.pairs if block == b} for b in blocks}
        found: list[tuple[float, str, Test, str]] = []
        for block in blocks:
            for test_id, term in self.unit.vocabulary.terms("test").items():
                if not isinstance(term, Test) or term.replaced_by or f"{test_id}@{block}" in self._made:
                    continue
                strength = max(
                    [term.speaks_about.get(block, 0.0), *(term.component_classes.get(c, 0.0) for c in parts[block])]
                )
                if not term.speaks_about.get(block) or strength < 0.2:
                    continue
                found.append((-strength * mass[block], test_id, term, block))
        found.sort(key=lambda row: (row[0], row[1], row[3]))
        trials = [self._make(test_id, term, block) for _, test_id, term, block in found[:MOST_TRIALS]]
        return [t for t in trials if max(t.abnormal, default=0) - min(t.abnormal, default=0) > _TELLING]

    def _make(self, test_id: str, term: Test, block: str) -> Trial:
        unit = self.unit
        shares: list[float] = []
        for causes in self._causes:
            if NOT_SEEN_BEFORE in causes:
                shares.append(sum(shares) / len(shares) if shares else 0.5)
                continue
            total = sum(causes.values())
            abnormal = ((p, abnormal_share(test_id, block, c, unit.vocabulary, unit.wiring)) for c, p in causes.items())
            shares.append(sum(p * share for p, share in abnormal) / total)
        minutes = self.test_minutes(test_id, block)
        minutes += sum(self.test_minutes(t, block) for t in needed_first(test_id, unit))
        group = "" if test_id in _OUTSIDE else self._group_of.get(block, "")
        return Trial(f"{test_id}@{block}", minutes, tuple(shares), group)

    def test_minutes(self, test_id: str, block: str) -> float:
        """Minutes of a test: as entries tell it, else as the vocabulary has it; without opening up."""
        told = self._minutes.get((test_id, block)) or self._minutes.get((test_id, ""))
        if test_id == LOOK:
            told = None  # entries count opening up with the first look
        term = self.unit.vocabulary.get_as(Test, test_id)
        return median(told) if told else (term.minutes if term else _USUAL)

    def plan(self, length: int = PLAN_LENGTH) -> list[Step]:
        """The next steps, as they follow if each test comes out normal and each repair does not mend."""
        weights, made = list(self.weights), self._made
        done, opened = set(self.unit.done), set(self.unit.opened)
        is_first_power_up = not any(_is_powered(t, self.unit.vocabulary) for t in done)
        steps: list[Step] = []
        split = self._split()
        while len(steps) < length:
            if split is not None:
                key, kind, saves, splits = split, "test", 0.0, True
                split = None
            else:
                advice = self.advisor.advise(weights, made, frozenset(opened))
                key, kind, saves, splits = advice.key, advice.kind, advice.saves, False
            if kind in {"stop", "hand-back"}:
                if kind == "hand-back" or not steps:
                    steps.append(Step(kind))
                break
            if kind == "repair":
                if not done and not self.unit.results:
                    block = key.split("/")[0] or self.pairs[0][0]
                    steps.append(self._test(LOOK, block, opened, is_first_power_up, for_test="work"))
                    done.add(LOOK)
                    made, weights = self._looked(block, made, weights)
                    continue
                if key == "/":
                    steps.append(Step("half-split"))
                    break
                index = next(i for i, w in enumerate(self.advisor.works) if w.key == key)
                steps.append(self._repair(index, opened))
                weights[index] = 0.0
                continue
            test_id, block = key.split("@")
            now = _with(self.unit, done)
            for earlier in needed_first(test_id, now):
                if len(steps) < length:
                    steps.append(self._test(earlier, block, opened, is_first_power_up, for_test=test_id))
                is_first_power_up &= not _is_powered(earlier, self.unit.vocabulary)
                done.add(earlier)
                if earlier == LOOK:
                    made, weights = self._looked(block, made, weights)
                else:
                    made = made | {f"{earlier}@{block}"}
            if len(steps) == length:
                break
            steps.append(self._test(test_id, block, opened, is_first_power_up, saves=saves, splits=splits))
            is_first_power_up &= not _is_powered(test_id, self.unit.vocabulary)
            done.add(test_id)
            made = made | {key}
            if test_id == LOOK:
                made, weights = self._looked(block, made, weights)
            elif key in self._trial:
                weights = [w * s for w, s in zip(weights, self._trial[key].normal, strict=True)]
        return steps

    def _looked(
        self, block: str, made: frozenset[str], weights: Sequence[float]
    ) -> tuple[frozenset[str], list[float]]:
        """A look that found nothing: it has covered every block behind the same opening."""
        group = self._group_of.get(block, "")
        covered = {b for b, _ in self.pairs if b == block or (group and self._group_of.get(b, "") == group)}
        trial = self._trial.get(f"{LOOK}@{block}")
        kept = [w * s for w, s in zip(weights, trial.normal, strict=True)] if trial else list(weights)
        return made | {f"{LOOK}@{b}" for b in covered}, kept

    def _split(self) -> str | None:
        """The check that tells a bad supply from a shorted load, when a low rail was read and nobody has told yet."""
        for result in self.unit.results:
            is_low = result.outcome == "abnormal" and result.side != "high" and result.test == "voltage-check"
            if not is_low or result.load in {"disconnected", "dummy"} or not self.unit.wiring.loads.get(result.target):
                continue
            told = any(
                other.target == result.target
                and other.outcome != "inconclusive"
                and (
                    other.test in {RAIL_SHORT_TEST, "load-disconnect-check", "dummy-load-check"}
                    or (other.test in RAIL_TESTS and other.load in {"disconnected", "dummy"})
                )
                for other in self.unit.results
            )
            if not told:
                return f"{RAIL_SHORT_TEST}@{result.target}"
        return None

    def _repair(self, index: int, opened: set[str]) -> Step:
        block, component = self.pairs[index]
        work = self.advisor.works[index]
        opening, minutes = self._open(work.group, opened)
        return Step(
            "repair", self._inspection((block, component)), block, component, minutes=work.minutes + minutes,
            opening=opening, hazards=self._hazards("off"),
        )  # fmt: skip

    def _test(
        self, test_id: str, block: str, opened: set[str], is_first: bool, *, saves: float = 0.0, for_test: str = "",
        splits: bool = False,
    ) -> Step:  # fmt: skip
        term = self.unit.vocabulary.get_as(Test, test_id)
        power = term.power if term else "off"
        if term and power == "on" and is_first and term.first_power_up_limited:
            power = "limited"
        target = block if test_id not in _OUTSIDE else ""
        opening, minutes = self._open("" if test_id in _OUTSIDE else self._group_of.get(block, ""), opened)
        return Step(
            "test", test=test_id, target=target, power=power, minutes=self.test_minutes(test_id, block) + minutes,
            opening=opening, saves=saves, for_test=for_test, splits_rail=splits, hazards=self._hazards(power),
        )  # fmt: skip

    def _open(self, group: str, opened: set[str]) -> tuple[str, float]:
        if not group or group in opened:
            return "", 0.0
        opened.add(group)
        return group, self._openings.get(group, 0.0)

    def _hazards(self, power: str) -> tuple[str, ...]:
        hazards = self._term.hazards if self._term else ()
        live = {"mains", "not-isolated", "high-voltage", "microwave-supply", "water-and-electricity", "second-source"}
        wanted = {"stored-energy", "high-voltage", "microwave-supply", "second-source", "mains"}
        if power != "off":
            wanted |= live | {"moving-parts", "hot-parts", "scope-earth-on-live"}
        return tuple(h for h in hazards if h in wanted)


def _with(unit: Unit, done: Iterable[str]) -> Unit:
    return Unit(
        unit.equipment_class, unit.shares, unit.vocabulary, unit.wiring, unit.results, unit.seen, done=frozenset(done)
    )


def _made_minutes(cases: Iterable[Case]) -> dict[tuple[str, str], list[float]]:
    told: dict[tuple[str, str], list[float]] = {}
    for case in cases:
        for made in case.tests:
            if made.minutes:
                told.setdefault((made.test, made.target), []).append(made.minutes)
    return told


def half_split(shares: Mapping[Hypothesis, float], wiring: Wiring) -> tuple[str, str] | None:
    """Where to cut the chain of blocks: the block up to which half the probability lies, and the one after it.

    Only blocks that something flows through are in the chain. None when there are fewer than three.
    """
    chain = [b for b in wiring.blocks if b not in OFF_THE_CHAIN and (wiring.sources[b] or wiring.loads[b])]
    if len(chain) < 3:
        return None
    by_block = [sum(p for c, p in shares.items() if c.block == block) for block in chain]
    total, running = sum(by_block), 0.0
    for index, share in enumerate(by_block[:-1]):
        running += share
        if running >= total / 2 or index == len(by_block) - 2:
            return chain[index], chain[index + 1]
    return None
