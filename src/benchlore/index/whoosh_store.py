"""The index on disk, in the user's cache folder, by Whoosh: the only module that imports it.

Whoosh finds the live entries that have a term, and how often; it does not score. A stored index contains pickles, so it
is opened only from a folder that belongs to the user alone, in the user's own cache, never from inside a base.

Layout, under ``<cache>/search/<key of the base's path>/``: ``lock``; ``state.json`` (ours, replaced as a whole: the
fingerprint, the signature of the files, the catalogue, and which Whoosh document is which entry);
``entries-GENERATION.json`` (what is kept of each entry, read when something changed); and the folder that
``state.json`` names. A term's postings hold, packed, in which fields an entry has it, how often, and their lengths.
Whoever changes anything holds the lock. An index whose generation is not the one in ``state.json`` (a crash between two
steps) is built anew, and so is one in doubt for any other reason.
"""

from __future__ import annotations

import json
import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import astuple
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from whoosh import fields as whoosh_fields
from whoosh import index as whoosh_index
from whoosh.codec.whoosh3 import W3LeafMatcher
from whoosh.formats import Existence, Format
from whoosh.reading import TermNotFound
from whoosh.util.filelock import FileLock

from benchlore.index.cache_place import cache_folder
from benchlore.index.card import Card
from benchlore.index.catalogue import Catalogue, Kept
from benchlore.index.packing import digits, numbers
from benchlore.index.rank import Occurrences, Where
from benchlore.index.store import Shown

if TYPE_CHECKING:
    from benchlore.index.documents import Document
    from benchlore.read.base import Record

REBUILD_SHARE = 0.3
"""From this share of changed entries on, the index is built anew, not changed."""


Make = Callable[[Sequence["Record"]], Iterable["Document"]]
"""Makes the documents of records, in their order."""


class StoreUnavailableError(Exception):
    """No index can be kept on disk now (locked, or no place of our own): answer from memory."""


class _AnyBytes(Format):  # type: ignore[misc]
    """Postings whose values are bytes of any length, ours to read."""

    posting_size = -1

    def decode_frequency(self, _: bytes) -> int:
        return 1

    def decode_weight(self, _: bytes) -> float:
        return 1.0


class _Packed(whoosh_fields.FieldType):  # type: ignore[misc]
    """A field that is given its terms with the value of each posting."""

    scorable = True  # or else Whoosh asks the file system about every posting when it writes

    def __init__(self) -> None:
        self.format = _AnyBytes()

    def index(self, value: Mapping[str, bytes], **_: Any) -> Iterator[tuple[bytes, int, float, bytes]]:
        for term, packed in value.items():
            yield term.encode(), 1, 1.0, packed


class _Set(whoosh_fields.FieldType):  # type: ignore[misc]
    """A field that is given its terms, of which only the entries are kept."""

    def __init__(self) -> None:
        self.format = Existence()

    def index(self, value: Iterable[str], **_: Any) -> Iterator[tuple[bytes, int, float, bytes]]:
        for term in value:
            yield term.encode(), 1, 1.0, b""


def _schema() -> whoosh_fields.Schema:
    return whoosh_fields.Schema(
        slug=whoosh_fields.ID(stored=True, unique=True),
        rel=whoosh_fields.STORED(),
        card=whoosh_fields.STORED(),
        items=whoosh_fields.STORED(),
        terms=_Packed(),
        words=_Set(),
        unsaid=_Set(),
    )


@lru_cache(maxsize=100_000)
def _where(packed: bytes) -> Where:
    """Where an entry has a term, from the value of its posting."""
    found = numbers(packed.decode("ascii"))
    return tuple(zip(found, found, found, strict=True))


class WhooshStore:
    """An open index (see :class:`benchlore.index.store.Store`)."""

    def __init__(self, index: Any, catalogue: Catalogue, documents: Sequence[int]) -> None:
        """``documents`` is the Whoosh document number of each entry of ``catalogue``."""
        self.catalogue = catalogue
        self._index = index
        self._reader = index.reader()
        self._documents = documents
        self._entry_at = {number: entry for entry, number in enumerate(documents)}
        # Entries written in one go lie in the order of their slugs, and then nothing need be sorted.
        self._in_order = all(map(int.__lt__, documents, documents[1:]))

    def occurrences(self, term: str) -> Occurrences:
        """See :class:`benchlore.index.store.Store`."""
        found = {
            entry: _where(packed)
            for number, packed in self._postings("terms", term)
            if (entry := self._entry_at.get(number)) is not None
        }
        return found if self._in_order else dict(sorted(found.items()))

    def _postings(self, field: str, term: str) -> Iterator[tuple[int, bytes]]:
        """Whoosh's document numbers with their values, a block of postings at a time where a matcher has them."""
        try:
            matcher = self._reader.postings(field, term.encode())
        except TermNotFound:
            return
        for leaf, offset in _leaves(matcher):
            if not isinstance(leaf, W3LeafMatcher):  # few postings, which Whoosh keeps beside the term
                while leaf.is_active():
                    yield leaf.id() + offset, leaf.value()
                    leaf.next()
                continue
            while not leaf._atend:  # what next() does, for a block at once
                leaf._read_ids()
                leaf._read_values()
                for number, value in zip(leaf._ids, leaf._values, strict=True):
                    yield number + offset, value
                leaf._next_block()

    def _entries(self, field: str, term: str) -> list[int]:
        found = (self._entry_at.get(number) for number, _ in self._postings(field, term))
        return [entry for entry in found if entry is not None]

    def terms_from(self, start: str) -> Iterator[str]:
        """See :class:`benchlore.index.store.Store`."""
        for field, term in self._reader.terms_from("terms", start.encode()):
            if field != "terms":
                break
            yield term.decode()

    def holding(self, item: str) -> Iterable[int]:
        """See :class:`benchlore.index.store.Store`."""
        return [*self.occurrences(item), *self._entries("unsaid", item)]

    def items(self, entry: int) -> str:
        """See :class:`benchlore.index.store.Store`."""
        items: str = self._stored(entry)["items"]
        return items

    def _stored(self, entry: int) -> dict[str, Any]:
        stored: dict[str, Any] = self._reader.stored_fields(self._documents[entry])
        return stored

    def words(self, letter: str) -> Iterable[str]:
        """See :class:`benchlore.index.store.Store`."""
        return [word.decode() for word in self._reader.expand_prefix("words", letter.encode())]

    def word_count(self, word: str) -> int:
        """See :class:`benchlore.index.store.Store`."""
        return len(self._entries("words", word))

    def shown(self, entry: int) -> Shown:
        """See :class:`benchlore.index.store.Store`."""
        stored = self._stored(entry)
        return Shown(stored["rel"], Card(*json.loads(stored["card"])))

    def close(self) -> None:
        """Let go of the index's files."""
        self._reader.close()
        self._index.close()


def _leaves(matcher: Any) -> Iterator[tuple[Any, int]]:
    """The matchers of single segments under a matcher, each with what is added to its document numbers."""
    if hasattr(matcher, "matchers"):
        for child, offset in zip(matcher.matchers, matcher.offsets, strict=True):
            for leaf, further in _leaves(child):
                yield leaf, offset + further
    elif hasattr(matcher, "child"):  # leaves out deleted documents, which are no entries anyway
        yield from _leaves(matcher.child)
    else:
        yield matcher, 0


class WhooshCache:
    """The stored index of one base, and how it is kept up to date."""

    def __init__(self, root: Path, fingerprint: str, cache: Path | None = None) -> None:
        """``root`` is the base's folder, ``cache`` the folder for caches (the user's own when left out).

        Raises :class:`StoreUnavailableError` when there is no place that is ours alone.
        """
        self._folder = cache_folder(root, cache)
        self._fingerprint = fingerprint
        if self._folder.resolve().is_relative_to(root.resolve()):
            raise StoreUnavailableError("the cache folder lies inside the knowledge base")
        try:
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            status = self._folder.lstat()
        except OSError as error:
            raise StoreUnavailableError(str(error)) from error
        if not stat.S_ISDIR(status.st_mode) or not _is_ours(status):
            raise StoreUnavailableError(f"{self._folder} does not belong to this user alone")

    def ready(self, signature: str) -> WhooshStore | None:
        """The stored index, when it is exactly that of the files with this signature."""
        state = self._state()
        if state is None or state["signature"] != signature:
            return None
        index = self._open_index(state)
        if index is None:
            return None
        try:
            return WhooshStore(index, Catalogue.from_json(state["catalogue"]), state["documents"])
        except Exception:  # whatever is wrong with a cache, it is built anew
            return None

    def open(self, signature: str, records: Callable[[], Sequence[Record]], make: Make) -> WhooshStore:
        """The index of the files that have this signature; ``records`` and ``make`` are called when it is out of date.

        Raises :class:`StoreUnavailableError` when another process is changing it.
        """
        store = self.ready(signature)
        if store:
            return store
        with self._locked():
            store = self.ready(signature)
            if store is None:
                try:
                    self.update(signature, records(), make)
                except OSError as error:
                    raise StoreUnavailableError(str(error)) from error
                store = self.ready(signature)
        if store is None:
            raise StoreUnavailableError("the index could not be opened after it was written")
        return store

    def update(self, signature: str, records: Sequence[Record], make: Make) -> None:
        """Bring the index to exactly these records. The caller holds the lock."""
        try:
            folder = self._change(signature, records, make)
        except Exception:  # whatever is wrong with a stored index, it is built anew
            folder = None
        if folder is None:
            folder = Path(tempfile.mkdtemp(prefix="index-", dir=self._folder))
            index = whoosh_index.create_in(str(folder), _schema())
            kept = _write(index, (), records, make)
            self._write_state(signature, folder, index, kept)
        for other in self._folder.glob("index-*"):
            if other != folder:
                shutil.rmtree(other, ignore_errors=True)

    def _change(self, signature: str, records: Sequence[Record], make: Make) -> Path | None:
        """Change the stored index; gives its folder, or None when there is none or too much has changed."""
        state = self._state()
        index = self._open_index(state)
        if state is None or index is None:
            return None
        rows = json.loads(self._entries_file(state["generation"]).read_text(encoding="utf-8"))
        kept = {k.slug: k for k in map(Kept.from_json, rows)}
        wanted = {record.slug for record in records}
        changed = [r for r in records if r.slug not in kept or kept[r.slug].digest != r.digest]
        gone = [slug for slug in kept if slug not in wanted]
        if len(changed) + len(gone) > REBUILD_SHARE * len(records):
            return None
        if changed or gone:
            replaced = [r.slug for r in changed if r.slug in kept]
            new = _write(index, [*gone, *replaced], changed, make)
            kept = {slug: k for slug, k in kept.items() if slug in wanted} | new
        folder = self._folder / str(state["folder"])
        self._write_state(signature, folder, index, kept)
        return folder

    def _entries_file(self, generation: int) -> Path:
        return self._folder / f"entries-{generation}.json"

    def _write_state(self, signature: str, folder: Path, index: Any, kept: Mapping[str, Kept]) -> None:
        entries = sorted(kept.values(), key=lambda entry: entry.slug)
        with index.reader() as reader:
            number_of = {stored["slug"]: number for number, stored in reader.iter_docs()}
        generation = index.latest_generation()
        self._put(self._entries_file(generation), [entry.to_json() for entry in entries])
        state = {
            "fingerprint": self._fingerprint,
            "signature": signature,
            "folder": folder.name,
            "generation": generation,
            "documents": [number_of[entry.slug] for entry in entries],
            "catalogue": Catalogue.of(entries).to_json(),
        }
        self._put(self._folder / "state.json", state)
        for other in self._folder.glob("entries-*.json"):
            if other != self._entries_file(generation):
                other.unlink(missing_ok=True)
        index.close()

    @staticmethod
    def _put(file: Path, payload: Any) -> None:
        temporary = file.with_name(f"{file.name}.{os.getpid()}")
        temporary.write_text(json.dumps(payload, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
        temporary.replace(file)

    def _state(self) -> dict[str, Any] | None:
        """What is known of the stored index; None when there is none or it does not fit."""
        try:
            state = json.loads((self._folder / "state.json").read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return None
        return state if isinstance(state, dict) and state.get("fingerprint") == self._fingerprint else None

    def _open_index(self, state: dict[str, Any] | None) -> Any | None:
        """The Whoosh index of a state; None when it is missing, broken, or another generation."""
        if state is None:
            return None
        try:
            index = whoosh_index.open_dir(str(self._folder / Path(state["folder"]).name))
            return index if index.latest_generation() == state["generation"] else None
        except Exception:  # whatever is wrong with a cache, it is built anew
            return None

    @contextmanager
    def _locked(self) -> Iterator[None]:
        lock = FileLock(str(self._folder / "lock"))
        try:
            held = lock.acquire(blocking=False)
        except OSError as error:
            raise StoreUnavailableError(str(error)) from error
        if not held:
            raise StoreUnavailableError("another process is bringing the index up to date")
        try:
            yield
        finally:
            with suppress(OSError):
                lock.release()


def _write(index: Any, gone: Iterable[str], records: Sequence[Record], make: Make) -> dict[str, Kept]:
    """Take slugs out of a Whoosh index and put records in, in one commit; gives what is to be kept of these."""
    from benchlore.index.documents import occurrences_of

    kept: dict[str, Kept] = {}
    writer = index.writer(limitmb=128)
    try:
        for slug in gone:
            writer.delete_by_term("slug", slug)
        for document in make(sorted(records, key=lambda record: record.slug)):
            places = occurrences_of(document)
            writer.add_document(
                slug=document.slug,
                rel=document.rel,
                card=json.dumps(astuple(document.card), ensure_ascii=False),
                items=document.items,
                terms={term: digits(n for place in where for n in place).encode() for term, where in places.items()},
                words=document.words,
                unsaid=document.unsaid,
            )
            kept[document.slug] = Kept.of(document)
    except BaseException:
        writer.cancel()
        raise
    writer.commit()
    return kept


def _is_ours(status: os.stat_result) -> bool:
    """Whether nobody else can put files there."""
    if os.name == "nt":
        return True
    return status.st_uid == os.geteuid() and not status.st_mode & 0o022
