"""``benchlore start``: a new knowledge base, ready to lint and publish."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path

import click


def _currency(ctx: click.Context, param: click.Parameter, value: str) -> str:
    if not re.fullmatch(r"[A-Z]{3}", value.upper()):
        raise click.BadParameter("three letters as in ISO 4217, for example EUR, GBP or USD")
    return value.upper()


@click.command(
    epilog="""\b
Examples:
  benchlore start my-shop
  benchlore start my-shop --name "Corner workshop" --author sam-b --currency GBP
"""
)
@click.argument("folder", type=click.Path(path_type=Path), metavar="DIR")
@click.option("--name", help="The shop's name, as the site shows it; the folder's name when left out.")
@click.option("--author", default="me", show_default=True, help="Your name on the example entry.")
@click.option("--currency", default="EUR", show_default=True, callback=_currency, help="Currency of prices.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def command(folder: Path, name: str | None, author: str, currency: str, as_json: bool) -> None:
    """Lay down a new knowledge base in DIR: configuration, pages, and one example entry.

    Nothing that is there already is overwritten.
    """
    from benchlore.starter.lay_down import lay_down

    shop = name or folder.resolve().name.replace("-", " ").replace("_", " ").capitalize()
    new = lay_down(folder, shop=shop, author=author, currency=currency, today=dt.date.today())
    if as_json:
        click.echo(json.dumps({"folder": str(folder), "files": [path.as_posix() for path in new]}, indent=2))
        return
    click.echo(f"A knowledge base for {shop} is in {folder}:")
    for path in new:
        click.echo(f"  {path.as_posix()}")
    click.echo(
        f"\nNext:\n  cd {folder}\n  benchlore lint\n  benchlore publish\n"
        "Then open site/index.html, and copy the example entry for your first repair."
    )
