"""Opens the index of a base: as it was left in the user's cache folder, brought up to date, or in memory."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from benchlore import data
from benchlore.index.cache_place import cache_folder
from benchlore.index.fingerprint import code_digest, fingerprint, signature, tree_signature
from benchlore.index.lexicon import KeptLexicon, Lexicon, VocabularyLexicon, lexicon_json
from benchlore.index.store import MemoryStore, Store

if TYPE_CHECKING:
    from benchlore.index.documents import Document
    from benchlore.read.base import Base, Record
    from benchlore.terms.vocabulary import Vocabulary

_LEXICON = "lexicon.json"
_SHOP = Path("site_config") / "shop.yaml"


def open_index(base: Base, cache: Path | None = None) -> tuple[Store, Lexicon]:
    """The base's index, and the vocabulary as search sees it; ``cache`` is the user's own folder when left out."""
    store = open_store(base, cache)
    marked = fingerprint(base.vocabulary, base.shop.licence, base.shop.currency)
    keep_lexicon(base.root, base.vocabulary, marked, cache)
    return store, VocabularyLexicon(base.vocabulary)


def find_root(start: Path) -> Path | None:
    """The base that a folder lies in; None when there is none (see :meth:`benchlore.read.base.Base.find`)."""
    start = start.resolve()
    return next((folder for folder in (start, *start.parents) if (folder / _SHOP).is_file()), None)


def open_quickly(root: Path, cache: Path | None = None) -> tuple[Store, Lexicon] | None:
    """The index as it was left, when nothing changed since; then neither entries nor vocabulary are read. None else."""
    from benchlore.index.whoosh_store import StoreUnavailableError, WhooshCache

    root = root.resolve()
    try:
        kept = json.loads((cache_folder(root, cache) / _LEXICON).read_text(encoding="utf-8"))
        if not isinstance(kept, dict) or kept.get("mark") != _mark(root):
            return None
        store = WhooshCache(root, kept["fingerprint"], cache).ready(signature(root))
        return (store, KeptLexicon(kept["lexicon"])) if store else None
    except (OSError, ValueError, KeyError, TypeError, AttributeError, StoreUnavailableError):
        return None  # not there, or not as we left it


def keep_lexicon(root: Path, vocabulary: Vocabulary, marked: str, cache: Path | None = None) -> None:
    """Keep beside the index what :func:`open_quickly` needs of the vocabulary, where that can be done."""
    folder = cache_folder(root, cache)
    file, mark = folder / _LEXICON, _mark(root)
    if not folder.is_dir() or folder.resolve().is_relative_to(root.resolve()):
        return
    with suppress(OSError, ValueError, AttributeError):
        if json.loads(file.read_text(encoding="utf-8")).get("mark") == mark:
            return
    with suppress(OSError):
        temporary = file.with_name(f"{file.name}.{os.getpid()}")
        kept = {"mark": mark, "fingerprint": marked, "lexicon": lexicon_json(vocabulary)}
        temporary.write_text(json.dumps(kept, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
        temporary.replace(file)


def _mark(root: Path) -> str:
    """What the lexicon and the fingerprint come from: equal means that they are as before."""
    own = root / "schema" / "vocabulary"
    vocabulary = own if own.is_dir() else data.folder("schema") / "vocabulary"
    return f"{code_digest()} {vocabulary} {tree_signature(vocabulary, root / _SHOP)}"


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
