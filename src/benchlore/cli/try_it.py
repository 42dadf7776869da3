"""``benchlore try``: the first minutes; lints the base, answers a search, publishes, and says where to look."""

from __future__ import annotations

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from benchlore.read.base import Base


def _base_or_demo(given: Path | None) -> tuple[Base, Path]:
    """The base to try, and the folder that the site goes into."""
    from benchlore import data
    from benchlore.read.base import Base, BaseNotFound

    if given:
        return Base(given), given / "site"
    try:
        base = Base.find(Path.cwd())
        return base, base.root / "site"
    except BaseNotFound:
        return Base(data.folder("site_config").parent), Path.cwd() / "site"


@click.command(
    epilog="""\b
Examples:
  benchlore try                               the base you are in, or else the demo base
  benchlore try --words "relay chatters"
  benchlore try --base ~/my-shop
"""
)
@click.option(
    "--base",
    "given",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    metavar="DIR",
    help="The knowledge base; found from the current folder upwards, else the demo base that comes with Benchlore.",
)
@click.option("--words", help="What to search for; a symptom from the base when left out.")
@click.pass_context
def command(ctx: click.Context, given: Path | None, words: str | None) -> None:
    """Lint the base, answer a search and publish it: all of Benchlore in one go.

    The site goes to site/, which is overwritten only if Benchlore made it.
    """
    from benchlore.check.reports import text as text_report
    from benchlore.check.runner import lint
    from benchlore.cli.publish import publish_with_progress
    from benchlore.cli.search import show_answer
    from benchlore.index.search import search

    base, out = _base_or_demo(given)
    started = time.perf_counter()

    click.secho("1. Lint", bold=True)
    report = lint(base)
    click.echo(text_report.render(report))

    records = base.records()
    words = words or (_sample_words(base) if records else None)
    if words:
        click.secho(f"\n2. Search: {words}", bold=True)
        show_answer(search(base, words, limit=3))

    click.secho("\n3. Publish", bold=True)
    publish_with_progress(base, out)
    click.echo(f"\nAll in {time.perf_counter() - started:.1f} s. Open this page by double-click or in a browser:")
    click.secho(f"  {(out / 'index.html').resolve()}", bold=True)
    ctx.exit(report.exit_code)


def _sample_words(base: Base) -> str:
    """What the customer of a repair might have said: symptoms of the newest one whose cause was confirmed."""
    entries = [record.entry for record in sorted(base.records(), key=lambda r: (r.entry.date, r.slug), reverse=True)]
    proved = [e for e in entries if e.root_cause and e.root_cause.confidence == "confirmed" and len(e.symptoms) > 1]
    chosen = (proved or entries)[0]
    terms = [symptom.term for symptom in chosen.symptoms if symptom.term]
    return ", ".join(base.vocabulary.label("symptom", term).lower() for term in terms[:2]) or chosen.title
