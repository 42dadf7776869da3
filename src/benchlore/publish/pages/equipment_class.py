"""The list of equipment classes and the page of each: what it was, symptom against cause, blocks, readings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from benchlore.answer.cases import cases_of
from benchlore.answer.evidence import Wiring
from benchlore.answer.first_tests import first_tests
from benchlore.answer.hypotheses import base_shares
from benchlore.answer.steps import half_split
from benchlore.publish.page import Page
from benchlore.publish.sections.causes import causes, grid
from benchlore.publish.sections.cautions import class_cautions
from benchlore.publish.sections.closing import DocumentLine, documents
from benchlore.publish.sections.entry_list import line, newest_first, slices
from benchlore.publish.sections.plate import Link
from benchlore.publish.sections.readings import SOURCES, shown
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import CLASSES
from benchlore.publish.wording import capital, count, inside, unbroken
from benchlore.read.base import Record
from benchlore.terms.fold import compact
from benchlore.terms.model import EquipmentClass

MOST_READINGS = 20
MOST_DOCUMENTS = 20
FEW = 5
"""Repairs below which the chain of blocks is the better guide."""


@dataclass(frozen=True, slots=True)
class BlockRow:
    """A functional block in signal or power order, and how many repairs had their cause in it."""

    name: str
    definition: str
    hits: int


@dataclass(frozen=True, slots=True)
class TypicalReading:
    """What a point should read, where that is known from, and what it read after repair."""

    where: str
    condition: str
    expected: str
    source: str
    after: str
    entry: Link


def pages(site: SiteData) -> Iterator[Page]:
    """The list of classes, and a page (or several) for each class of the vocabulary or of an entry."""
    terms = site.vocabulary.terms("class")
    ids = {*site.by_class, *(i for i, term in terms.items() if not term.replaced_by)}
    ordered = sorted(ids, key=lambda i: (site.label("class", i).lower(), i))
    yield Page(
        url=CLASSES,
        title="Kinds of equipment",
        template="classes.html",
        data={
            "written_up": tuple(_listed(i, site) for i in ordered if i in site.by_class),
            "others": tuple(_listed(i, site) for i in ordered if i not in site.by_class),
        },
        description="Every kind of equipment, with what its repairs turned out to be.",
        section=CLASSES,
        updated=site.newest,
    )
    for class_id in ordered:
        yield from _class_pages(class_id, site)


def _listed(class_id: str, site: SiteData) -> tuple[Link, str, int]:
    term = site.vocabulary.get("class", class_id)
    link = Link(site.label("class", class_id), site.addresses.class_(class_id))
    return link, term.definition if term else "", len(site.by_class.get(class_id, ()))


def _class_pages(class_id: str, site: SiteData) -> Iterator[Page]:
    records = site.by_class.get(class_id, [])
    term = site.vocabulary.get_as(EquipmentClass, class_id)
    label = site.label("class", class_id)
    found = causes(records, site)
    facts = {
        "class_label": label,
        "definition": term.definition if term else "",
        "box": class_cautions(class_id, site),
        "repairs": count(len(records), "repair"),
        "found": found,
        "grid": grid(records, found, site),
        "blocks": _blocks(term, records, site),
        "first_tests": _first_tests(records, site),
        "half_split": _half_split(class_id, records, site),
        "readings": _typical(records, site),
        "documents": _documents(records, site),
    }
    url = site.addresses.class_(class_id) or ""
    for part in slices(newest_first(records), url):
        yield Page(
            url=part.url,
            title=label if part.number == 1 else f"{label}, page {part.number}",
            template="class.html",
            data={**facts, "slice": part, "lines": tuple(line(record, site) for record in part.items)},
            description=f"{label}: {count(len(records), 'repair')} written up, and what it was.",
            section=CLASSES,
            updated=records[-1].entry.date if records else None,
        )


def _blocks(term: EquipmentClass | None, records: Sequence[Record], site: SiteData) -> tuple[BlockRow, ...]:
    hits = Counter(r.entry.root_cause.block for r in records if r.entry.root_cause and r.entry.root_cause.block)
    order = list(term.blocks) if term else []
    order += sorted(block for block in hits if block not in order)
    rows = []
    for block in order:
        known = site.vocabulary.get("block", block)
        rows.append(BlockRow(site.label("block", block), known.definition if known else "", hits[block]))
    return tuple(rows)


def _first_tests(records: Sequence[Record], site: SiteData) -> tuple[str, ...]:
    """The tests that told most for their minutes, in words."""
    told = []
    for row in first_tests(cases_of(records)):
        place = f" ({inside(site.label('block', row.target))})" if row.target else ""
        minutes = f", {row.minutes:.0f}\u00a0min" if row.minutes else ""
        told.append(f"{site.label('test', row.test)}{place}: found something in {row.found} of {row.made}{minutes}")
    return tuple(told)


def _half_split(class_id: str, records: Sequence[Record], site: SiteData) -> tuple[str, str] | None:
    """Where to cut the chain of blocks while few repairs are written up."""
    if len(records) >= FEW:
        return None
    where = half_split(base_shares(class_id, site.vocabulary), Wiring(class_id, site.vocabulary))
    return (inside(site.label("block", where[0])), inside(site.label("block", where[1]))) if where else None


def _typical(records: Sequence[Record], site: SiteData) -> tuple[TypicalReading, ...]:
    """Readings whose limits somebody took from more than a guess, the newest for each point, by board and point."""
    found: dict[tuple[str, str, str], TypicalReading] = {}
    for record in reversed(records):
        equipment = record.entry.equipment
        board = equipment.boards[0].marking if equipment.boards else site.equipment_name(equipment)
        for m in record.entry.measurements:
            if m.expected is None or m.expected_from == "guess":
                continue
            key = (compact(board), compact(m.point), m.quantity)
            found.setdefault(
                key,
                TypicalReading(
                    where=unbroken(capital(f"{m.point} ({board})")),
                    condition=unbroken(m.condition or ""),
                    expected=shown(m.expected),
                    source=SOURCES.get(m.expected_from or "", ""),
                    after=shown(m.after),
                    entry=Link(site.equipment_name(equipment), site.addresses.entry(record.slug)),
                ),
            )
            if len(found) == MOST_READINGS:
                break
    return tuple(found[key] for key in sorted(found)[:MOST_READINGS])


def _documents(records: Sequence[Record], site: SiteData) -> tuple[DocumentLine, ...]:
    found: dict[tuple[str, str], DocumentLine] = {}
    for record in records:
        for document in documents(record.entry, site):
            covers = compact(document.covers.text) if document.covers else ""
            found.setdefault((compact(document.title), covers), document)
    return tuple(found[key] for key in sorted(found)[:MOST_DOCUMENTS])
