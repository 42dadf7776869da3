"""What an index depends on besides the entries: when the fingerprint differs, an index is built anew."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from benchlore.terms.vocabulary import Vocabulary

FORMAT = 1
"""Raised by hand when the layout of a stored index changes."""
_PACKAGE = Path(__file__).parents[1]
_SOURCES = ("index/*.py", "terms/*.py", "terms/*.json", "quantity/*.py", "quantity/data/*", "read/entry.py")


@cache
def _code() -> str:
    """Digest of the code and tables that make terms of entries."""
    digest = hashlib.sha256()
    for pattern in _SOURCES:
        for path in sorted(_PACKAGE.glob(pattern)):
            digest.update(path.relative_to(_PACKAGE).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def fingerprint(vocabulary: Vocabulary, licence: str | None, currency: str | None) -> str:
    """SHA-256 over format, code, vocabulary and what the shop says where an entry says nothing."""
    return hashlib.sha256(f"{FORMAT}\0{_code()}\0{vocabulary.digest}\0{licence}\0{currency}".encode()).hexdigest()


def signature(root: Path, paths: Iterable[Path]) -> str:
    """SHA-256 over names, sizes and times of change of entry files: equal means that nothing need be read."""
    digest = hashlib.sha256()
    for path in paths:
        try:
            status = path.lstat()
            mark = f"{status.st_size}\0{status.st_mtime_ns}\0{status.st_ino}"
        except OSError:
            mark = "gone"
        digest.update(f"{path.relative_to(root).as_posix()}\0{mark}\n".encode("utf-8", "surrogateescape"))
    return digest.hexdigest()
