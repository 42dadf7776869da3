"""The search page: an empty frame that the scripts fill; without scripts it leads to the lists."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from benchlore.publish.page import Page
from benchlore.publish.site_data import SiteData
from benchlore.publish.theme.script_lists import SEARCH_PAGE
from benchlore.publish.urls import SEARCH
from benchlore.quantity.scan import find_quantities


def pages(site: SiteData) -> Iterator[Page]:
    """The one search page."""
    yield Page(
        url=SEARCH,
        title="Search",
        template="search.html",
        data={"examples": _examples(site), "elsewhere": _elsewhere(site)},
        description=f"Search the repairs written up by {site.shop.name}.",
        section=SEARCH,
        scripts=SEARCH_PAGE,
    )


def _elsewhere(site: SiteData) -> dict[str, str]:
    """The pages of the few entries that do not lie at ``e/<slug>.html``."""
    found = {slug: site.addresses.entry(slug) for slug in site.by_slug}
    return {slug: url for slug, url in found.items() if url and url != f"e/{slug}.html"}


def _examples(site: SiteData) -> tuple[tuple[str, str], ...]:
    """What can be typed, each with what it finds; from the entries, so that every example finds something."""
    found: list[tuple[str, str]] = []
    if site.by_symptom:
        term = max(site.by_symptom.items(), key=lambda item: (len(item[1]), item[0]))[0]
        found.append((site.label("symptom", term).lower(), "what it does, in your own words"))
    boards = Counter({board.marking: len(board.model_keys) for board in site.boards.values()})
    if boards:
        marking = min(boards, key=lambda marking: (-boards[marking], marking))
        found.append((marking, "a marking on a board, spaces or not"))
    if site.models:
        model = min(site.models.values(), key=lambda use: (-len(use.records), use.key))
        found.append((model.model, "a model, with its sisters on the same board"))
    value = _a_value(site)
    if value:
        found.append((value, "a value, in any notation"))
    if site.by_class:
        class_id = max(site.by_class.items(), key=lambda item: (len(item[1]), item[0]))[0]
        found.append((f"class:{class_id}", "everything about one kind of equipment"))
    return tuple(found)


def _a_value(site: SiteData) -> str | None:
    """A resistance or capacitance that a part of some entry has, the newest entry first."""
    for record in reversed(site.records):
        for part in record.entry.parts:
            for rating in part.ratings.values():
                for span in find_quantities(rating):
                    if span.quantity.unit in ("ohm", "F"):
                        return span.quantity.text
    return None
