"""The page of one entry, and the pages at its former addresses that lead to it."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.publish.drawings.marks import scale_key
from benchlore.publish.page import Page
from benchlore.publish.sections.cautions import entry_cautions
from benchlore.publish.sections.checked import checked
from benchlore.publish.sections.closing import closing
from benchlore.publish.sections.found import found
from benchlore.publish.sections.parts import PartRow, parts
from benchlore.publish.sections.plate import plate
from benchlore.publish.sections.readings import readings
from benchlore.publish.sections.statements import statements, under_title
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import CLASSES, address
from benchlore.publish.wording import capital, inside, listed, unbroken
from benchlore.read.base import Record
from benchlore.read.entry import Fix

_KEY = scale_key()


def pages(site: SiteData) -> Iterator[Page]:
    """A page for every entry, and one for every former slug that no entry has now."""
    for record in site.records:
        yield _page(record, site)
    taken = {site.addresses.entry(slug) for slug in site.by_slug}
    for record in site.records:
        for slug in record.entry.formerly:
            url = f"e/{address(slug)}.html"
            if url not in taken:
                taken.add(url)
                yield _moved(url, record, site)


def _page(record: Record, site: SiteData) -> Page:
    entry = record.entry
    shown_parts = parts(entry, site)
    gist = statements(entry, site)
    return Page(
        url=site.addresses.entry(record.slug) or "",
        title=f"{site.equipment_name(entry.equipment)}: {entry.title}",
        template="entry.html",
        data={
            "entry_title": unbroken(entry.title),
            "iso_date": entry.date.isoformat(),
            "facts": under_title(entry, site),
            "box": entry_cautions(entry, site),
            "plate": plate(record, site),
            "gist": gist,
            "found": found(entry, site),
            "readings": readings(entry, site),
            "key": _KEY,
            "fix": _fix(entry.fix, site) if entry.fix else None,
            "parts": shown_parts,
            "parts_heading": _parts_heading(shown_parts),
            "parts_mixed": len({part.use for part in shown_parts}) > 1,
            "checked": checked(entry, site),
            "end": closing(record, site),
        },
        description=f"{site.equipment_name(entry.equipment)}. It was: {gist.was}.",
        section=CLASSES,
        updated=max([entry.date, *(later.date for later in entry.follow_up)]),
    )


def _moved(url: str, record: Record, site: SiteData) -> Page:
    target = site.addresses.entry(record.slug) or ""
    return Page(
        url=url,
        title=record.entry.title,
        template="moved.html",
        data={"target": target, "target_title": record.entry.title},
        section=CLASSES,
        listed=False,
    )


def _fix(fix: Fix, site: SiteData) -> dict[str, object] | None:
    if not (fix.actions or fix.steps or fix.tools):
        return None
    tools = listed([inside(site.label("tool", tool)) for tool in fix.tools])
    return {"steps": tuple(unbroken(capital(step)) for step in fix.steps), "tools": tools}


def _parts_heading(shown: tuple[PartRow, ...]) -> str:
    uses = {part.use for part in shown}
    if uses == {"fitted"}:
        return "Part fitted" if len(shown) == 1 else "Parts fitted"
    return "Parts"
