"""Opens the index of a base: as it was left in the user's cache folder, brought up to date, or in memory."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from benchlore.index.cache_place import cache_folder
from benchlore.index.fingerprint import fingerprint, signature
from benchlore.index.lexicon import Lexicon, VocabularyLexicon
from benchlore.index.store import MemoryStore, Store

if TYPE_CHECKING:
    from benchlore.index.documents import Document
    from benchlore.read.base import Base, Record


def open_index(base: Base, cache: Path | None = None) -> tuple[Store, Lexicon]:
    """The base's index, and the vocabulary as search sees it; ``cache`` is the user's own folder when left out."""
    return open_store(base, cache), VocabularyLexicon(base.vocabulary)


def open_store(base: Base, cache: Path | None = None) -> Store:
    """The base's index: from the user's cache, brought up to date; from memory when that cannot be done now."""
    from benchlore.index.whoosh_store import StoreUnavailableError, WhooshCache

    make = partial(documents_of, base, cache=cache)
    marked = fingerprint(base.vocabulary, base.shop.licence, base.shop.currency)
    try:
        return WhooshCache(base.root, marked, cache).open(signature(base.root), base.records, make)
    except StoreUnavailableError:
        return MemoryStore(make(base.records()))


def documents_of(base: Base, records: Sequence[Record], cache: Path | None = None) -> list[Document]:
    """What the index makes of records of the base; of entries that did not change it is remembered."""
    from benchlore.index.document_cache import cached_documents
    from benchlore.index.documents import document

    licence, currency = base.shop.licence, base.shop.currency
    marked = fingerprint(base.vocabulary, licence, currency)
    folder = cache_folder(base.root, cache)
    return cached_documents(
        records,
        lambda record: document(record, base.vocabulary, licence=licence, currency=currency),
        None if folder.resolve().is_relative_to(base.root) else folder / f"documents-{marked[:24]}.sqlite",
    )
