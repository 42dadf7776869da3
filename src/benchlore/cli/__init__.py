"""The command line: finds the command's file, runs it, and words failures for people. No rules here."""

from __future__ import annotations

import importlib
import os
import sys
from typing import NoReturn

import click

COMMANDS = {
    "try": "try_it",
    "start": "start",
    "lint": "lint",
    "explain": "explain",
    "search": "search",
    "diagnose": "diagnose",
    "value": "value",
    "verdict": "verdict",
    "substitute": "substitute",
    "discharge": "discharge",
    "bench": "bench",
    "worth": "worth",
    "stock": "stock",
    "figures": "figures",
    "publish": "publish",
    "preview": "preview",
    "evaluate": "evaluate",
    "schema": "schema",
}
"""Command to its module in this folder, in the order that ``--help`` lists them."""


class _Commands(click.Group):
    """Imports a command's module only when it is asked for, so that every command starts quickly."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = importlib.import_module(f"benchlore.cli.{COMMANDS[cmd_name]}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            from benchlore.terms.nearest import nearest

            close = nearest(args[0], COMMANDS, limit=1)
            meant = f" Did you mean {close[0]!r}?" if close else ""
            raise click.UsageError(f"There is no command {args[0]!r}.{meant} See: benchlore --help", ctx=ctx)
        return super().resolve_command(ctx, args)


@click.group(
    cls=_Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Run 'benchlore COMMAND --help' for examples of each.",
)
@click.version_option(package_name="benchlore", prog_name="benchlore")
def group() -> None:
    """A shared memory of repaired faults: write up, check, search, publish.

    Commands find the knowledge base from the current folder upwards, or by --base DIR.
    """


def main() -> NoReturn:
    """Entry point of the ``benchlore`` command. Exit codes: 0 clean, 1 findings, 2 the tool failed."""
    from benchlore.errors import BenchloreError

    try:
        sys.exit(group(standalone_mode=False) or 0)  # the code of ctx.exit(), which click returns here
    except click.Abort:
        click.echo("\nStopped.", err=True)
        sys.exit(130)
    except click.ClickException as error:
        error.show()
        sys.exit(2)
    except BenchloreError as error:
        click.echo(f"Error: {error}", err=True)
        if error.hint:
            click.echo(f"  {error.hint}", err=True)
        sys.exit(2)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)
    except Exception as error:
        if os.environ.get("BENCHLORE_DEBUG"):
            raise
        click.echo(f"Benchlore itself failed: {type(error).__name__}: {error}", err=True)
        click.echo("  This is no fault of your entries. BENCHLORE_DEBUG=1 shows where; please report it.", err=True)
        sys.exit(2)
