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
    from benchlore.publish.writer import publish

    result = publish(base, (out or base.root / "site").absolute(), lambda text: click.echo(text, err=True))
    start = result.out / "index.html"
    if as_json:
        told = {
            "out": str(result.out),
            "start": str(start),
            "pages": len(result.pages),
            "written": len(result.written),
            "unchanged": result.unchanged,
            "removed": len(result.removed),
            "warnings": list(result.warnings),
        }
        click.echo(json.dumps(told, ensure_ascii=False, indent=2))
        return
    for warning in result.warnings:
        click.echo(f"Hand-written pages: {warning}", err=True)
    click.echo(
        f"{len(result.pages)} pages: {len(result.written)} files written, {result.unchanged} unchanged, "
        f"{len(result.removed)} removed."
    )
    click.echo(f"Open {start}")
