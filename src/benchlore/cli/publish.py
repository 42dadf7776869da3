"""``benchlore publish``: makes the site."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.read.base import Base

EPILOG = """\b
Examples:
  benchlore publish                    into site/ in the knowledge base
  benchlore publish --out /media/stick/repairs
  benchlore publish --json             what was done, for a program
"""


@click.command(epilog=EPILOG)
@base_option
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Where the site goes; site/ in the knowledge base when left out. Must be new, empty or a site of ours.",
)
@click.option("--json", "as_json", is_flag=True, help="Print what was done as one JSON object.")
def command(base: Base, out: Path | None, as_json: bool) -> None:
    """Make the site: pages that work from a web host, from a folder and from a USB stick.

    Only files that differ are written; pages of entries that are gone are removed. Entries with errors are left out;
    'benchlore lint' names them.
    """
    target = (out or base.root / "site").absolute()
    if as_json:
        from benchlore.publish.writer import publish

        result = publish(base, target)
        told = {
            "out": str(result.out),
            "start": str(result.out / "index.html"),
            "entries": result.entries,
            "left_out": result.left_out,
            "pages": len(result.pages),
            "written": len(result.written),
            "unchanged": result.unchanged,
            "removed": len(result.removed),
            "warnings": list(result.warnings),
        }
        click.echo(json.dumps(told, ensure_ascii=False, indent=2))
        return
    publish_with_progress(base, target)
    click.echo(f"Open {target / 'index.html'}")


def publish_with_progress(base: Base, out: Path) -> None:
    """Publish ``base`` to ``out``; progress and warnings go to standard error, what was done to standard output."""
    from benchlore.publish.writer import publish

    result = publish(base, out, lambda text: click.echo(text, err=True))
    for warning in result.warnings:
        click.echo(f"Hand-written pages: {warning}", err=True)
    if result.left_out:
        files = "1 file is" if result.left_out == 1 else f"{result.left_out} files are"
        click.echo(f"{files} left out because of errors; see: benchlore lint", err=True)
    repairs = "1 repair" if result.entries == 1 else f"{result.entries} repairs"
    click.echo(
        f"{len(result.pages)} pages from {repairs}: {len(result.written)} files written, "
        f"{result.unchanged} unchanged, {len(result.removed)} removed."
    )
