"""Puts the site on disk: writes changed bytes only, removes stale files of ours, and touches nothing else.

A manifest at the site's root lists what we wrote. A folder without it that is not empty is not ours.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import re
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from benchlore.errors import BenchloreError

MANIFEST = "benchlore-manifest.json"
FORMAT = 1
_OURS = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._ -]*(/[A-Za-z0-9_-][A-Za-z0-9._ -]*)*")


class NotOurs(BenchloreError):  # noqa: N818 - reads better where it is caught
    """The output folder, or a file in it, was not written by us."""


@dataclass(frozen=True, slots=True)
class Synced:
    """Addresses written, left as they were, and removed."""

    written: tuple[str, ...]
    unchanged: int
    removed: tuple[str, ...]


def check_ours(out: Path) -> None:
    """Raise :class:`NotOurs` when ``out`` holds something and no manifest of ours."""
    if out.exists() and not out.is_dir():
        raise NotOurs(f"{out} is not a folder", hint="Name a new or empty folder with --out DIR.")
    if out.is_dir() and not (out / MANIFEST).is_file() and any(out.iterdir()):
        raise NotOurs(
            f"{out} holds files that Benchlore did not write; nothing was changed",
            hint="Name a new or empty folder with --out DIR, or empty this one yourself.",
        )


def sync(files: Mapping[str, bytes], out: Path) -> Synced:
    """Make ``out`` hold exactly ``files`` of ours; what others put there stays.

    Each file is written beside its place and moved over it. The manifest first grows to name old and new files, so
    that a crash leaves nothing that the next run would not know.
    """
    check_ours(out)
    out.mkdir(parents=True, exist_ok=True)
    before = _read_manifest(out)
    _refuse_strangers(files, before, out)
    hashes = {url: _hash(files[url]) for url in sorted(files)}
    if before.keys() - hashes.keys() or hashes.keys() - before.keys():
        _write(out / MANIFEST, _manifest({**before, **hashes}))
    written = []
    for url, content in sorted(files.items()):
        target = out / url
        if _same(target, content):
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        _write(target, content)
        written.append(url)
    removed = [url for url in sorted(before.keys() - hashes.keys()) if _remove(out, url)]
    manifest = _manifest(hashes)
    if not _same(out / MANIFEST, manifest):
        _write(out / MANIFEST, manifest)
    return Synced(tuple(written), len(files) - len(written), tuple(removed))


def _read_manifest(out: Path) -> dict[str, str]:
    path = out / MANIFEST
    if not path.is_file():
        return {}
    try:
        listed = json.loads(path.read_text(encoding="utf-8"))
        files = listed["files"]
        known = isinstance(files, dict) and listed["format"] == FORMAT
        if not known or not all(_OURS.fullmatch(url) and isinstance(files[url], str) for url in files):
            raise ValueError
    except (ValueError, KeyError, TypeError, UnicodeDecodeError):
        raise NotOurs(
            f"{path} cannot be read as a list of our files; nothing was changed",
            hint="Remove the folder, or name another with --out DIR.",
        ) from None
    return dict(files)


def _refuse_strangers(files: Mapping[str, bytes], before: Mapping[str, str], out: Path) -> None:
    """Where a new file of ours would overwrite something that somebody else put there."""
    for url in files:
        if not _OURS.fullmatch(url):
            raise ValueError(f"not an address of ours: {url!r}")
        target = out / url
        if url not in before and os.path.lexists(target) and not _same(target, files[url]):
            raise NotOurs(
                f"{target} is in the way and was not written by Benchlore; nothing was changed",
                hint="Move it away, or name another folder with --out DIR.",
            )


def _manifest(hashes: Mapping[str, str]) -> bytes:
    return (json.dumps({"format": FORMAT, "files": dict(sorted(hashes.items()))}, indent=0) + "\n").encode()


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:32]


def _same(path: Path, content: bytes) -> bool:
    try:
        return path.stat().st_size == len(content) and path.read_bytes() == content
    except OSError:
        return False


def _write(target: Path, content: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".benchlore-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(name).chmod(0o644)
        Path(name).replace(target)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise


def _remove(out: Path, url: str) -> bool:
    """Remove a stale file of ours, and the folders it leaves empty."""
    target = out / url
    try:
        target.unlink()
    except FileNotFoundError:
        return False
    for folder in target.parents:
        if folder == out:
            break
        with contextlib.suppress(OSError):
            folder.rmdir()
    return True
