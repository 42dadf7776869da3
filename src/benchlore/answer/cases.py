"""What an entry teaches diagnosis: its causes, symptoms and tests, and the levels at which it counts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from benchlore.answer.hypotheses import Hypothesis
from benchlore.read.base import Record
from benchlore.read.entry import Cause, Equipment
from benchlore.terms.fold import compact

_SUSPECTED = 0.5
"""Weight of a cause that was only suspected."""
_UNKNOWN = {"", "unknown", "?", "-"}


@dataclass(frozen=True, slots=True)
class TestSeen:
    """A test as an entry tells it; ``target`` is a block or empty."""

    __test__ = False

    test: str
    target: str
    outcome: str
    load: str = ""
    minutes: float | None = None


@dataclass(frozen=True, slots=True)
class Case:
    """One cause with what was seen of it.

    ``scopes`` are the levels it belongs to, as ``class:…``, ``board:…``, ``model:…``. A separate fault found on the
    same bench teaches how common it is, not what it looks like: ``has_symptoms`` is then false. Minutes are attended
    minutes; ``parts_cost`` is money in the currency of the shop, None where it is not known.
    """

    id: str
    cause: Hypothesis
    seen: frozenset[str] = frozenset()
    absent: frozenset[str] = frozenset()
    scopes: frozenset[str] = frozenset()
    weight: float = 1.0
    has_symptoms: bool = True
    date: str = ""
    tests: tuple[TestSeen, ...] = ()
    minutes: float | None = None
    repair_minutes: float | None = None
    work_minutes: float | None = None
    """Minutes without finding the fault, where that is told apart; else all of them."""
    parts_cost: float | None = None
    consequences: tuple[Hypothesis, ...] = field(default=())
    was_repaired: bool = True
    proof: str = ""
    """The check that proves it on the next unit."""

    @property
    def equipment_class(self) -> str:
        """The class of the unit."""
        return next((scope.partition(":")[2] for scope in self.scopes if scope.startswith("class:")), "")


def model_scope(equipment: Equipment) -> str:
    """``model:`` with maker and model folded; empty without a model."""
    model = (equipment.model or "").strip()
    if model.lower() in _UNKNOWN or not compact(model):
        return ""
    maker = (equipment.maker or "").strip()
    return f"model:{'' if maker.lower() in _UNKNOWN else compact(maker)}-{compact(model)}"


def board_scope(marking: str) -> str:
    """``board:`` with the marking folded."""
    return f"board:{compact(marking) or marking}"


def scopes_of(equipment: Equipment) -> frozenset[str]:
    """Every level that a unit belongs to."""
    scopes = {f"class:{equipment.class_}", *(board_scope(board.marking) for board in equipment.boards)}
    return frozenset(scopes | {model_scope(equipment)} - {""})


def cases_of(records: Iterable[Record], currency: str = "") -> list[Case]:
    """The cases that entries teach. Consequences, faults of the same event and of earlier repairs are no causes."""
    return [case for record in records for case in _cases(record, currency)]


def _cases(record: Record, currency: str) -> Iterator[Case]:
    entry = record.entry
    scopes = scopes_of(entry.equipment)
    symptoms = frozenset(s.term for s in entry.symptoms if s.term)
    cause = entry.root_cause
    if cause is not None and (hypothesis := _hypothesis(cause)) is not None:
        tests = tuple(
            TestSeen(t.test, t.target or "", t.outcome, t.load or "", t.minutes)
            for t in entry.tests
            if t.outcome != "inconclusive" and not (t.outcome == "normal" and t.fault_showing is False)
        )
        yield Case(
            id=record.slug,
            cause=hypothesis,
            seen=symptoms,
            absent=frozenset(entry.not_seen) - symptoms,
            scopes=scopes,
            weight=_SUSPECTED if cause.confidence == "suspected" else 1.0,
            date=entry.date.isoformat(),
            tests=tests,
            minutes=entry.minutes_spent,
            repair_minutes=entry.time.repair if entry.time else None,
            work_minutes=_work_minutes(record),
            parts_cost=_parts_cost(record, currency),
            consequences=tuple(
                found
                for also in entry.also_found
                if also.role == "consequence" and (found := _hypothesis(also)) is not None
            ),
            was_repaired=entry.outcome in {"repaired", "partly-repaired"},
            proof=cause.confirm_by or "",
        )
    for also in entry.also_found:
        if also.role == "separate" and (hypothesis := _hypothesis(also)) is not None:
            yield Case(record.slug, hypothesis, scopes=scopes, has_symptoms=False, date=entry.date.isoformat())


def _hypothesis(cause: Cause) -> Hypothesis | None:
    found = Hypothesis(cause.block or "", cause.component_class or "", cause.failure_mode or "")
    return found if any(found) else None


def _work_minutes(record: Record) -> float | None:
    spent = record.entry.time
    told = [m for m in (spent.repair, spent.prove) if m is not None] if spent else []
    return sum(told) if told else record.entry.minutes_spent


def _parts_cost(record: Record, currency: str) -> float | None:
    fitted = [part for part in record.entry.parts if part.use == "fitted"]
    total = 0.0
    for part in fitted:
        price = part.unit_price
        if price is None or (currency and (price.currency or currency) != currency):
            return None
        total += float(price.amount) * part.quantity
    return total


def within(cases: Iterable[Case], scopes: Sequence[str]) -> list[Case]:
    """The cases that share a scope with ``scopes``."""
    wanted = frozenset(scopes)
    return [case for case in cases if case.scopes & wanted]
