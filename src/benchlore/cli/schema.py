"""``benchlore schema``: writes the JSON Schema that editors check entries with."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.read.base import Base


@click.command(
    epilog="""\b
Examples:
  benchlore schema              write schema/fault-entry.schema.json of the knowledge base
  benchlore schema --check      say whether it is fresh (exit code 1 when it is not)
  benchlore schema --print > fault-entry.schema.json

An editor that reads YAML schemas finds it by the first line of an entry:
  # yaml-language-server: $schema=../../schema/fault-entry.schema.json
"""
)
@base_option
@click.option("--check", is_flag=True, help="Write nothing; exit with 1 when the file is not what would be written.")
@click.option("--print", "to_screen", is_flag=True, help="Print the schema and write nothing.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON: file, fresh, written.")
@click.pass_context
def command(ctx: click.Context, base: Base, check: bool, to_screen: bool, as_json: bool) -> None:
    """Write the JSON Schema of a fault entry, made from the entry format and the vocabulary.

    Editors use it to complete keys and terms, to explain them, and to mark mistakes while you type.
    """
    from benchlore.read.json_schema import SCHEMA_FILE, is_fresh, schema_text, write_schema

    if to_screen and (check or as_json):
        raise click.UsageError("--print goes with neither --check nor --json.")
    if to_screen:
        click.echo(schema_text(base.vocabulary), nl=False)
        return
    path = base.root / SCHEMA_FILE
    written = not check and write_schema(path, base.vocabulary)
    fresh = written or is_fresh(path, base.vocabulary)
    if as_json:
        click.echo(json.dumps({"file": SCHEMA_FILE.as_posix(), "fresh": fresh, "written": written}))
    elif not fresh:
        click.echo(f"{SCHEMA_FILE.as_posix()} is out of date. Write it again with: benchlore schema")
    elif written:
        click.echo(f"Wrote {SCHEMA_FILE.as_posix()}")
    else:
        click.echo(f"{SCHEMA_FILE.as_posix()} is up to date")
    if not fresh:
        ctx.exit(1)
