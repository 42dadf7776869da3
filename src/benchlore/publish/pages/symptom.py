"""The list of symptoms and the page of each: what it has turned out to be, for each kind of equipment."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.publish.page import Page
from benchlore.publish.sections.causes import Causes, causes
from benchlore.publish.sections.entry_list import line, newest_first, slices
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import SYMPTOMS
from benchlore.publish.wording import count
from benchlore.terms.model import Symptom

MOST_CLASSES = 12
MOST_ALONGSIDE = 8


@dataclass(frozen=True, slots=True)
class InClass:
    """What the symptom turned out to be in one equipment class."""

    class_link: Link
    repairs: str
    found: Causes


def pages(site: SiteData) -> Iterator[Page]:
    """The list of the symptoms that entries use, by group, and their pages."""
    groups: dict[str, list[tuple[Link, str, int]]] = {}
    for symptom_id in sorted(site.by_symptom, key=lambda i: (site.label("symptom", i).lower(), i)):
        term = site.vocabulary.get_as(Symptom, symptom_id)
        link = Link(site.label("symptom", symptom_id), site.addresses.symptom(symptom_id))
        row = (link, term.definition if term else "", len(site.by_symptom[symptom_id]))
        groups.setdefault(term.group if term else "other", []).append(row)
    yield Page(
        url=SYMPTOMS,
        title="Symptoms",
        template="symptoms.html",
        data={"groups": tuple((group, tuple(groups[group])) for group in sorted(groups))},
        description="Every symptom written up, and what it turned out to be.",
        section=SYMPTOMS,
        updated=site.newest,
    )
    for symptom_id in sorted(site.by_symptom):
        yield from _symptom_pages(symptom_id, site)


def _symptom_pages(symptom_id: str, site: SiteData) -> Iterator[Page]:
    records = site.by_symptom[symptom_id]
    label = site.label("symptom", symptom_id)
    term = site.vocabulary.get("symptom", symptom_id)
    by_class = Counter(r.entry.equipment.class_ for r in records)
    ordered = sorted(by_class, key=lambda c: (-by_class[c], site.label("class", c)))[:MOST_CLASSES]
    alongside = Counter(s.term for r in records for s in r.entry.symptoms if s.term and s.term != symptom_id)
    usual = sorted(alongside, key=lambda s: (-alongside[s], site.label("symptom", s)))[:MOST_ALONGSIDE]
    facts = {
        "label": label,
        "definition": term.definition if term else "",
        "phrases": tuple(term.phrases) if term else (),
        "repairs": count(len(records), "repair"),
        "classes": tuple(
            InClass(
                Link(site.label("class", c), site.addresses.class_(c)),
                count(by_class[c], "repair"),
                causes([r for r in records if r.entry.equipment.class_ == c], site),
            )
            for c in ordered
        ),
        "alongside": tuple((Link(site.label("symptom", s), site.addresses.symptom(s)), alongside[s]) for s in usual),
    }
    for part in slices(newest_first(records), site.addresses.symptom(symptom_id) or ""):
        yield Page(
            url=part.url,
            title=label if part.number == 1 else f"{label}, page {part.number}",
            template="symptom.html",
            data={**facts, "slice": part, "lines": tuple(line(record, site) for record in part.items)},
            description=f"{label}: what it turned out to be in {count(len(records), 'repair')}.",
            section=SYMPTOMS,
            updated=max(r.entry.date for r in records),
        )
