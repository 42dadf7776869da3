"""The end of an entry page: documents, notes, earlier visit, related entries; who wrote it, when, which licence."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from benchlore.publish.markdown import to_html, web_address
from benchlore.publish.sections.entry_list import Line, line
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import capital, day
from benchlore.read.base import Record
from benchlore.read.entry import FaultEntry
from benchlore.terms.fold import compact

KINDS = {
    "schematic": "schematic",
    "service-manual": "service manual",
    "user-manual": "user manual",
    "data-sheet": "data sheet",
    "parts-list": "parts list",
    "layout": "board layout",
    "other": "document",
}


@dataclass(frozen=True, slots=True)
class DocumentLine:
    """A document that helped: its title, what it is, what it covers, and its web address if it has one."""

    title: str
    what: str
    covers: Link | None
    link: str | None


@dataclass(frozen=True, slots=True)
class Closing:
    """What stands below the repair itself."""

    documents: tuple[DocumentLine, ...]
    history: tuple[str, ...]
    notes: Markup | None
    related: tuple[Line, ...]
    earlier_visit: Link | None
    author: str
    date: str
    licence: str


def closing(record: Record, site: SiteData) -> Closing:
    """The end of the page of ``record``."""
    entry = record.entry
    earlier = site.addresses.entry(entry.follows) if entry.follows else None
    return Closing(
        documents=documents(entry, site),
        history=_history(entry),
        notes=to_html(entry.notes) if entry.notes and entry.notes.strip() else None,
        related=tuple(line(related.record, site, related.why) for related in site.related(record)),
        earlier_visit=Link("an earlier visit of this unit", earlier) if earlier else None,
        author=entry.author or "",
        date=day(entry.date),
        licence=entry.licence or site.shop.licence or "",
    )


def documents(entry: FaultEntry, site: SiteData) -> tuple[DocumentLine, ...]:
    """The documents of an entry; what they cover is linked where it is a board with a page."""
    lines = []
    for document in entry.documents:
        covers = None
        if document.covers:
            covers = Link(document.covers, site.addresses.board(compact(document.covers)))
        link = document.link if document.link and web_address(document.link) else None
        lines.append(DocumentLine(document.title, KINDS.get(document.kind or "", ""), covers, link))
    return tuple(lines)


def _history(entry: FaultEntry) -> tuple[str, ...]:
    past = entry.history
    if not past:
        return ()
    events = {
        "dropped": "It had been dropped",
        "liquid": "Liquid had got in",
        "surge": "There had been a surge",
        "stored": "It had been stored for long",
    }
    told = [events.get(past.event or "", "")]
    told.append("Somebody had worked on it before" if past.earlier_repair == "yes" else "")
    told.append(capital(past.note or "").rstrip("."))
    return tuple(t for t in told if t)
