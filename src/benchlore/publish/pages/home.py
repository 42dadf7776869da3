"""The home page: search, what is new, the kinds of equipment, how much is known; and the page for a lost address."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.publish.page import Page
from benchlore.publish.sections.entry_list import line
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import HOME, NOT_FOUND
from benchlore.publish.wording import count

NEWEST = 10
MOST_CLASSES = 24


def pages(site: SiteData) -> Iterator[Page]:
    """The home page and the page for a lost address."""
    counts = sorted(site.by_class.items(), key=lambda item: (-len(item[1]), site.label("class", item[0])))
    yield Page(
        url=HOME,
        title=site.shop.name,
        template="home.html",
        data={
            "about": site.shop.about or "",
            "lines": tuple(line(record, site) for record in reversed(site.records[-NEWEST:])),
            "classes": tuple(
                (Link(site.label("class", class_id), site.addresses.class_(class_id)), len(records))
                for class_id, records in counts[:MOST_CLASSES]
            ),
            "more_classes": max(0, len(counts) - MOST_CLASSES),
            "known": _known(site),
        },
        description=site.shop.about or f"Repairs written up by {site.shop.name}.",
        section=HOME,
        updated=site.newest,
    )
    yield Page(
        url=NOT_FOUND,
        title="No such page",
        template="not_found.html",
        data={},
        listed=False,
    )


def _known(site: SiteData) -> tuple[str, ...]:
    return (
        count(len(site.records), "repair"),
        count(len(site.by_class), "kind") + " of equipment",
        count(len(site.models), "model"),
        count(len(site.boards), "board"),
    )
