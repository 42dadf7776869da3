"""The option that commands on a knowledge base share: ``--base DIR``, else found from the current folder upwards."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from benchlore.read.base import Base


def base_option(function: Callable[..., Any]) -> Callable[..., Any]:
    """Gives the command ``base``, an open knowledge base."""

    def open_base(ctx: click.Context, param: click.Parameter, value: Path | None) -> Base:
        from benchlore.read.base import Base

        return Base(value) if value else Base.find(Path.cwd())

    return click.option(
        "--base",
        type=click.Path(path_type=Path, file_okay=False, exists=True),
        callback=open_base,
        metavar="DIR",
        help="The knowledge base; found from the current folder upwards when left out.",
    )(function)
