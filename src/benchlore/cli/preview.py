"""``benchlore preview``: the site on this machine, made anew while you write."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.read.base import Base

EPILOG = """\b
Examples:
  benchlore preview                    on http://127.0.0.1:8137/
  benchlore preview --port 0           on any free port
  benchlore preview --no-watch         without making it anew
"""


@click.command(epilog=EPILOG)
@base_option
@click.option("--port", type=click.IntRange(0, 65535), default=8137, show_default=True, help="0 takes any free port.")
@click.option("--watch/--no-watch", default=True, help="Make the site anew when an entry or a setting changes.")
def command(base: Base, port: int, watch: bool) -> None:
    """Serve the site on this machine alone and show changes as you save them. End with Ctrl-C.

    Nothing is written to disk; 'benchlore publish' does that.
    """
    from benchlore.publish.preview import Preview

    preview = Preview(base, port=port, tell=lambda text: click.echo(text, err=True))
    try:
        click.echo(f"{preview.address}  (Ctrl-C ends it)")
        preview.serve(watch=watch)
    except KeyboardInterrupt:
        click.echo("\nEnded.", err=True)
