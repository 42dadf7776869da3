"""The components met in entries: the list, and for each where it fails, how, what stood in for it, what did not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.publish.page import Page
from benchlore.publish.sections.entry_list import line, newest_first, slices
from benchlore.publish.sections.parts import stand_in_text
from benchlore.publish.sections.plate import Link
from benchlore.publish.sections.statements import ROLES
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import COMPONENTS
from benchlore.publish.wording import capital, count, unbroken
from benchlore.terms.model import ComponentClass

MOST_PARTS = 30
MOST_MODES = 12


@dataclass(frozen=True, slots=True)
class PartUsed:
    """A part that was fitted, tried, considered or rejected in one repair."""

    type: str
    use: str
    original: str
    note: str
    stand_in: str
    entry: Link


def pages(site: SiteData) -> Iterator[Page]:
    """The list of the component classes that entries name, and a page for each."""
    ordered = sorted(site.by_component, key=lambda i: (site.label("component", i).lower(), i))
    yield Page(
        url=COMPONENTS,
        title="Components",
        template="components.html",
        data={"components": tuple(_listed(component_id, site) for component_id in ordered)},
        description="Every component met in a repair: where it fails, how, and what has stood in for it.",
        section=COMPONENTS,
        updated=site.newest,
    )
    for component_id in sorted(site.by_component):
        yield from _component_pages(component_id, site)


def _listed(component_id: str, site: SiteData) -> tuple[Link, str, str]:
    term = site.vocabulary.get("component", component_id)
    link = Link(site.label("component", component_id), site.addresses.component(component_id))
    return link, term.definition if term else "", count(len(site.by_component[component_id]), "repair")


def _component_pages(component_id: str, site: SiteData) -> Iterator[Page]:
    records = site.by_component[component_id]
    label = site.label("component", component_id)
    term = site.vocabulary.get_as(ComponentClass, component_id)
    modes: Counter[str] = Counter()
    places: Counter[str] = Counter()
    roles: Counter[str] = Counter()
    for record in records:
        entry = record.entry
        for cause in ([entry.root_cause] if entry.root_cause else []) + list(entry.also_found):
            if cause.component_class == component_id:
                modes[cause.failure_mode or ""] += 1
                places[cause.block or ""] += 1
                roles[getattr(cause, "role", "")] += 1
    facts = {
        "label": label,
        "definition": term.definition if term else "",
        "typical": tuple(term.typical) if term else (),
        "safety_critical": bool(term and term.safety_critical),
        "modes": _counted(modes, "failure-mode", site),
        "places": _counted(places, "block", site),
        "roles": tuple(
            (capital(ROLES[role]) if role else "The cause itself", n)
            for role, n in sorted(roles.items(), key=lambda item: (item[0] != "", -item[1], item[0]))
        ),
        "parts": _parts(component_id, site),
        "repairs": count(len(records), "repair"),
    }
    for part in slices(newest_first(records), site.addresses.component(component_id) or ""):
        yield Page(
            url=part.url,
            title=label if part.number == 1 else f"{label}, page {part.number}",
            template="component.html",
            data={**facts, "slice": part, "lines": tuple(line(record, site) for record in part.items)},
            description=f"{label}: where it fails and how, and what has stood in for it.",
            section=COMPONENTS,
            updated=max(r.entry.date for r in records),
        )


def _counted(counter: Counter[str], kind: str, site: SiteData) -> tuple[tuple[str, int], ...]:
    ordered = sorted(counter.items(), key=lambda item: (-item[1], item[0]))[:MOST_MODES]
    return tuple((site.label(kind, key) if key else "Not recorded", n) for key, n in ordered)


def _parts(component_id: str, site: SiteData) -> tuple[PartUsed, ...]:
    found = []
    for record in reversed(site.by_component[component_id]):
        for part in record.entry.parts:
            if part.component_class != component_id or not (part.type or part.ref):
                continue
            original = part.original.type if part.original and part.original != "same" else None
            found.append(
                PartUsed(
                    type=unbroken(part.type or part.ref or ""),
                    use={"tried": "tried, no difference"}.get(part.use, part.use),
                    original="same as the original" if part.original == "same" else unbroken(original or ""),
                    note=unbroken(part.note or ""),
                    stand_in=stand_in_text(part, site),
                    entry=Link(site.equipment_name(record.entry.equipment), site.addresses.entry(record.slug)),
                )
            )
            if len(found) == MOST_PARTS:
                return tuple(found)
    return tuple(found)
