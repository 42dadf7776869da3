"""What a set of repairs turned out to be: causes counted, with intervals, and set against their symptoms."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from benchlore.answer.intervals import wilson
from benchlore.publish.drawings.bar import share_bar
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import CauseKey, SiteData, cause_keys
from benchlore.publish.wording import NBSP, capital, inside
from benchlore.read.base import Record

MOST_CAUSES = 12
MOST_COLUMNS = 8
MOST_SYMPTOMS = 14
LETTERS = "ABCDEFGHIJKL"


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause: its letter in the grid, how many of all it was, the drawn share with its interval, and in words."""

    letter: str
    name: str
    link: Link | None
    hits: int
    words: str
    bar: Markup


@dataclass(frozen=True, slots=True)
class Causes:
    """The causes, commonest first; ``others`` counts those beyond the list, ``unknown`` the repairs without a cause."""

    total: int
    rows: tuple[CauseRow, ...]
    others: int
    unknown: int


@dataclass(frozen=True, slots=True)
class GridRow:
    """One symptom against the causes; ``cells`` holds count and size (0..4) for each column."""

    symptom: Link
    cells: tuple[tuple[int, int], ...]
    hits: int


@dataclass(frozen=True, slots=True)
class Grid:
    """Symptoms against causes; ``columns`` are the letters of the cause rows."""

    columns: tuple[CauseRow, ...]
    rows: tuple[GridRow, ...]


def causes(records: Sequence[Record], site: SiteData) -> Causes:
    """The causes among ``records``; shares are of the repairs whose cause is known."""
    counted = _counted(records)
    known = sum(counted.values())
    ordered = sorted(counted, key=lambda key: (-counted[key], cause_name(key, site), key))
    rows = []
    for letter, key in zip(LETTERS, ordered, strict=False):
        hits = counted[key]
        low, high = wilson(hits, known)
        component = "" if key[0].startswith("block:") else key[0]
        url = site.addresses.component(component) if component else None
        name = capital(cause_name(key, site))
        rows.append(
            CauseRow(
                letter,
                name,
                Link(name, url) if url else None,
                hits,
                f"{hits} of {known}, {_percent(low, high)}",
                share_bar(hits / known, low, high),
            )
        )
    rows = rows[:MOST_CAUSES]
    return Causes(len(records), tuple(rows), known - sum(row.hits for row in rows), len(records) - known)


def grid(records: Sequence[Record], found: Causes, site: SiteData) -> Grid | None:
    """Symptoms against the commonest causes; None with fewer than two causes, where it would say nothing."""
    columns = found.rows[:MOST_COLUMNS]
    if len(columns) < 2:
        return None
    letters = {row.name: index for index, row in enumerate(columns)}
    counts: dict[str, Counter[int]] = {}
    seen: Counter[str] = Counter()
    for record in records:
        keys = cause_keys(record.entry)
        column = letters.get(capital(cause_name(keys[0], site))) if keys else None
        if column is None:
            continue
        for term in dict.fromkeys(s.term for s in record.entry.symptoms if s.term):
            counts.setdefault(term, Counter())[column] += 1
            seen[term] += 1
    most = max(4, *(n for row in counts.values() for n in row.values())) if counts else 4
    ordered = sorted(counts, key=lambda term: (-seen[term], site.label("symptom", term)))[:MOST_SYMPTOMS]
    rows = tuple(
        GridRow(
            Link(site.label("symptom", term), site.addresses.symptom(term)),
            tuple((n := counts[term][c], -(-4 * n // most) if n else 0) for c in range(len(columns))),
            seen[term],
        )
        for term in ordered
    )
    return Grid(columns, rows) if rows else None


def cause_name(key: CauseKey, site: SiteData) -> str:
    """``safety film capacitor, low capacitance``."""
    where, mode = key
    part = (
        site.label("block", where[6:])
        if where.startswith("block:")
        else site.label("component", where)
        if where
        else ""
    )
    return ", ".join(inside(p) for p in (part, site.label("failure-mode", mode) if mode else "") if p)


def _counted(records: Sequence[Record]) -> Counter[CauseKey]:
    return Counter(key for record in records for key in cause_keys(record.entry))


def _percent(low: float, high: float) -> str:
    return f"likely between {100 * low:.0f} and {100 * high:.0f}{NBSP}%"
