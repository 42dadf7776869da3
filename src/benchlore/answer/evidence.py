"""Tests and readings as evidence, read as a technician reads them: what each outcome says of every cause.

A result gives, for each hypothesis, the chance of that outcome. Strengths come from the vocabulary; where entries tell
how the test came out with a cause, those counts join in (M = 2). Rules, all common practice, no source:

* A test that measures a property of parts (unpowered) speaks of the component classes it lists; of others in its block
  hardly. A test of some modes alone (a short to the rail's common, a lost capacitance) speaks of those modes.
* A low rail speaks of its source, of everything upstream, and of a short in its loads. Still low with the load off
  clears the loads; good with the load off clears the source, but a source that is merely weak (dried out, low
  capacitance, a poor joint) only in part: it may hold without a load.
* A normal result while the fault was not showing clears nothing. In circuit, other parts lie across the reading: it
  clears and condemns less, and a good capacitance does not clear a high series resistance.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from benchlore.answer.cases import Case
from benchlore.answer.frequencies import shrunk
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis
from benchlore.terms.model import Block, EquipmentClass, Test
from benchlore.terms.vocabulary import Vocabulary

Outcome = Literal["normal", "abnormal", "inconclusive"]

LEARNED_AGAINST = 2.0
"""Tests that the vocabulary's strength counts for, beside those that entries tell."""
RAIL_TESTS = frozenset({"voltage-check", "ripple-check", "load-disconnect-check", "dummy-load-check"})
RAIL_SHORT_TEST = "rail-resistance-check"
SHORTS = frozenset({"short", "shorted-turns", "leaky", "seized", "low-insulation", "burnt", "stuck-low"})
"""Modes that can pull a supply down."""
WEAK = frozenset(
    {"low-capacitance", "high-esr", "high-resistance", "contact-worn", "low-output", "capacity-loss", "drifted-value"}
)
"""Modes under which a source may hold without a load."""
MODES: Mapping[str, frozenset[str]] = {
    RAIL_SHORT_TEST: SHORTS,
    "capacitance-check": frozenset({"low-capacitance", "open", "short", "drifted-value", "parameter-shift"}),
    "esr-check": frozenset({"high-esr", "open", "short", "low-capacitance"}),
    "leakage-check": frozenset({"leaky", "short", "low-insulation"}),
    "fuse-check": frozenset({"open", "wrong-part", "missing"}),
    "continuity-check": frozenset(
        {"open", "broken", "disconnected", "fails-to-operate", "premature-open", "high-resistance", "cracked", "lifted"}
    ),
    "belt-tension-check": frozenset({"stretched", "worn", "broken", "slipping", "misadjusted", "cracked"}),
    "insulation-check": frozenset({"low-insulation", "short", "degraded-isolation", "contaminated"}),
}
"""Tests that find certain failure modes alone."""
_OTHER_MODES = 0.15
_UNLISTED = 0.15
_FALSE_ALARM = {"off": 0.06, "limited": 0.08, "on": 0.08}
_LOOK_FALSE_ALARM = 0.15
_IN_CIRCUIT_FALSE_ALARM = 0.2
_UPSTREAM = 0.6
_DEEPEST = 3


@dataclass(frozen=True, slots=True)
class Result:
    """A test made, or a reading taken, on the unit in hand.

    ``target`` is a block (empty: the unit as a whole); ``component`` a component class when one part was looked at.
    ``fault_showing`` and ``in_circuit`` are None when nobody says. ``text`` is how it was put.
    """

    test: str
    target: str
    outcome: Outcome
    component: str = ""
    load: str = ""
    side: str = ""
    fault_showing: bool | None = None
    in_circuit: bool | None = None
    text: str = ""

    @property
    def clears_nothing(self) -> bool:
        """Whether nothing can be concluded."""
        return self.outcome == "inconclusive" or (self.outcome == "normal" and self.fault_showing is False)


class Wiring:
    """Which block of a class feeds which."""

    def __init__(self, equipment_class: str, vocabulary: Vocabulary) -> None:
        term = vocabulary.get_as(EquipmentClass, equipment_class)
        self.blocks = term.blocks if term else ()
        here = set(self.blocks)
        self.sources: dict[str, frozenset[str]] = {}
        self.loads: dict[str, frozenset[str]] = {}
        for block_id in self.blocks:
            block = vocabulary.get_as(Block, block_id)
            self.sources[block_id] = frozenset(block.source_side if block else ()) & here
            self.loads[block_id] = frozenset(block.load_side if block else ()) & here

    def upstream(self, block: str) -> frozenset[str]:
        """Everything that feeds the block, up to ``_DEEPEST`` steps away; without the block itself."""
        found: set[str] = set()
        edge = {block}
        for _ in range(_DEEPEST):
            edge = {source for b in edge for source in self.sources.get(b, ())} - found - {block}
            found |= edge
        return frozenset(found)


def abnormal_share(
    test_id: str, target: str, cause: Hypothesis, vocabulary: Vocabulary, wiring: Wiring, result: Result | None = None
) -> float:
    """The chance that the test at ``target`` comes out abnormal when ``cause`` is what is wrong."""
    test = vocabulary.get_as(Test, test_id)
    if test is None:
        return 0.5
    false_alarm = _false_alarm(test, result)
    load = {"load-disconnect-check": "disconnected", "dummy-load-check": "dummy"}.get(
        test_id, result.load if result else ""
    )
    strength = _strength(test_id, test, target, cause)
    if result is not None and result.component and cause.component != result.component:
        strength *= _UNLISTED
    if target and cause.block != target:
        strength = 0.0
    if test_id in RAIL_TESTS and target:
        strength = _rail(strength, target, cause, load, wiring, result.side if result else "")
    elif test_id == RAIL_SHORT_TEST and target and cause.block in wiring.loads.get(target, ()):
        strength = 0.6 if cause.mode in SHORTS else 0.0
    if result is not None and result.in_circuit:
        strength *= 0.7
        if test_id == "capacitance-check" and cause.mode == "high-esr":
            strength = 0.0
    return min(0.98, false_alarm + (1 - false_alarm) * strength)


def _rail(strength: float, target: str, cause: Hypothesis, load: str, wiring: Wiring, side: str) -> float:
    if side == "high":
        return strength
    if cause.block != target and cause.block in wiring.upstream(target):
        strength = _UPSTREAM
    loads_off = load in {"disconnected", "dummy"}
    if cause.block in wiring.loads.get(target, ()) and cause.block not in wiring.upstream(target):
        return 0.7 if cause.mode in SHORTS and not loads_off else 0.0
    if load == "disconnected" and cause.mode in WEAK:
        return strength * 0.5
    return strength


def _strength(test_id: str, test: Test, target: str, cause: Hypothesis) -> float:
    by_block = test.speaks_about.get(cause.block, test.speaks_about.get("any", 0.0))
    by_part = test.component_classes.get(cause.component)
    if not target and not by_block and by_part is None:
        return 0.0
    if by_part is not None:
        strength = max(by_part, by_block) if test.power != "off" else by_part
    elif test.power == "off" and test.component_classes and cause.component:
        strength = by_block * (_UNLISTED if test.quantity else 0.5)
    else:
        strength = by_block
    modes = MODES.get(test_id)
    if modes is not None and cause.mode and cause.mode not in modes:
        strength *= _OTHER_MODES
    return strength


def _false_alarm(test: Test, result: Result | None) -> float:
    if result is not None and result.in_circuit:
        return _IN_CIRCUIT_FALSE_ALARM
    return _LOOK_FALSE_ALARM if test.power == "off" and not test.quantity else _FALSE_ALARM[test.power]


def likelihoods(
    result: Result,
    causes: Iterable[Hypothesis],
    base: Mapping[Hypothesis, float],
    vocabulary: Vocabulary,
    wiring: Wiring,
    cases: Iterable[Case] = (),
) -> dict[Hypothesis, float]:
    """The logarithm of the chance of the result under each cause; all 0 where it clears nothing.

    "Not seen before" has the mean over ``base``: it may lie anywhere. ``cases`` teach how the test came out.
    """
    causes = list(causes)
    if result.clears_nothing:
        return dict.fromkeys(causes, 0.0)
    learned = learned_outcomes(cases, result.test, result.target, result.load)
    shares: dict[Hypothesis, float] = {}
    for cause in causes:
        if cause == NOT_SEEN_BEFORE:
            continue
        share = abnormal_share(result.test, result.target, cause, vocabulary, wiring, result)
        if cause in learned:
            share = shrunk(*learned[cause], share, LEARNED_AGAINST)
        shares[cause] = share
    if NOT_SEEN_BEFORE in causes:
        whole = sum(base[cause] for cause in shares if cause in base)
        shares[NOT_SEEN_BEFORE] = (
            sum(base[c] * share for c, share in shares.items() if c in base) / whole if whole else 0.5
        )
    abnormal = result.outcome == "abnormal"
    return {cause: math.log(shares[cause] if abnormal else 1 - shares[cause]) for cause in causes}


def learned_outcomes(
    cases: Iterable[Case], test: str, target: str, load: str = ""
) -> dict[Hypothesis, tuple[float, float]]:
    """(abnormal, made) of a test at a target under a load, by cause, as the cases tell it."""
    found: dict[Hypothesis, tuple[float, float]] = {}
    for case in cases:
        for made in case.tests:
            if made.test == test and made.target == target and made.load == load:
                abnormal, n = found.get(case.cause, (0.0, 0.0))
                found[case.cause] = (abnormal + (made.outcome == "abnormal"), n + 1)
                break
    return found


def contradictions(results: Iterable[Result], seen: Iterable[str], absent: Iterable[str]) -> list[str]:
    """What cannot be true together: the same test with both outcomes, a symptom both there and not there."""
    both = sorted(set(seen) & set(absent))
    found = [f"{symptom.replace('-', ' ')} is given both as seen and as not there" for symptom in both]
    outcomes: dict[tuple[str, str, str, str], set[str]] = {}
    for result in results:
        if not result.clears_nothing:
            key = (result.test, result.target, result.component, result.load)
            outcomes.setdefault(key, set()).add(result.outcome)
    for (test, target, component, load), said in outcomes.items():
        if len(said) > 1:
            place = ", ".join(part.replace("-", " ") for part in (target, component, load and f"load {load}") if part)
            found.append(
                f"{test.replace('-', ' ')}{f' ({place})' if place else ''} came out both normal and abnormal:"
                " the fault may come and go, or one of the two was made under other conditions"
            )
    return found
