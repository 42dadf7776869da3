"""What an index depends on besides the entries: when the fingerprint differs, an index is built anew."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchlore.terms.vocabulary import Vocabulary

FORMAT = 2
"""Raised by hand when the layout of a stored index changes."""
_DEEPEST = 5
"""Folders below ``entries/`` that are looked into: one more than where entries are read."""
_PACKAGE = Path(__file__).parents[1]
_SOURCES = ("index/*.py", "terms/*.py", "terms/*.json", "quantity/*.py", "quantity/data/*", "read/entry.py")


@cache
def code_digest() -> str:
    """Digest of the code and tables that make terms of entries."""
    digest = hashlib.sha256()
    for pattern in _SOURCES:
        for path in sorted(_PACKAGE.glob(pattern)):
            digest.update(path.relative_to(_PACKAGE).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def fingerprint(vocabulary: Vocabulary, licence: str | None, currency: str | None) -> str:
    """SHA-256 over format, code, vocabulary and what the shop says where an entry says nothing."""
    return hashlib.sha256(f"{FORMAT}\0{code_digest()}\0{vocabulary.digest}\0{licence}\0{currency}".encode()).hexdigest()


def signature(root: Path) -> str:
    """SHA-256 over names, sizes and times of change of what may be an entry: equal means that nothing need be read."""
    return tree_signature(root / "entries")


def tree_signature(*folders: Path) -> str:
    """The same over all YAML files below ``folders``, and over the files among them."""
    digest = hashlib.sha256()
    for folder in folders:
        digest.update(f"{folder.name}\0".encode("utf-8", "surrogateescape"))
        for line in sorted(_marks(str(folder), "", 0)):
            digest.update(line.encode("utf-8", "surrogateescape"))
    return digest.hexdigest()


def _marks(folder: str, inside: str, depth: int) -> Iterator[str]:
    try:
        with os.scandir(folder) as listing:
            items = list(listing)
    except NotADirectoryError:
        yield _mark("", os.lstat(folder))
        return
    except OSError:
        return
    for item in items:
        name = item.name
        if name.startswith("."):
            continue
        if name.lower().endswith((".yaml", ".yml")):
            try:
                yield _mark(f"{inside}{name}", item.stat(follow_symlinks=False))
            except OSError:
                yield f"{inside}{name}\0gone\n"
        elif depth < _DEEPEST and item.is_dir(follow_symlinks=False):
            yield from _marks(item.path, f"{inside}{name}/", depth + 1)


def _mark(name: str, status: os.stat_result) -> str:
    return f"{name}\0{status.st_size}\0{status.st_mtime_ns}\0{status.st_ino}\n"
