"""The same facts as the pages as static JSON: one file for each entry, and lists of all in parts of bounded size.

``api/index.json`` names the parts; ``api/entries.<n>.json`` list entries; ``api/e/<slug>.json`` holds one entry as
written (term ids, quantities as text) with what was computed from it. ``schema_version`` grows when a key changes its
meaning or goes; new keys may come at any time.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import PurePosixPath
from typing import Any

from benchlore.publish.site_data import SiteData, board_key
from benchlore.read.base import Record

SCHEMA_VERSION = 1
PER_PART = 500
INDEX = "api/index.json"


def api_files(site: SiteData, computed: Mapping[str, Mapping[str, Any]]) -> Iterator[tuple[str, bytes]]:
    """Address and bytes of every file. ``computed`` has the template data of each entry page by its address."""
    by_slug = sorted(site.records, key=lambda record: record.slug)
    parts = [by_slug[start : start + PER_PART] for start in range(0, len(by_slug), PER_PART)]
    names = [f"entries.{number}.json" for number in range(1, len(parts) + 1)]
    yield INDEX, _json({
        "schema_version": SCHEMA_VERSION,
        "shop": site.shop.name,
        "licence": site.shop.licence,
        "entries": len(by_slug),
        "parts": names,
    })  # fmt: skip
    for name, part in zip(names, parts, strict=True):
        yield f"api/{name}", _json({
            "schema_version": SCHEMA_VERSION,
            "entries": [_line(record, site) for record in part],
        })  # fmt: skip
    for record in by_slug:
        page = site.addresses.entry(record.slug) or ""
        yield api_url(page), _json(_entry(record, page, computed[page], site))


def api_url(page: str) -> str:
    """The address of the JSON beside an entry's page: ``e/x.html`` has ``api/e/x.json``."""
    return f"api/{PurePosixPath(page).with_suffix('.json')}"


def _line(record: Record, site: SiteData) -> dict[str, Any]:
    entry = record.entry
    page = site.addresses.entry(record.slug) or ""
    return {
        "slug": record.slug,
        "title": entry.title,
        "date": entry.date.isoformat(),
        "outcome": entry.outcome,
        "class": entry.equipment.class_,
        "maker": entry.equipment.maker,
        "model": entry.equipment.model,
        "boards": [board.marking for board in entry.equipment.boards],
        "symptoms": [symptom.term for symptom in entry.symptoms if symptom.term],
        "page": page,
        "file": api_url(page).removeprefix("api/"),
    }


def _entry(record: Record, page: str, computed: Mapping[str, Any], site: SiteData) -> dict[str, Any]:
    box, readings = computed["box"], computed["readings"]
    return {
        "schema_version": SCHEMA_VERSION,
        "slug": record.slug,
        "page": page,
        "licence": record.entry.licence or site.shop.licence,
        "entry": record.entry.model_dump(mode="json", by_alias=True, exclude_defaults=True),
        "computed": {
            "minutes": record.entry.minutes_spent,
            "cautions": [caution.hazard for caution in (*box.cautions, *box.others)],
            "stored_energy": [f"{kept.lead} {kept.text}" for kept in box.energies],
            "verdicts": [row.verdict or None for row in readings],
            "boards": [board_key(board) for board in record.entry.equipment.boards],
            "sisters": [model.name for model in site.sisters(record)],
            "related": [line.slug for line in computed["end"].related],
        },
    }


def _json(content: Mapping[str, Any] | Sequence[Any]) -> bytes:
    return (json.dumps(content, ensure_ascii=False, separators=(",", ":")) + "\n").encode()
