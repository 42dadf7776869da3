"""``benchlore search``: repairs that fit words, a phrase, a marking, a part number or a value; with facets."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from benchlore.index.card import Card
    from benchlore.index.nearest_values import NearValue
    from benchlore.index.search import Answer, Hit

FACET_OPTIONS = (
    "class", "symptom", "block", "component", "failure", "outcome", "maker", "board", "hazard", "year", "licence",
    "minutes", "cost",
)  # fmt: skip
"""Named here so that --help starts without the index; a test holds them to ``index.facets.FACET_NAMES``."""
_SHOWN_VALUES = 5


def _facet_options(function: Callable[..., Any]) -> Callable[..., Any]:
    for name in reversed(FACET_OPTIONS):
        function = click.option(
            f"--{name}", f"facet_{name}", multiple=True, metavar="VALUE", help=f"Only entries with this {name}."
        )(function)
    return function


def _named(_: click.Context, __: click.Parameter, given: tuple[str, ...]) -> list[tuple[str, str]]:
    pairs = []
    for text in given:
        name, sign, value = text.partition("=")
        if not sign or not value.strip():
            raise click.BadParameter(f"expected NAME=VALUE, found {text!r}")
        pairs.append((name.strip(), value.strip()))
    return pairs


@click.command(
    epilog="""\b
Examples:
  benchlore search hums, relay chatters, no heat
  benchlore search BWC-02                    a board marking, in any spelling
  benchlore search irf8                      the start of a part number
  benchlore search 4k7                       a value, in any notation
  benchlore search '"fuse blown"'            a phrase, word for word
  benchlore search fuse not blown            looked for, and not there
  benchlore search fan runs class:dehumidifier
  benchlore search no power --outcome repaired --json
  benchlore search hums --minutes ..60 --not class=dehumidifier --sort newest
"""
)
@click.argument("words", nargs=-1)
@click.option(
    "--base",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    metavar="DIR",
    help="The knowledge base; found from the current folder upwards when left out.",
)
@_facet_options
@click.option("--facet", "named", multiple=True, callback=_named, metavar="NAME=VALUE", help="The same, by name.")
@click.option("--not", "unwanted", multiple=True, callback=_named, metavar="NAME=VALUE", help="No entries with this.")
@click.option("--sort", type=click.Choice(["relevance", "newest", "quickest"]), default="relevance", show_default=True)
@click.option("--limit", type=click.IntRange(min=0), default=10, show_default=True, help="Hits to show.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
def command(
    base: Path | None,
    words: tuple[str, ...],
    named: list[tuple[str, str]],
    unwanted: list[tuple[str, str]],
    sort: str,
    limit: int,
    as_json: bool,
    **facets: Any,
) -> None:
    """Find repairs by WORDS: symptoms, a board marking, a part number or its start, a value, a model.

    Several values of one facet mean any of them; different facets narrow each other. In WORDS, -class:dehumidifier
    leaves something out, and year, minutes and cost take ranges: minutes:..60, year:2024..2026.
    """
    filters: dict[str, list[str]] = {}
    for option, values in facets.items():
        if values:
            filters.setdefault(option.removeprefix("facet_"), []).extend(values)
    for name, value in (*named, *((name, f"-{value}") for name, value in unwanted)):
        filters.setdefault(name, []).append(value)
    query = " ".join(words)
    if not query.strip() and not filters:
        raise click.UsageError("Say what to look for, e.g.: benchlore search relay chatters")
    answer, near = _search(base, query, filters, limit, sort)
    if as_json:
        near_json = [asdict(other) for other in near]
        click.echo(json.dumps({**answer_json(answer), "nearest": near_json}, indent=2, ensure_ascii=False))
        return
    show_answer(answer)
    if near:
        click.secho("\nNearest to it", bold=True)
        for other in near:
            click.echo(f"  {other.facet}:{other.key:<30} {other.label}, {other.count} repairs")


def _search(
    folder: Path | None, query: str, filters: dict[str, list[str]], limit: int, sort: str
) -> tuple[Answer, list[NearValue]]:
    """Search the base, from the index as it lies there when nothing changed, without loading what reads entries.

    When nothing is found, the facet values nearest to it come with the answer.
    """
    from benchlore.index.nearest_values import nearest_values
    from benchlore.index.open_index import find_root, open_index, open_quickly
    from benchlore.index.search import Searcher

    root = find_root(Path.cwd()) if folder is None else folder
    opened = open_quickly(root) if root else None
    if opened is None:
        from benchlore.read.base import Base

        opened = open_index(Base(folder) if folder else Base.find(Path.cwd()))
    store, lexicon = opened
    try:
        searcher = Searcher(store, lexicon)
        answer = searcher.search(query, filters, limit, sort)
        return answer, [] if answer.total else nearest_values(searcher.search("", limit=0).facets, query)
    finally:
        store.close()


def show_answer(answer: Answer) -> None:
    """Print an answer for somebody at the bench."""
    click.secho(f"{answer.total} repair{'' if answer.total == 1 else 's'}", bold=True, nl=False)
    read = _read_as(answer)
    click.echo(f"   read as: {read}" if read else "")
    for name, values in answer.filters.items():
        click.echo(f"only {name}: {' or '.join(_chosen_label(answer, name, value) for value in values)}")
    for number, hit in enumerate(answer.hits, start=1):
        click.echo()
        click.secho(f"{number}. {hit.title}", bold=True)
        click.echo(f"   {' · '.join(_facts(hit.card))}")
        click.echo(f"   {_matches(hit)}")
        click.secho(f"   {hit.rel}", dim=True)
    if answer.total > len(answer.hits):
        click.echo(f"\n… and {answer.total - len(answer.hits)} more (--limit)")
    _show_facets(answer)
    if not answer.total:
        _show_nothing(answer)


def _read_as(answer: Answer) -> str:
    parts = []
    for part in answer.read_as:
        if part.kind == "term":
            parts.append(part.label)
        elif part.kind == "not-seen":
            parts.append(f"not seen: {part.label}")
        elif part.kind == "phrase":
            parts.append(f'exactly "{part.text}"')
        else:
            parts.append(part.text)
    for sisters in answer.sisters:
        if sisters.models:
            boards = ", ".join(b for b in sisters.boards if b != sisters.marking) or "this board"
            parts.append(f"{sisters.marking} shares {boards} with {', '.join(sisters.models)}")
    parts += [f"{read} (typed {typed!r})" for typed, read in answer.corrected]
    return " · ".join(parts)


def _facts(card: Card) -> list[str]:
    cause = ", ".join(part for part in (card.cause, card.failure.lower()) if part)
    outcome = card.outcome.replace("-", " ")
    if card.stopped_because:
        outcome += f", {card.stopped_because.replace('-', ' ')}"
    if card.holding:
        outcome += f", {card.holding}"
    minutes = f"{card.minutes:g} min" if card.minutes is not None else ""
    return [part for part in (card.equipment, cause or "cause not found", minutes, card.cost, outcome) if part]


def _matches(hit: Hit) -> str:
    said = []
    for reason in hit.reasons:
        if reason.kind == "sister":
            said.append(f"shares a board with {reason.text}")
        elif reason.kind == "start":
            said.append(f"{reason.found} ({reason.text}…)")
        elif reason.kind == "not-seen":
            said.append(f"{reason.text} (looked for, not there)")
        else:
            said.append(reason.text)
    text = f"matches {', '.join(dict.fromkeys(said))}" if said else ""
    if hit.missed:
        text += f"{'; ' if text else ''}nothing about {', '.join(hit.missed)}"
    return text or "fits the choices"


def _chosen_label(answer: Answer, name: str, key: str) -> str:
    values = next(f.values for f in answer.facets if f.name == name)
    label = next((v.label for v in values if v.key == key.removeprefix("-")), key.removeprefix("-"))
    return f"not {label}" if key.startswith("-") else label


def _show_facets(answer: Answer) -> None:
    rows = [facet for facet in answer.facets if any(0 < v.count != answer.total for v in facet.values)]
    if answer.total < 2 or not rows:
        return
    click.secho("\nNarrow it down", bold=True)
    for facet in rows:
        some = [f"{value.label} {value.count}" for value in facet.values[:_SHOWN_VALUES]]
        more = f", {len(facet.values) - _SHOWN_VALUES} more" if len(facet.values) > _SHOWN_VALUES else ""
        click.echo(f"  --{facet.name:<10} {', '.join(some)}{more}")


def _show_nothing(answer: Answer) -> None:
    from benchlore.terms.nearest import nearest

    for facet in answer.facets:
        for value in facet.values:
            if value.chosen and not value.count:
                others = {v.key: v.label for v in facet.values if v.count}
                close = nearest(value.key, others, limit=1)
                meant = f"; did you mean {close[0]}?" if close else ""
                click.echo(f"No entry that fits the rest has {facet.name} {value.key!r}{meant}")
    if any(part.kind == "phrase" for part in answer.read_as):
        click.echo("No entry has the words in quotes just so; try them without the quotes.")
    elif answer.read_as and not answer.filters:
        click.echo("Nothing is known about this here. Try fewer words, or the symptom in other words.")


def answer_json(answer: Answer) -> dict[str, Any]:
    """The answer as one JSON object. ``minutes`` are minutes, ``date`` is ISO 8601, scores have no unit."""
    return {
        "query": answer.query,
        "total": answer.total,
        "hits": [_hit_json(hit) for hit in answer.hits],
        "facets": [
            {
                "name": facet.name,
                "label": facet.label,
                "values": [
                    {"key": v.key, "label": v.label, "count": v.count, "chosen": v.chosen, "excluded": v.excluded}
                    for v in facet.values
                ],
            }
            for facet in answer.facets
        ],
        "read_as": [{"kind": part.kind, "text": part.text, "label": part.label} for part in answer.read_as],
        "sisters": [
            {"marking": s.marking, "boards": list(s.boards), "models": list(s.models)} for s in answer.sisters
        ],
        "corrected": [{"typed": typed, "read": read} for typed, read in answer.corrected],
        "filters": {name: list(values) for name, values in answer.filters.items()},
    }


def _hit_json(hit: Hit) -> dict[str, Any]:
    card = hit.card
    return {
        "id": hit.slug,
        "title": hit.title,
        "score": hit.score,
        "file": hit.rel,
        "reasons": [{"kind": r.kind, "text": r.text, "found": r.found, "field": r.field} for r in hit.reasons],
        "missed": list(hit.missed),
        "sister_of": hit.sister_of,
        "equipment": card.equipment,
        "class": card.class_,
        "cause": card.cause or None,
        "failure_mode": card.failure or None,
        "outcome": card.outcome,
        "stopped_because": card.stopped_because or None,
        "minutes": card.minutes,
        "cost": card.cost or None,
        "holding": card.holding or None,
        "date": card.date,
    }
