"""The page types, one file each; every module has ``pages(site)`` and is listed here."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.publish.page import Page
from benchlore.publish.pages import (
    bench_helpers,
    board,
    cautions,
    component,
    entry,
    equipment_class,
    figures,
    home,
    model,
    rule,
    search,
    symptom,
)
from benchlore.publish.site_data import SiteData

PAGE_TYPES = (
    home, search, entry, equipment_class, symptom, board, model, component, cautions, rule, figures, bench_helpers,
)  # fmt: skip
"""In the order they are rendered."""

WAYS = (("Classes", "classes.html"), ("Symptoms", "symptoms.html"), ("Boards", "boards.html"))
"""The main navigation: title and address."""


def all_pages(site: SiteData) -> Iterator[Page]:
    """Every generated page of the site."""
    for page_type in PAGE_TYPES:
        yield from page_type.pages(site)
