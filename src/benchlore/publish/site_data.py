"""What the pages need to know of a base, worked out once: records by class, symptom, board, model; labels; sisters."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from benchlore.publish.urls import Addresses
from benchlore.publish.wording import inside
from benchlore.read.base import Base, Record
from benchlore.read.entry import Board, Cause, Equipment, FaultEntry
from benchlore.terms.fold import compact

NEIGHBOURS = 4
"""How many entries either side in date order are looked at for each thing shared; bounds the work and the changes."""
RELATED = 5
_K = TypeVar("_K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class BoardUse:
    """A board by its folded marking: how it is mostly spelled, who carries it, in which revisions."""

    key: str
    marking: str
    records: tuple[Record, ...]
    revisions: tuple[str, ...]
    model_keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ModelUse:
    """A model by maker and model number, folded: how it is mostly spelled, and its records."""

    key: str
    maker: str | None
    model: str
    class_id: str
    records: tuple[Record, ...]

    @property
    def name(self) -> str:
        """Maker and model, or the model alone."""
        return f"{self.maker} {self.model}" if self.maker else self.model


@dataclass(frozen=True, slots=True)
class Related:
    """Another entry and why it is worth a look."""

    record: Record
    why: str


CauseKey = tuple[str, str]
"""Component class (or block) and failure mode; empty strings where not known."""


class SiteData:
    """Everything pages are made of. Nothing here depends on the clock or on the order of files."""

    def __init__(self, base: Base) -> None:
        self.shop = base.shop
        self.vocabulary = base.vocabulary
        self.root = base.root
        self.records: tuple[Record, ...] = tuple(sorted(base.records(), key=_date_order))
        """All entries, oldest first, then by slug."""
        self.by_slug = {record.slug: record for record in self.records}
        self.by_class = _grouped(self.records, lambda e: [e.equipment.class_])
        self.by_symptom = _grouped(self.records, lambda e: [s.term for s in e.symptoms if s.term])
        self.by_cause = _grouped(self.records, lambda e: [(e.equipment.class_, *k) for k in cause_keys(e)])
        self.by_component = _grouped(self.records, _component_classes)
        self.boards = self._boards()
        self.models = self._models()
        classes = self.vocabulary.terms("class")
        self.addresses = Addresses(
            entries=self.by_slug,
            classes={*self.by_class, *(i for i, term in classes.items() if not term.replaced_by)},
            symptoms=self.by_symptom,
            boards=self.boards,
            models=self.models,
            components=self.by_component,
        )
        self._on_boards: dict[tuple[str, ...], list[ModelUse]] = {}
        self._positions = {record.slug: _date_order(record) for record in self.records}

    @cached_property
    def newest(self) -> dt.date | None:
        """The newest date of an entry."""
        return self.records[-1].entry.date if self.records else None

    def label(self, kind: str, term_id: str) -> str:
        """The term's label, else its id in words."""
        return self.vocabulary.label(kind, term_id)

    def equipment_name(self, equipment: Equipment) -> str:
        """Maker and model; without a model, the class and the board's marking."""
        maker = known(equipment.maker)
        model = known(equipment.model)
        if model:
            return f"{maker} {model}" if maker else model
        kind = self.label("class", equipment.class_)
        named = f"{maker} {kind[:1].lower()}{kind[1:]}" if maker else kind
        return f"{named}, board {equipment.boards[0].marking}" if equipment.boards else named

    def sisters(self, record: Record) -> list[ModelUse]:
        """Other models that carry a board this unit carries, by name."""
        own = model_key(record.entry.equipment)
        boards = tuple(sorted({board_key(board) for board in record.entry.equipment.boards}))
        if boards not in self._on_boards:
            keys = {key for board in boards for key in self.boards[board].model_keys}
            self._on_boards[boards] = sorted((self.models[key] for key in keys), key=lambda m: (m.name, m.key))
        return [model for model in self._on_boards[boards] if model.key != own]

    def related(self, record: Record) -> list[Related]:
        """At most five other entries: sharing a board, the cause, most symptoms; then nearest in date, then by slug."""
        entry = record.entry
        groups: list[Sequence[Record]] = [
            *(self.boards[board_key(b)].records for b in entry.equipment.boards),
            *(self.by_cause[(entry.equipment.class_, *key)] for key in cause_keys(entry)),
            *(self.by_symptom[s.term] for s in entry.symptoms if s.term),
        ]
        candidates = {other.slug: other for group in groups for other in self._near(record, group)}
        ranked = []
        for other in candidates.values():
            why, rank = self._shared(entry, other.entry)
            if why:
                distance = abs((other.entry.date - entry.date).days)
                ranked.append((rank, distance, other.slug, Related(other, why)))
        ranked.sort(key=lambda row: row[:3])
        return [row[3] for row in ranked[:RELATED]]

    def _near(self, record: Record, group: Sequence[Record]) -> list[Record]:
        place = bisect_left(group, self._positions[record.slug], key=_date_order)
        return [r for r in group[max(0, place - NEIGHBOURS) : place + NEIGHBOURS + 1] if r.slug != record.slug]

    def _shared(self, one: FaultEntry, other: FaultEntry) -> tuple[str, tuple[int, int, int]]:
        theirs = {board_key(b) for b in other.equipment.boards}
        board = next((b.marking for b in one.equipment.boards if board_key(b) in theirs), None)
        same_class = one.equipment.class_ == other.equipment.class_
        cause = same_class and bool(set(cause_keys(one)) & set(cause_keys(other)))
        seen = {s.term for s in other.symptoms}
        symptoms = [s.term for s in one.symptoms if s.term and s.term in seen]
        reasons = []
        if board:
            reasons.append(f"same board, {board}")
        if cause:
            reasons.append("same cause")
        if symptoms and (board or cause or same_class or len(symptoms) > 1):
            reasons.append(" and ".join(inside(self.label("symptom", s)) for s in symptoms[:2]))
        return "; ".join(reasons), (0 if board else 1, 0 if cause else 1, -len(symptoms))

    def _boards(self) -> dict[str, BoardUse]:
        records: defaultdict[str, dict[str, Record]] = defaultdict(dict)
        spelled: defaultdict[str, Counter[str]] = defaultdict(Counter)
        revisions: defaultdict[str, set[str]] = defaultdict(set)
        for record in self.records:
            for board in record.entry.equipment.boards:
                key = board_key(board)
                records[key][record.slug] = record
                spelled[key][board.marking] += 1
                if board.revision:
                    revisions[key].add(board.revision)
        boards = {}
        for key, carried in sorted(records.items()):
            models = {m for r in carried.values() if (m := model_key(r.entry.equipment))}
            boards[key] = BoardUse(
                key, _usual(spelled[key]), tuple(carried.values()), tuple(sorted(revisions[key])), tuple(sorted(models))
            )
        return boards

    def _models(self) -> dict[str, ModelUse]:
        groups = _grouped(self.records, lambda e: [key] if (key := model_key(e.equipment)) else [])
        models = {}
        for key, records in groups.items():
            equipment = [r.entry.equipment for r in records]
            maker = _usual(Counter(m for e in equipment if (m := known(e.maker)))) or None
            model = _usual(Counter(e.model for e in equipment if e.model))
            class_id = _usual(Counter(e.class_ for e in equipment))
            models[key] = ModelUse(key, maker, model, class_id, tuple(records))
        return models


def known(name: str | None) -> str | None:
    """A maker's or model's name, or None where it says that it is not known."""
    return name if name and name.strip().lower() not in {"unknown", "?", "-"} else None


def board_key(board: Board) -> str:
    """The folded marking; a marking of signs alone stays as it is."""
    return compact(board.marking) or board.marking


def model_key(equipment: Equipment) -> str | None:
    """What tells models apart: maker and model, folded; None without a model."""
    model = known(equipment.model)
    if not model or not compact(model):
        return None
    maker = compact(known(equipment.maker) or "")
    return f"{maker}-{compact(model)}" if maker else compact(model)


def cause_keys(entry: FaultEntry) -> list[CauseKey]:
    """The entry's cause as a key for counting: none, or one."""
    cause = entry.root_cause
    key = cause_key(cause) if cause else None
    return [key] if key else []


def cause_key(cause: Cause) -> CauseKey | None:
    """Component class (else the block) and failure mode; None when the cause names neither part nor mode."""
    where = cause.component_class or (f"block:{cause.block}" if cause.block else "")
    return (where, cause.failure_mode or "") if where or cause.failure_mode else None


def _component_classes(entry: FaultEntry) -> list[str]:
    causes = [entry.root_cause] if entry.root_cause else []
    found = [*(c.component_class for c in (*causes, *entry.also_found)), *(p.component_class for p in entry.parts)]
    return [c for c in dict.fromkeys(found) if c]


def _date_order(record: Record) -> tuple[dt.date, str]:
    return record.entry.date, record.slug


def _grouped(records: Iterable[Record], keys: Callable[[FaultEntry], Iterable[_K]]) -> dict[_K, list[Record]]:
    """Records by key, each group in the order given; an entry counts once for each key."""
    groups: dict[_K, list[Record]] = {}
    for record in records:
        for key in dict.fromkeys(keys(record.entry)):
            groups.setdefault(key, []).append(record)
    return groups


def _usual(spellings: Counter[str]) -> str:
    """The commonest spelling; among equals the first in order."""
    return min(spellings, key=lambda s: (-spellings[s], s), default="")
