"""The entries that differ from a git revision, asked of git itself."""

from __future__ import annotations

import os
import re
import subprocess
from pathlib import Path

from benchlore.errors import BenchloreError
from benchlore.read.base import Base

_SECONDS = 60


def changed_files(base: Base, revision: str) -> list[Path]:
    """Files under ``entries/`` named like entries that differ from ``revision`` in the working tree, or are new and
    not ignored, sorted; files that are gone are left out.

    Raises :class:`BenchloreError` for what is no revision (an option never is one) and where there is no repository.
    """
    commit = _commit(base, revision)
    differ = ("--name-only", "-z", "--no-renames", "--diff-filter=d", "--relative")
    changed = _git(base, "diff", *differ, commit, "--", ".")
    new = _git(base, "ls-files", "-z", "--others", "--exclude-standard", "--", ".")
    named = {os.fsdecode(name) for name in (*changed.split(b"\0"), *new.split(b"\0")) if name}
    touched = {base.root / name for name in named}
    photos = {path.parent for path in touched if path.suffix.lower() not in (".yaml", ".yml")}
    return [path for path in base.entry_paths() if path in touched or (path.parent in photos and _shows(path, touched))]


def _shows(entry: Path, touched: set[Path]) -> bool:
    """Whether the entry names one of the files that were touched beside it."""
    try:
        text = entry.read_text(encoding="utf-8", errors="replace")[:262_144] if entry.is_file() else ""
    except OSError:
        return False
    return any(path.parent == entry.parent and path.name in text for path in touched)


def _commit(base: Base, revision: str) -> str:
    if revision.startswith("-") or not re.fullmatch(r"[^\x00-\x20\x7f]{1,250}", revision):
        raise BenchloreError(f"{revision!r} is no git revision", hint="Name a branch, a tag or a commit: main, HEAD~1.")
    try:
        found = _git(base, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    except BenchloreError as error:
        if error.hint:
            raise
        hint = "Name a branch, a tag or a commit; a shallow clone may have to fetch it first."
        raise BenchloreError(f"there is no git revision {revision!r} here", hint=hint) from None
    return found.decode("ascii", "replace").strip()


def _git(base: Base, *arguments: str) -> bytes:
    """What git says, without the user's aliases, external diff programs, pagers or prompts."""
    command = ["git", "--no-pager", "-c", "core.fsmonitor=false", "-c", "core.quotePath=false", *arguments]
    if arguments[0] == "diff":
        command[command.index("diff") + 1 : command.index("diff") + 1] = ["--no-ext-diff", "--no-textconv"]
    environment = {**os.environ, "GIT_TERMINAL_PROMPT": "0", "GIT_OPTIONAL_LOCKS": "0"}
    try:
        done = subprocess.run(
            command, cwd=base.root, env=environment, capture_output=True, timeout=_SECONDS, check=False,
            stdin=subprocess.DEVNULL,
        )  # fmt: skip
    except FileNotFoundError:
        raise BenchloreError("git is not installed", hint="Without it, name the files to check.") from None
    except subprocess.TimeoutExpired:
        raise BenchloreError("git takes too long to answer", hint="Name the files to check instead.") from None
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()
        if any("not a git repository" in line for line in said):
            raise BenchloreError(f"{base.root} lies in no git repository", hint="Name the files to check instead.")
        raise BenchloreError(f"git failed: {said[0] if said else 'no revision'}")
    return done.stdout
