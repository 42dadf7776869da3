"""The cautions page: every hazard of the vocabulary with its caution; a hand-written page may introduce it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.publish.page import Page
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import CAUTIONS
from benchlore.terms.model import Hazard


@dataclass(frozen=True, slots=True)
class HazardText:
    """One hazard with its place on the page (``id``) and its texts."""

    id: str
    label: str
    sign: str
    caution: str
    why: str
    before_opening: str
    before_power: str
    stop_when: str


def pages(site: SiteData) -> Iterator[Page]:
    """The page as it is when nobody wrote an introduction."""
    yield Page(
        url=CAUTIONS,
        title="Cautions",
        template="cautions.html",
        data={"hazards": hazards(site)},
        description="The usual cautions of bench work, hazard by hazard.",
        section=CAUTIONS,
    )


def hazards(site: SiteData) -> tuple[HazardText, ...]:
    """Every hazard in use, the gravest first."""
    found = [
        (term_id, term)
        for term_id, term in site.vocabulary.terms("hazard").items()
        if isinstance(term, Hazard) and not term.replaced_by
    ]
    found.sort(key=lambda pair: (-pair[1].severity, pair[1].label.lower()))
    return tuple(
        HazardText(i, t.label, t.sign, t.caution, t.why, t.before_opening, t.before_power, t.stop_when)
        for i, t in found
    )
