"""A diagnosis in words for somebody at the bench, and as plain data with stable keys for machines."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from benchlore.answer.diagnose import Diagnosis, LikelyCause
from benchlore.answer.explain import Explanation, Weighed
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis
from benchlore.answer.question import ELSEWHERE
from benchlore.answer.steps import Step
from benchlore.answer.tallies import Count
from benchlore.terms.model import ComponentClass, Hazard
from benchlore.terms.vocabulary import Vocabulary

SHOWN = 6
_BAR = 20
_LEAST_WEIGHT = 1.0
_CONFLICT = 10.0
_FEW = 5


def cause_name(cause: LikelyCause, vocabulary: Vocabulary) -> str:
    """What a cause is called: part, mode and block."""
    if cause.not_seen_before:
        return "Not seen before"
    if cause.is_rest:
        return f"Something else in: {vocabulary.label('block', cause.cause.block).lower()}"
    return hypothesis_name(cause.cause, vocabulary)


def hypothesis_name(cause: Hypothesis, vocabulary: Vocabulary) -> str:
    """Part, mode and block of a hypothesis in words."""
    part = vocabulary.label("component", cause.component) if cause.component else ""
    mode = vocabulary.label("failure-mode", cause.mode).lower() if cause.mode else ""
    block = vocabulary.label("block", cause.block).lower() if cause.block else ""
    named = ", ".join(text for text in (part, mode) if text) or block.capitalize()
    return f"{named} ({block})" if block and (part or mode) else named


def told(diagnosis: Diagnosis, vocabulary: Vocabulary, currency: str) -> Iterator[tuple[str, list[str]]]:
    """(heading, lines) in the order they are shown."""
    yield "", _read_as(diagnosis, vocabulary)
    yield "Next", _next(diagnosis, vocabulary)
    yield "Likeliest causes", _causes(diagnosis, vocabulary)
    if diagnosis.explanation is not None and len(diagnosis.causes) > 1:
        lines = _explained(diagnosis.explanation, diagnosis, vocabulary)
        if lines:
            yield "Why the first and not the second", lines
    yield "To tell the customer", _estimate(diagnosis, currency)
    if diagnosis.consequences:
        yield "Expect these too", [
            f"  {hypothesis_name(c.found, vocabulary)}: with {c.entries} of {c.of}" for c in diagnosis.consequences
        ]
    yield "What this cannot tell", [f"  {line}" for line in cannot_tell(diagnosis, vocabulary)]
    yield "", ["", diagnosis.caution]


def _read_as(diagnosis: Diagnosis, vocabulary: Vocabulary) -> list[str]:
    question = diagnosis.question
    unit = " ".join(part for part in (question.maker, question.model) if part)
    counted = dict(diagnosis.counted)
    about = [vocabulary.label("class", question.equipment_class)]
    if "model" in counted:
        about.append(f"{_number(counted['model'], 'repair')} of this model")
    if "board" in counted:
        about.append(f"{counted['board']} on board {', '.join(question.boards)}")
    about.append(f"{counted['class']} in the class")
    lines = [f"{unit + ': ' if unit else ''}{' · '.join(about)}"]
    seen = [vocabulary.label("symptom", s).lower() for s in question.seen]
    absent = [vocabulary.label("symptom", s).lower() for s in sorted(question.absent)]
    made = [_result(r.test, r.target, r.outcome, r.side, vocabulary) for r in question.results]
    read = [
        ", ".join(seen) and f"seen: {', '.join(seen)}",
        ", ".join(absent) and f"not there: {', '.join(absent)}",
        "; ".join(made) and f"tested: {'; '.join(made)}",
    ]
    lines += [f"  {text}" for text in read if text]
    if question.unread:
        lines.append(f"  not understood: {'; '.join(question.unread)}")
    return lines


def _result(test: str, target: str, outcome: str, side: str, vocabulary: Vocabulary) -> str:
    place = f" ({vocabulary.label('block', target).lower()})" if target else ""
    return f"{vocabulary.label('test', test).lower()}{place} {outcome}{f', {side}' if side else ''}"


def step_name(step: Step, vocabulary: Vocabulary) -> str:
    """What to do, in a few words."""
    place = vocabulary.label("block", step.target).lower() if step.target else ""
    if step.kind == "repair":
        part = vocabulary.label("component", step.component) if step.component else "the fault"
        term = vocabulary.get_as(ComponentClass, step.component)
        small = part if part[1:2].isupper() or part[1:2] == " " else part[:1].lower() + part[1:]
        if step.target == "outside-the-unit" or (term and term.family in {"outside", "setting", "firmware"}):
            return f"Check and put right: {small}"
        where = f"{small}{f' in the {place}' if place else ''}"
        if step.test:
            return f"{vocabulary.label('test', step.test)}: {where}; mend or replace it if it fails"
        return f"Mend or replace: {where}"
    if step.kind == "half-split":
        return "Reckon with something not seen before: cut the chain of blocks in half, and again"
    if step.kind == "hand-back":
        return "Hand back unrepaired: a repair is likely to cost more than it may"
    if step.kind == "stop":
        return "Nothing more to suggest: go by the blocks in order, and write it up afterwards"
    if step.splits_rail:
        return f"Disconnect the load, or measure the rail's resistance with power off: {place}"
    return f"{vocabulary.label('test', step.test)}{f': {place}' if place else ''}"


def _next(diagnosis: Diagnosis, vocabulary: Vocabulary) -> list[str]:
    lines = []
    for number, step in enumerate(diagnosis.steps, start=1):
        power = {"off": "power off", "limited": "power limited", "on": "power on"}[step.power]
        minutes = f", {step.minutes:.0f} min" if step.minutes else ""
        opening = f" ({step.opening.lower()} included)" if step.opening else ""
        about = f" [{power}{minutes}{opening}]" if step.kind in {"test", "repair"} else ""
        lines.append(f"  {number}. {step_name(step, vocabulary)}{about}")
        why = why_step(step, vocabulary)
        if why:
            lines.append(f"     {why}")
    cautions = dict.fromkeys(h for step in diagnosis.steps for h in step.hazards)
    for hazard_id in cautions:
        hazard = vocabulary.get_as(Hazard, hazard_id)
        if hazard is not None:
            lines.append(f"  ! {hazard.caution}")
    has_split = any(step.kind == "half-split" for step in diagnosis.steps)
    if diagnosis.half_split and (has_split or diagnosis.rests_on_none or diagnosis.causes[0].not_seen_before):
        one, two = (vocabulary.label("block", b).lower() for b in diagnosis.half_split)
        lines.append(f"  Half-split: see whether all is well where the {one} hands on to the {two};")
        lines.append("  good there, look further on; bad there, look at it and before it.")
    return lines


def why_step(step: Step, vocabulary: Vocabulary) -> str:
    """Why this step comes now; empty for a repair."""
    if step.splits_rail:
        return (
            "A low rail speaks of its source, of everything upstream and of a short in its loads;"
            " this tells which before the supply is suspected."
        )
    if step.for_test == "work":
        return "Comes before any work."
    if step.for_test:
        return f"Comes before the {vocabulary.label('test', step.for_test).lower()}."
    return f"Saves {step.saves:.0f} min on average." if step.saves >= 0.5 else ""


def _causes(diagnosis: Diagnosis, vocabulary: Vocabulary) -> list[str]:
    lines = []
    for cause in diagnosis.causes[:SHOWN]:
        filled = round(cause.probability * _BAR)
        bar = "█" * filled + "░" * (_BAR - filled)
        lines.append(f"  {cause.probability:4.0%} {bar} {cause_name(cause, vocabulary)}")
        if cause.not_seen_before:
            lines.append("       nothing that anybody wrote up; by how often a repair here was the first of its kind")
            continue
        for line in cause.evidence:
            said = evidence_sentence(line, diagnosis, vocabulary)
            if said:
                lines.append(f"       {said}")
        if cause.proof:
            lines.append(f"       proves it: {cause.proof}")
        if cause.entries:
            more = f" and {len(cause.entries) - 4} more" if len(cause.entries) > 4 else ""
            lines.append(f"       {_number(len(cause.entries), 'repair')}: {', '.join(cause.entries[:4])}{more}")
        elif not cause.is_rest:
            lines.append("       no repair of this kind; from other equipment, usual parts and handbook ratios")
    rest = sum(cause.probability for cause in diagnosis.causes[SHOWN:])
    if rest >= 0.005:
        lines.append(f"  {rest:4.0%} {'':{_BAR}} {_number(len(diagnosis.causes) - SHOWN, 'other')}, less likely each")
    return lines


def evidence_sentence(line: Weighed, diagnosis: Diagnosis, vocabulary: Vocabulary) -> str:
    """One line of evidence as a technician reads it; empty where it says little."""
    if abs(line.decibans) < _LEAST_WEIGHT:
        return ""
    if line.kind in {"seen", "absent"}:
        label = vocabulary.label("symptom", line.id).lower()
        label = f"no {label}" if line.kind == "absent" else label
        if line.leader and line.others and line.leader.entries:
            others = f", {_share(line.others)} of the others" if line.others.entries else ""
            elsewhere = " in other equipment" if line.leader.level == ELSEWHERE else ""
            return f"{label}: {_share(line.leader)} such faults{elsewhere} showed it{others}: {line.words}"
        return f"{label}: {line.words}"
    if line.kind == "test":
        number, _, test = line.id.partition(":")
        result = diagnosis.question.results[int(number)]
        return f"{_result(test, result.target, result.outcome, result.side, vocabulary)}: {line.words}"
    if line.kind == "silent":
        return f"what was not mentioned: {line.words}" if abs(line.decibans) >= 2 else ""
    return ""


def _share(count: Count) -> str:
    return f"{math.ceil(count.hits)} of {math.ceil(count.entries)}"


def _explained(explanation: Explanation, diagnosis: Diagnosis, vocabulary: Vocabulary) -> list[str]:
    lines = []
    for line in explanation.lines:
        if line.kind == "prior":
            said = "how often each was met"
            if line.leader and line.others:
                said += f" ({math.ceil(line.leader.hits)} against {_share(line.others)})"
            said += f": {line.words}"
        elif line.kind == "pattern":
            said = f"{line.id} repairs showed exactly this: {line.words}"
        else:
            said = evidence_sentence(line, diagnosis, vocabulary)
        if said:
            lines.append(f"  {line.decibans:+6.1f}  {said}")
    lines.append(f"  {explanation.decibans:+6.1f}  together (decibans; +10 is ten to one)")
    return lines


def _estimate(diagnosis: Diagnosis, currency: str) -> list[str]:
    lines = []
    if diagnosis.minutes:
        lines.append(
            f"  Half of such repairs take up to {diagnosis.minutes.p50:.0f} min, nine in ten up to"
            f" {diagnosis.minutes.p90:.0f} min."
        )
    if diagnosis.parts_cost:
        lines.append(
            f"  Parts: half up to {diagnosis.parts_cost.p50:.2f} {currency}, nine in ten up to"
            f" {diagnosis.parts_cost.p90:.2f} {currency}."
        )
    lost, of = diagnosis.not_repaired
    if lost:
        lines.append(f"  {lost} of {of} in the class were handed back unrepaired.")
    return lines or ["  Too few repairs are written up for an estimate."]


def cannot_tell(diagnosis: Diagnosis, vocabulary: Vocabulary) -> list[str]:
    """What the answer does not know, in sentences; never empty."""
    said = []
    number = dict(diagnosis.counted)["class"]
    label = vocabulary.label("class", diagnosis.question.equipment_class).lower()
    if diagnosis.rests_on_none:
        said.append(
            f"No repair of a {label} is written up: this rests on none, only on its blocks, the usual parts and"
            " handbook ratios."
        )
    elif number < _FEW:
        said.append(f"Only {_number(number, 'repair')} of a {label} written up: take the order as a hint.")
    if diagnosis.causes and diagnosis.causes[0].not_seen_before:
        said.append("This is unlike what is written up: most likely something not seen before. Go by the blocks.")
    if not (diagnosis.question.seen or diagnosis.question.absent or diagnosis.question.results):
        said.append("No symptom and no test was understood: this is only how often each cause was met.")
    for contradiction in diagnosis.contradictions:
        said.append(f"Contradiction: {contradiction}.")
    if diagnosis.conflict > _CONFLICT:
        said.append("What was seen and measured hardly goes together: check the readings, or reckon with two faults.")
    if diagnosis.explanation and diagnosis.explanation.is_inseparable:
        first, second = (_short(c, vocabulary) for c in (diagnosis.explanation.leader, diagnosis.explanation.rival))
        if diagnosis.separating:
            test, block = diagnosis.separating
            which = f"{vocabulary.label('test', test).lower()} of the {vocabulary.label('block', block).lower()} would"
        else:
            which = "no test at hand would for sure"
        said.append(f"The evidence does not separate {first} from {second}; {which}.")
    for result in diagnosis.question.results:
        if result.clears_nothing and result.outcome == "normal":
            said.append(f"{vocabulary.label('test', result.test)} while the fault was away clears nothing.")
    said.append("Counts are of what somebody wrote up, not of how often things fail.")
    return said


def _short(cause: Hypothesis, vocabulary: Vocabulary) -> str:
    return "something not seen before" if cause == NOT_SEEN_BEFORE else hypothesis_name(cause, vocabulary).lower()


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def as_data(diagnosis: Diagnosis, vocabulary: Vocabulary, currency: str) -> dict[str, Any]:
    """The answer as plain data: probabilities sum to 1, minutes are minutes, money is in ``currency``."""
    question = diagnosis.question
    steps = [_step_data(step, vocabulary) for step in diagnosis.steps]
    return {
        "read_as": {
            "class": question.equipment_class,
            "maker": question.maker or None,
            "model": question.model or None,
            "boards": list(question.boards),
            "symptoms": list(question.seen),
            "not_seen": sorted(question.absent),
            "tests": [
                {
                    "test": r.test, "target": r.target or None, "component_class": r.component or None,
                    "outcome": r.outcome, "side": r.side or None, "load": r.load or None, "text": r.text,
                }
                for r in question.results
            ],
            "unread": list(question.unread),
        },
        "entries_at": dict(diagnosis.counted),
        "causes": [
            {
                "label": cause_name(cause, vocabulary),
                "block": cause.cause.block or None,
                "component_class": cause.cause.component or None,
                "failure_mode": cause.cause.mode or None,
                "not_seen_before": cause.not_seen_before,
                "is_rest_of_block": cause.is_rest,
                "probability": cause.probability,
                "entries": list(cause.entries),
                "proof": cause.proof or None,
                "evidence": [
                    {
                        "kind": line.kind, "id": line.id, "decibans": line.decibans, "words": line.words,
                        "text": evidence_sentence(line, diagnosis, vocabulary),
                    }
                    for line in cause.evidence
                ],
            }
            for cause in diagnosis.causes
        ],
        "next_step": steps[0] if steps else None,
        "plan": steps,
        "half_split": list(diagnosis.half_split) if diagnosis.half_split else None,
        "estimate": {
            "minutes": _figures(diagnosis.minutes),
            "parts_cost": _figures(diagnosis.parts_cost),
            "currency": currency,
        },
        "consequences": [
            {
                "block": c.found.block or None, "component_class": c.found.component or None,
                "failure_mode": c.found.mode or None, "entries": c.entries, "of": c.of,
            }
            for c in diagnosis.consequences
        ],
        "worth_asking": list(diagnosis.worth_asking),
        "contradictions": list(diagnosis.contradictions),
        "conflict_decibans": diagnosis.conflict,
        "rests_on_none": diagnosis.rests_on_none,
        "cannot_tell": cannot_tell(diagnosis, vocabulary),
        "caution": diagnosis.caution,
    }  # fmt: skip


def _step_data(step: Step, vocabulary: Vocabulary) -> dict[str, Any]:
    cautions: Sequence[str] = [
        hazard.caution for h in step.hazards if (hazard := vocabulary.get_as(Hazard, h)) is not None
    ]
    return {
        "kind": step.kind,
        "text": step_name(step, vocabulary),
        "test": step.test or None,
        "target": step.target or None,
        "component_class": step.component or None,
        "power": step.power,
        "minutes": step.minutes,
        "minutes_saved": step.saves,
        "opening": step.opening or None,
        "before_test": step.for_test or None,
        "why": why_step(step, vocabulary),
        "cautions": list(cautions),
    }


def _figures(figures: Any) -> dict[str, float] | None:
    return {"p50": figures.p50, "p90": figures.p90} if figures else None
