"""What is asked about a unit: identity, what is seen and not there, tests, readings; read from plain words too."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from benchlore.answer.cases import board_scope, model_scope
from benchlore.answer.evidence import Outcome, Result
from benchlore.answer.tallies import Level
from benchlore.quantity.scan import find_quantities
from benchlore.read.base import Record
from benchlore.terms.fold import compact, words
from benchlore.terms.model import EquipmentClass, Test
from benchlore.terms.recogniser import Found
from benchlore.terms.vocabulary import Vocabulary

ELSEWHERE = "all equipment"
"""Name of the broadest level of counting."""
RAIL_LOW, RAIL_HIGH = 0.9, 1.1
"""A supply outside these shares of its nominal is taken as off, where no tolerance is given (common practice)."""
SUPPLY_BLOCKS = (
    "low-voltage-supply", "switching-secondary", "linear-regulation", "standby-supply", "output-stage",
    "bridge-and-bulk", "charge-control", "dc-input",
)  # fmt: skip
"""Where a rail is made, in the order in which an unnamed one is looked for."""
_GOOD = frozenset(
    {
        "ok", "okay", "good", "fine", "normal", "healthy", "passes", "passed", "pass", "perfect", "steady", "intact",
        "sound",
    }
)
_BAD = frozenset(
    {
        "bad", "low", "high", "abnormal", "failed", "fails", "fail", "faulty", "wrong", "shorted", "short", "open",
        "blown", "leaky", "dead", "missing", "zero", "nothing",
    }
)
_NOT = frozenset(["not", "no", "never", "isnt", "wasnt", "without"])
_CLAUSE = re.compile(r"[;\n]|,(?!\d)|\.(?=\s|$)|\b(?:but|and)\b", re.IGNORECASE)
_LOAD_OFF = re.compile(
    r"\b(?:no|off|without)[ -](?:the )?loads?\b|\bloads?\b[^,;.]{0,24}\b(?:off|disconnected|unplugged|removed)\b"
    r"|\b(?:disconnected|unplugged)\b[^,;.]{0,24}\bloads?\b",
    re.IGNORECASE,
)
_READS = re.compile(
    r"\b(?:reads?|reading|measures?|measured|shows?|showing|is|at|only|down to|sits at|gives?)\b"
    r"[^\d,;]{0,12}(-?\d+(?:\.\d+)?)(?![\w.])",
    re.IGNORECASE,
)
_AWAY = re.compile(r"\b(?:while|when) (?:it|the fault|the unit) (?:was|is) (?:working|fine|ok|away)\b", re.IGNORECASE)
_LONGEST_RUN = 4


@dataclass(frozen=True, slots=True)
class KnownUnit:
    """A model as entries tell it: class, maker, boards by folded marking with the spelling and revisions met."""

    equipment_class: str
    maker: str
    model: str
    scope: str
    boards: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """Everything known about the unit in hand. ``unread`` are stretches of free text that nothing was made of."""

    equipment_class: str = ""
    maker: str = ""
    model: str = ""
    boards: tuple[str, ...] = ()
    seen: Mapping[str, float] = field(default_factory=dict)
    absent: frozenset[str] = frozenset()
    results: tuple[Result, ...] = ()
    unread: tuple[str, ...] = ()


def known_units(records: Iterable[Record]) -> list[KnownUnit]:
    """The models that entries name, each with every board met in it."""
    found: dict[str, KnownUnit] = {}
    for record in records:
        equipment = record.entry.equipment
        scope = model_scope(equipment) or f"none:{record.slug}"
        boards = tuple(board.marking for board in equipment.boards)
        earlier = found.get(scope)
        if earlier:
            have = {board_scope(b) for b in earlier.boards}
            boards = (*earlier.boards, *(b for b in boards if board_scope(b) not in have))
        maker = equipment.maker or ""
        model = "" if scope.startswith("none:") else equipment.model or ""
        found[scope] = KnownUnit(equipment.class_, maker, model, scope, boards)
    return list(found.values())


def identified(question: Question, units: Sequence[KnownUnit]) -> Question:
    """The question with what the entries know of its model and boards: class, maker, boards."""
    model = compact(question.model)
    matching = [
        u for u in units
        if model and compact(u.model) == model and (not question.maker or compact(u.maker) == compact(question.maker))
    ]  # fmt: skip
    makers = {u.maker for u in matching}
    boards = list(question.boards)
    for unit in matching:
        boards += [b for b in unit.boards if board_scope(b) not in {board_scope(x) for x in boards}]
    wanted = {board_scope(b) for b in boards}
    classes = [u.equipment_class for u in matching] or [
        u.equipment_class for u in units if wanted & {board_scope(b) for b in u.boards}
    ]
    return replace(
        question,
        equipment_class=question.equipment_class or (classes[0] if classes else ""),
        maker=question.maker or (makers.pop() if len(makers) == 1 else ""),
        model=matching[0].model if matching else question.model,
        boards=tuple(boards),
    )


def levels_of(question: Question, units: Sequence[KnownUnit]) -> list[Level]:
    """The levels to count at: all equipment, the class, its boards, the model."""
    levels = [Level(ELSEWHERE), Level("class", (f"class:{question.equipment_class}",))]
    if question.boards:
        levels.append(Level("board", tuple(board_scope(b) for b in question.boards)))
    model = compact(question.model)
    scopes = {
        u.scope for u in units
        if model and compact(u.model) == model and (not question.maker or compact(u.maker) == compact(question.maker))
    }  # fmt: skip
    if scopes:
        levels.append(Level("model", tuple(sorted(scopes))))
    return levels


def read_words(
    text: str, vocabulary: Vocabulary, units: Sequence[KnownUnit], given: Question | None = None
) -> Question:
    """What plain words say of a unit, added to ``given``; any text can be read, nothing is guessed from nothing.

    Known models and markings are taken first, in any spelling; then, clause by clause, symptoms (negated ones are "not
    there"), tests with their outcome, and readings of a rail against its nominal.
    """
    question = given or Question()
    taken: list[tuple[int, int]] = []
    model, maker, boards = _names(text, units, taken)
    question = identified(
        replace(
            question,
            model=question.model or model,
            maker=question.maker or maker,
            boards=(*question.boards, *(b for b in boards if b not in question.boards)),
        ),
        units,
    )
    found = [f for f in vocabulary.recogniser.find_in(text) if not _overlaps(f.start, f.end, taken)]
    if not question.equipment_class:
        classes = [f for f in found if f.kind == "class" and not f.negated]
        if classes:
            question = replace(question, equipment_class=max(classes, key=lambda f: f.end - f.start).id)
    seen, absent = dict(question.seen), set(question.absent)
    results, unread = list(question.results), list(question.unread)
    for start, end in _clauses(text):
        here = [f for f in found if start <= f.start and f.end <= end]
        symptoms = [f for f in here if f.kind == "symptom"]
        made = _reading(text[start:end], here, question.equipment_class, vocabulary) or _test(
            text[start:end], start, here, question.equipment_class, vocabulary
        )
        for symptom in symptoms:
            if symptom.negated:
                absent.add(symptom.id)
            else:
                seen[symptom.id] = 1.0
        if made:
            results.append(made)
        elif not symptoms:
            known = [(f.start - start, f.end - start) for f in here if f.kind == "class"]
            known += [(a - start, b - start) for a, b in taken]
            left = [w for w in words(text[start:end]) if len(w.text) > 2 and not _overlaps(w.start, w.end, known)]
            if left:
                unread.append(text[start + left[0].start : start + left[-1].end])
    return replace(
        question, seen=seen, absent=frozenset(absent), results=tuple(results), unread=tuple(unread)
    )


def _names(
    text: str, units: Sequence[KnownUnit], taken: list[tuple[int, int]]
) -> tuple[str, str, list[str]]:
    models = {compact(u.model): u for u in units if u.model}
    markings = {compact(b): b for u in units for b in u.boards if compact(b)}
    makers = {compact(u.maker): u.maker for u in units if compact(u.maker) and compact(u.maker) != "unknown"}
    model, maker, boards = "", "", []
    at, parts = 0, words(text)
    while at < len(parts):
        for count in range(min(_LONGEST_RUN, len(parts) - at), 0, -1):
            start, end = parts[at].start, parts[at + count - 1].end
            key = compact(text[start:end])
            gaps = zip(parts[at:], parts[at + 1 : at + count], strict=False)
            if len(key) < 2 or any(later.start - earlier.end > 2 for earlier, later in gaps):
                continue
            if key in models and any(c.isdigit() for c in key):
                model, maker = model or models[key].model, maker or models[key].maker
            elif key in markings and any(c.isdigit() for c in key):
                boards.append(markings[key])
            elif key in makers:
                maker = makers[key]
            else:
                continue
            taken.append((start, end))
            at += count - 1
            break
        at += 1
    return model, maker, boards


def _overlaps(start: int, end: int, taken: Iterable[tuple[int, int]]) -> bool:
    return any(start < b and a < end for a, b in taken)


def _clauses(text: str) -> list[tuple[int, int]]:
    spans, at = [], 0
    for match in _CLAUSE.finditer(text):
        spans.append((at, match.start()))
        at = match.end()
    return [(a, b) for a, b in [*spans, (at, len(text))] if b > a]


def _reading(clause: str, found: Sequence[Found], equipment_class: str, vocabulary: Vocabulary) -> Result | None:
    volts = [s for s in find_quantities(clause) if s.quantity.unit == "V" and s.quantity.value is not None]
    if not volts:
        return None
    nominal = volts[0].quantity.value
    value = volts[1].quantity.value if len(volts) > 1 else None
    if value is None and (told := _READS.search(clause, volts[0].end)):
        value = float(told[1])
    if not nominal or value is None:
        outcome = _outcome(clause)
        is_rail = re.search(r"\b(?:rail|supply|line|bus)\b", clause[volts[0].end :], re.IGNORECASE)
        if outcome is None or not is_rail or not nominal:
            return None
        side = "low" if re.search(r"\blow|dead|zero|nothing|missing\b", clause, re.IGNORECASE) else ""
    else:
        share = value / nominal
        side = "low" if share < RAIL_LOW else "high" if share > RAIL_HIGH else ""
        outcome = "abnormal" if side else "normal"
    target = _block(found, equipment_class, vocabulary)
    if not target:
        return None
    return Result(
        "voltage-check", target, outcome, load="disconnected" if _LOAD_OFF.search(clause) else "", side=side,
        fault_showing=False if _AWAY.search(clause) else None, text=clause.strip(),
    )  # fmt: skip


def supply_block(equipment_class: str, vocabulary: Vocabulary) -> str:
    """The block of a class that makes an unnamed rail; empty when it has none."""
    term = vocabulary.get_as(EquipmentClass, equipment_class)
    blocks = term.blocks if term else ()
    return next((block for block in SUPPLY_BLOCKS if block in blocks), "")


def _block(found: Sequence[Found], equipment_class: str, vocabulary: Vocabulary) -> str:
    term = vocabulary.get_as(EquipmentClass, equipment_class)
    blocks = term.blocks if term else ()
    named = next((f.id for f in found if f.kind == "block" and f.id in blocks), "")
    return named or supply_block(equipment_class, vocabulary)


def _test(
    clause: str, start: int, found: Sequence[Found], equipment_class: str, vocabulary: Vocabulary
) -> Result | None:
    tests = [f for f in found if f.kind == "test"]
    if not tests:
        return None
    test = max(tests, key=lambda f: f.end - f.start)
    term = vocabulary.get_as(Test, test.id)
    of_class = vocabulary.get_as(EquipmentClass, equipment_class)
    blocks = of_class.blocks if of_class else ()
    target = next((f.id for f in found if f.kind == "block" and f.id in blocks), "")
    component = next((f.id for f in found if f.kind == "component"), "")
    if not target and term is not None:
        spoken = [b for b in blocks if term.speaks_about.get(b)]
        target = max(spoken, key=lambda b: term.speaks_about[b], default="") if not component else ""
    outcome: Outcome = _outcome(clause) or ("abnormal" if test.negated else "inconclusive")
    return Result(
        test.id, target, outcome, component=component, load="disconnected" if _LOAD_OFF.search(clause) else "",
        in_circuit=True if re.search(r"\bin[ -]circuit\b", clause, re.IGNORECASE) else None,
        fault_showing=False if _AWAY.search(clause) else None, text=clause.strip(),
    )  # fmt: skip


def _outcome(clause: str) -> Outcome | None:
    said = [word.text for word in words(clause)]
    for index, word in enumerate(said):
        if word in _GOOD or word in _BAD:
            flipped = any(before in _NOT for before in said[max(0, index - 2) : index])
            return "normal" if (word in _GOOD) != flipped else "abnormal"
    return None

