"""Spreads the checking of many files over processes; paths go out, small records come back."""

from __future__ import annotations

import datetime as dt
import gc
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from benchlore.check.one_file import FileResult, check_file
from benchlore.check.rule import Rule
from benchlore.read.base import Base

_CHUNK = 100
"""Files that one process takes at a time; fewer than two such are checked where they are."""


def check_files(
    base: Base, paths: Sequence[Path], rules: Sequence[type[Rule]], today: dt.date, processes: int = 1
) -> Iterator[FileResult]:
    """A result for each path, in their order."""
    if processes < 2 or len(paths) < 2 * _CHUNK:
        for path in paths:
            yield check_file(base, path, rules, today)
        return
    _ = base.shop, base.vocabulary  # errors in them are told here, once; forked processes have the vocabulary already
    chunks = [paths[start : start + _CHUNK] for start in range(0, len(paths), _CHUNK)]
    with ProcessPoolExecutor(min(processes, len(chunks)), initializer=_settle) as pool:
        for results in pool.map(partial(_check_chunk, base.root, tuple(rules), today), chunks):
            yield from results


def _settle() -> None:
    """In a new process: what is there stays, and is not looked through for garbage again and again."""
    gc.disable()
    gc.freeze()


def _check_chunk(
    root: Path, rules: Sequence[type[Rule]], today: dt.date, paths: Sequence[Path]
) -> list[FileResult]:
    """Runs in another process. The base is opened anew for each chunk, so that models do not pile up."""
    base = Base(root)
    results = [check_file(base, path, rules, today) for path in paths]
    gc.collect()
    return results
