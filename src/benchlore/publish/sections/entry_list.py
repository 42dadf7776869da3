"""Entries as lines of a list: title, unit, cause, time, cost, whether it holds; and long lists cut into pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from benchlore.publish.sections.statements import OUTCOMES, parts_cost, short_cause
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import numbered
from benchlore.publish.wording import day, minutes_short, unbroken
from benchlore.read.base import Record

PER_PAGE = 200
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Line:
    """One entry in a list."""

    slug: str
    title: str
    url: str
    unit: str
    part: str
    mode: str
    facts: tuple[str, ...]
    date: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Slice(Generic[_T]):
    """One page of a long list: its address, its items, its number among ``total``, and its neighbours' addresses."""

    url: str
    items: tuple[_T, ...]
    number: int
    total: int
    previous: str | None
    following: str | None


def slices(items: Sequence[_T], url: str, size: int = PER_PAGE) -> Iterator[Slice[_T]]:
    """``items`` cut into pages, the first at ``url``; an empty list is one empty page."""
    total = max(1, -(-len(items) // size))
    for number in range(1, total + 1):
        yield Slice(
            url=numbered(url, number),
            items=tuple(items[(number - 1) * size : number * size]),
            number=number,
            total=total,
            previous=numbered(url, number - 1) if number > 1 else None,
            following=numbered(url, number + 1) if number < total else None,
        )


def line(record: Record, site: SiteData, why: str = "") -> Line:
    """The line for ``record``; ``why`` says why it is shown."""
    entry = record.entry
    part, mode = short_cause(entry, site)
    facts = []
    if entry.outcome != "repaired":
        facts.append(OUTCOMES[entry.outcome])
    if entry.minutes_spent is not None:
        facts.append(minutes_short(entry.minutes_spent))
    if cost := parts_cost(entry, site):
        facts.append(cost)
    return Line(
        slug=record.slug,
        title=unbroken(entry.title),
        url=site.addresses.entry(record.slug) or "",
        unit=site.equipment_name(entry.equipment),
        part=part,
        mode=mode,
        facts=tuple(facts),
        date=day(entry.date),
        why=why,
    )


def newest_first(records: Iterable[Record]) -> list[Record]:
    """Newest first; entries of one day by slug."""
    return sorted(records, key=lambda r: (-r.entry.date.toordinal(), r.slug))
