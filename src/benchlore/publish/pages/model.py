"""The list of makers with their models, and the page of each model: its entries, its boards, its sisters."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.publish.page import Page
from benchlore.publish.sections.causes import causes
from benchlore.publish.sections.cautions import class_cautions
from benchlore.publish.sections.entry_list import line, newest_first, slices
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import ModelUse, SiteData, board_key
from benchlore.publish.urls import MAKERS
from benchlore.publish.wording import count

MOST_SISTERS = 40


def pages(site: SiteData) -> Iterator[Page]:
    """The list of makers and models, and the page of each model."""
    ordered = sorted(site.models.values(), key=lambda m: ((m.maker or "").lower(), m.model.lower(), m.key))
    for part in slices(ordered, MAKERS):
        makers: dict[str, list[tuple[Link, str, str]]] = {}
        for model in part.items:
            row = (
                Link(model.model, site.addresses.model(model.key)),
                site.label("class", model.class_id),
                count(len(model.records), "repair"),
            )
            makers.setdefault(model.maker or "Maker not known", []).append(row)
        yield Page(
            url=part.url,
            title="Makers and models" if part.number == 1 else f"Makers and models, page {part.number}",
            template="makers.html",
            data={"slice": part, "makers": tuple((maker, tuple(rows)) for maker, rows in makers.items())},
            description="Every maker and model with a repair written up.",
            section=MAKERS,
            updated=site.newest,
        )
    for model in ordered:
        yield from _model_pages(model, site)


def _model_pages(model: ModelUse, site: SiteData) -> Iterator[Page]:
    boards = {board_key(b): site.boards[board_key(b)] for r in model.records for b in r.entry.equipment.boards}
    keys = {key for board in boards.values() for key in board.model_keys if key != model.key}
    sisters = sorted((site.models[key] for key in keys), key=lambda m: (m.name, m.key))
    own = {r.slug for r in model.records}
    others = {r.slug: r for board in boards.values() for r in board.records if r.slug not in own}
    facts = {
        "name": model.name,
        "kind": Link(site.label("class", model.class_id), site.addresses.class_(model.class_id)),
        "box": class_cautions(model.class_id, site),
        "boards": tuple(Link(b.marking, site.addresses.board(key)) for key, b in sorted(boards.items())),
        "sisters": tuple(Link(m.name, site.addresses.model(m.key)) for m in sisters[:MOST_SISTERS]),
        "more_sisters": max(0, len(sisters) - MOST_SISTERS),
        "repairs": count(len(model.records), "repair"),
        "found": causes(model.records, site),
        "sister_lines": tuple(line(r, site) for r in newest_first(others.values())[:10]),
    }
    for part in slices(newest_first(model.records), site.addresses.model(model.key) or ""):
        yield Page(
            url=part.url,
            title=model.name if part.number == 1 else f"{model.name}, page {part.number}",
            template="model.html",
            data={**facts, "slice": part, "lines": tuple(line(record, site) for record in part.items)},
            description=f"{model.name}: {count(len(model.records), 'repair')}, its boards, the models that share them.",
            section=MAKERS,
            updated=max(r.entry.date for r in model.records),
        )
