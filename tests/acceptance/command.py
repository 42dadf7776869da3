"""Runs the ``benchlore`` command as a user would: another process, its own cache folder, what it printed."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]


@dataclass(frozen=True)
class Ran:
    """What a command did."""

    code: int
    out: str
    err: str


def run(*words: str, cwd: Path = REPOSITORY, python: str = sys.executable, cache: Path | None = None) -> Ran:
    """Run ``benchlore WORDS`` in ``cwd`` and wait for it."""
    environment = {**os.environ, "NO_COLOR": "1", "PYTHONIOENCODING": "utf-8"}
    if cache:
        environment["XDG_CACHE_HOME"] = str(cache)
    done = subprocess.run(
        [python, "-m", "benchlore", *words], cwd=cwd, env=environment, capture_output=True, text=True, timeout=300
    )
    return Ran(done.returncode, done.stdout, done.stderr)
