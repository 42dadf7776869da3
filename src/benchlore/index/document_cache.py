"""Keeps what was made of entries in the user's cache folder, so that an entry which did not change is not made again.

JSON by the digest of the entry's bytes, in an SQLite file of its own for each vocabulary, shop and version of
Benchlore.
"""

from __future__ import annotations

import json
import sqlite3
import zlib
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from benchlore.index.card import Card
from benchlore.index.documents import Document

if TYPE_CHECKING:
    from benchlore.read.base import Record

_ASK = "SELECT digest, document FROM documents"


def cached_documents(
    records: Sequence[Record], make: Callable[[Record], Document], file: Path | None
) -> list[Document]:
    """The documents of the records, in their order; made where ``file`` does not hold them, and kept there.

    When it holds many more than these, what is no longer wanted goes, and so do files of the same kind beside it.
    A file that cannot be used (locked, damaged, no room) is left alone: everything is made then. None keeps nothing.
    """
    known = _read(file) if file else {}
    found, fresh = [], {}
    for record in records:
        kept = known.get(record.digest)
        document = _document(kept, record) if kept else None
        if document is None:
            document = make(record)
            fresh[record.digest] = document
        found.append(document)
    if file and fresh:
        wanted = {record.digest for record in records}
        _write(file, fresh, [d for d in known if d not in wanted] if len(known) > 2 * len(records) > 500 else [])
    return found


def _read(file: Path) -> dict[str, bytes]:
    if not file.is_file():
        return {}
    try:
        with closing(sqlite3.connect(file, timeout=1)) as database:
            return dict(database.execute(_ASK))
    except sqlite3.Error:
        return {}


def _write(file: Path, fresh: dict[str, Document], gone: Sequence[str]) -> None:
    rows = [(digest, _packed(document)) for digest, document in fresh.items()]
    for attempt in range(2):
        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            with closing(sqlite3.connect(file, timeout=1)) as database, database:
                database.execute("CREATE TABLE IF NOT EXISTS documents (digest TEXT PRIMARY KEY, document BLOB)")
                database.executemany("DELETE FROM documents WHERE digest = ?", [(digest,) for digest in gone])
                database.executemany("INSERT OR REPLACE INTO documents VALUES (?, ?)", rows)
            for other in file.parent.glob("documents-*.sqlite"):
                if other != file:
                    other.unlink(missing_ok=True)
            return
        except sqlite3.DatabaseError as error:
            if attempt or isinstance(error, sqlite3.OperationalError):
                return
            file.unlink(missing_ok=True)  # not a database: made anew
        except OSError:
            return


def _packed(document: Document) -> bytes:
    return zlib.compress(json.dumps(asdict(document), ensure_ascii=False).encode(), 1)


def _document(kept: bytes, record: Record) -> Document | None:
    try:
        raw = json.loads(zlib.decompress(kept))
        document = Document(
            slug=record.slug,
            rel=record.rel,
            digest=record.digest,
            fields=tuple(raw["fields"]),
            items=raw["items"],
            unsaid=tuple(raw["unsaid"]),
            words=tuple(raw["words"]),
            lengths=tuple(raw["lengths"]),
            facets=[[(key, label) for key, label in choices] for choices in raw["facets"]],
            plain_marks=tuple(raw["plain_marks"]),
            card=Card(**raw["card"]),
        )
    except (ValueError, KeyError, TypeError, zlib.error):
        return None
    return document
