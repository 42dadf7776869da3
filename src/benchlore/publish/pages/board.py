"""The list of boards and the page of each marking: the models that carry it, the entries and documents that apply."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.publish.page import Page
from benchlore.publish.sections.causes import causes
from benchlore.publish.sections.closing import DocumentLine, documents
from benchlore.publish.sections.entry_list import line, newest_first, slices
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import BoardUse, SiteData, board_key
from benchlore.publish.urls import BOARDS
from benchlore.publish.wording import count, listed
from benchlore.terms.fold import compact

MOST_MODELS = 40
MOST_DOCUMENTS = 20
_NAMED_IN_LIST = 4


@dataclass(frozen=True, slots=True)
class BoardLine:
    """A board in the list of boards."""

    board: Link
    function: str
    models: str
    repairs: str


def pages(site: SiteData) -> Iterator[Page]:
    """The list of boards and the page of each."""
    boards = sorted(site.boards.values(), key=lambda b: (b.marking.lower(), b.key))
    for part in slices(boards, BOARDS):
        yield Page(
            url=part.url,
            title="Boards" if part.number == 1 else f"Boards, page {part.number}",
            template="boards.html",
            data={"slice": part, "boards": tuple(_listed(board, site) for board in part.items)},
            description="Every board marking, and the models that carry it.",
            section=BOARDS,
            updated=site.newest,
        )
    for board in boards:
        yield from _board_pages(board, site)


def _listed(board: BoardUse, site: SiteData) -> BoardLine:
    names = [site.models[key].name for key in board.model_keys]
    shown = names[:_NAMED_IN_LIST]
    if len(names) > len(shown):
        shown.append(f"{len(names) - len(shown)} more")
    return BoardLine(
        Link(board.marking, site.addresses.board(board.key)),
        _function(board),
        listed(shown),
        count(len(board.records), "repair"),
    )


def _function(board: BoardUse) -> str:
    functions = Counter(
        b.function for r in board.records for b in r.entry.equipment.boards if b.function and board_key(b) == board.key
    )
    return min(functions, key=lambda f: (-functions[f], f), default="")


def _board_pages(board: BoardUse, site: SiteData) -> Iterator[Page]:
    found: dict[tuple[str, str], DocumentLine] = {}
    for record in board.records:
        for document in documents(record.entry, site):
            covers = compact(document.covers.text) if document.covers else ""
            if covers in {"", board.key} or len(record.entry.equipment.boards) == 1:
                found.setdefault((compact(document.title), covers), document)
    models = [site.models[key] for key in board.model_keys]
    facts = {
        "marking": board.marking,
        "function": _function(board),
        "models": tuple(
            (Link(m.name, site.addresses.model(m.key)), site.label("class", m.class_id), _revisions(board, m.key, site))
            for m in models[:MOST_MODELS]
        ),
        "more_models": max(0, len(models) - MOST_MODELS),
        "revisions": listed(board.revisions),
        "several_revisions": len(board.revisions) > 1,
        "documents": tuple(found[key] for key in sorted(found)[:MOST_DOCUMENTS]),
        "found": causes(board.records, site),
        "repairs": count(len(board.records), "repair"),
    }
    for part in slices(newest_first(board.records), site.addresses.board(board.key) or ""):
        yield Page(
            url=part.url,
            title=f"Board {board.marking}" + (f", page {part.number}" if part.number > 1 else ""),
            template="board.html",
            data={**facts, "slice": part, "lines": tuple(line(record, site) for record in part.items)},
            description=f"Board {board.marking}: the models that carry it, their repairs and documents.",
            section=BOARDS,
            updated=max(r.entry.date for r in board.records),
        )


def _revisions(board: BoardUse, key: str, site: SiteData) -> str:
    found = sorted(
        {
            b.revision
            for r in site.models[key].records
            for b in r.entry.equipment.boards
            if b.revision and board_key(b) == board.key
        }
    )
    return f"revision {listed(found)}" if found else ""
