"""The rating plate: what kind of equipment, maker, model, boards and their sisters, supply, year."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.publish.site_data import SiteData, board_key, known, model_key
from benchlore.publish.wording import unbroken
from benchlore.read.base import Record
from benchlore.read.entry import Equipment

MOST_SISTERS = 6


@dataclass(frozen=True, slots=True)
class Link:
    """Text, and the page it leads to (None when there is none)."""

    text: str
    url: str | None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Plate:
    """The plate's lines; ``boards`` carry their revision and function as a note."""

    kind: Link
    maker: str
    model: str
    model_page: str | None
    boards: tuple[Link, ...]
    sisters: tuple[Link, ...]
    more_sisters: int
    supply: str
    made: str


def plate(record: Record, site: SiteData) -> Plate:
    """The plate of the unit that was repaired."""
    equipment = record.entry.equipment
    key = model_key(equipment)
    sisters = site.sisters(record)
    return Plate(
        kind=Link(site.label("class", equipment.class_), site.addresses.class_(equipment.class_)),
        maker=known(equipment.maker) or "",
        model=known(equipment.model) or "",
        model_page=site.addresses.model(key) if key else None,
        boards=tuple(
            Link(
                board.marking,
                site.addresses.board(board_key(board)),
                ", ".join(
                    p for p in (f"revision {board.revision}" if board.revision else "", board.function or "") if p
                ),
            )
            for board in equipment.boards
        ),
        sisters=tuple(
            Link(m.model if m.maker == known(equipment.maker) else m.name, site.addresses.model(m.key))
            for m in sisters[:MOST_SISTERS]
        ),
        more_sisters=max(0, len(sisters) - MOST_SISTERS),
        supply=_supply(equipment),
        made=str(equipment.made) if equipment.made else "",
    )


def _supply(equipment: Equipment) -> str:
    protection = equipment.protection if equipment.protection not in (None, "unknown") else None
    parts = [unbroken(equipment.supply or ""), f"class {protection}" if protection else ""]
    return ", ".join(part for part in parts if part)
