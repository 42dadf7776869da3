"""Finds the data that comes with Benchlore: in the installed package, else in the repository it runs from."""

from __future__ import annotations

from pathlib import Path

_PACKAGED = Path(__file__).parent / "_data"
_REPOSITORY = Path(__file__).parents[2]


def folder(name: str) -> Path:
    """The folder ``schema``, ``entries`` or ``site_config`` as installed, or as in the repository.

    Raises FileNotFoundError when neither is there.
    """
    for root in (_PACKAGED, _REPOSITORY):
        candidate = root / name
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"Benchlore's own {name}/ is missing; install Benchlore again")
