"""The index on disk, in the user's cache folder, by Whoosh: the only module that imports it.

Whoosh finds the live entries that have a term, and how often; it does not score. A stored index contains pickles, so it
is opened only from a folder that belongs to the user alone, in the user's own cache, never from inside a base.

Layout, under ``<cache>/search/<key of the base's path>/``: ``lock``; ``state.json`` (ours, replaced as a whole: the
fingerprint, the signature of the files, what is kept of each entry, and which Whoosh document is which entry); and the
folder that ``state.json`` names. Whoever changes anything holds the lock. An index whose generation is not the one in
``state.json`` (a crash between two steps) is built anew, and so is one in doubt for any other reason.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

import platformdirs
from whoosh import fields as whoosh_fields
from whoosh import index as whoosh_index
from whoosh.formats import Frequency
from whoosh.reading import TermNotFound
from whoosh.util.filelock import FileLock
from whoosh.util.numeric import pack_uint

from benchlore.index.documents import Document
from benchlore.index.fields import FIELDS
from benchlore.index.store import Catalogue, Kept, Text

if TYPE_CHECKING:
    from benchlore.read.base import Record

REBUILD_SHARE = 0.3
"""From this share of changed entries on, the index is built anew, not changed."""


class StoreUnavailableError(Exception):
    """No index can be kept on disk now (locked, or no place of our own): answer from memory."""


class _Counts(whoosh_fields.FieldType):  # type: ignore[misc]
    """A field that is given its terms already counted."""

    scorable = True  # or else Whoosh asks the file system about every posting when it writes

    def __init__(self) -> None:
        self.format = Frequency()

    def index(self, value: Mapping[str, int], **_: Any) -> Iterator[tuple[bytes, int, float, bytes]]:
        for term, tf in value.items():
            yield term.encode(), tf, float(tf), pack_uint(tf)


def _schema() -> whoosh_fields.Schema:
    return whoosh_fields.Schema(
        slug=whoosh_fields.ID(stored=True, unique=True),
        items=whoosh_fields.STORED(),
        words=whoosh_fields.STORED(),
        **{field.name: _Counts() for field in FIELDS},
    )


class WhooshStore:
    """An open index (see :class:`benchlore.index.store.Store`)."""

    def __init__(self, index: Any, catalogue: Catalogue, numbers: Sequence[int]) -> None:
        """``numbers`` is the Whoosh document number of each entry of ``catalogue``."""
        self.catalogue = catalogue
        self._index = index
        self._reader = index.reader()
        self._texts: Sequence[Text] | None = None
        self._entry_at = {number: entry for entry, number in enumerate(numbers)}

    def postings(self, field: str, term: str) -> Sequence[tuple[int, int]]:
        """See :class:`benchlore.index.store.Store`."""
        try:
            matcher = self._reader.postings(field, term.encode())
        except TermNotFound:
            return ()
        found = []
        while matcher.is_active():
            entry = self._entry_at.get(matcher.id())
            if entry is not None:
                found.append((entry, int(matcher.weight())))
            matcher.next()
        return sorted(found)

    def prefix_terms(self, field: str, start: str) -> Iterable[str]:
        """See :class:`benchlore.index.store.Store`."""
        for term in self._reader.expand_prefix(field, start.encode()):
            yield term.decode()

    def texts(self) -> Sequence[Text]:
        """See :class:`benchlore.index.store.Store`; read when first asked for."""
        if self._texts is None:
            found = {
                self._entry_at[number]: Text(stored["items"], stored["words"])
                for number, stored in self._reader.iter_docs()
                if number in self._entry_at
            }
            self._texts = [found[entry] for entry in range(len(self._entry_at))]
        return self._texts

    def close(self) -> None:
        """Let go of the index's files."""
        self._reader.close()
        self._index.close()


class WhooshCache:
    """The stored index of one base, and how it is kept up to date."""

    def __init__(self, root: Path, fingerprint: str, cache: Path | None = None) -> None:
        """``root`` is the base's folder, ``cache`` the folder for caches (the user's own when left out).

        Raises :class:`StoreUnavailableError` when there is no place that is ours alone.
        """
        key = hashlib.sha256(os.fsencode(root.resolve())).hexdigest()[:24]
        self._folder = (cache or platformdirs.user_cache_path("benchlore")) / "search" / key
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

    def open(
        self, signature: str, records: Callable[[], Sequence[Record]], make: Callable[[Record], Document]
    ) -> WhooshStore:
        """The index of the files that have this signature; ``records`` and ``make`` are called when it is out of date.

        Raises :class:`StoreUnavailableError` when another process is changing it.
        """
        store = self._ready(signature)
        if store:
            return store
        with self._locked():
            store = self._ready(signature)
            if store is None:
                try:
                    self.update(signature, records(), make)
                except OSError as error:
                    raise StoreUnavailableError(str(error)) from error
                store = self._ready(signature)
        if store is None:
            raise StoreUnavailableError("the index could not be opened after it was written")
        return store

    def update(self, signature: str, records: Sequence[Record], make: Callable[[Record], Document]) -> None:
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

    def _change(
        self, signature: str, records: Sequence[Record], make: Callable[[Record], Document]
    ) -> Path | None:
        """Change the stored index; gives its folder, or None when there is none or too much has changed."""
        state = self._state()
        index = self._open_index(state)
        if state is None or index is None:
            return None
        kept = {k.slug: k for k in map(Kept.from_json, state["entries"])}
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

    def _write_state(self, signature: str, folder: Path, index: Any, kept: Mapping[str, Kept]) -> None:
        entries = Catalogue(kept.values()).entries
        with index.reader() as reader:
            number_of = {stored["slug"]: number for number, stored in reader.iter_docs()}
        state = {
            "fingerprint": self._fingerprint,
            "signature": signature,
            "folder": folder.name,
            "generation": index.latest_generation(),
            "numbers": [number_of[entry.slug] for entry in entries],
            "entries": [entry.to_json() for entry in entries],
        }
        temporary = self._folder / f"state.json.{os.getpid()}"
        temporary.write_text(json.dumps(state, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
        temporary.replace(self._folder / "state.json")
        index.close()

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

    def _ready(self, signature: str) -> WhooshStore | None:
        """The stored index, when it is exactly that of the files with this signature."""
        state = self._state()
        if state is None or state["signature"] != signature:
            return None
        index = self._open_index(state)
        if index is None:
            return None
        try:
            return WhooshStore(index, Catalogue(map(Kept.from_json, state["entries"])), state["numbers"])
        except Exception:  # as above
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


def _write(
    index: Any, gone: Iterable[str], records: Iterable[Record], make: Callable[[Record], Document]
) -> dict[str, Kept]:
    """Take slugs out of a Whoosh index and put records in, in one commit; gives what is to be kept of these."""
    kept: dict[str, Kept] = {}
    writer = index.writer(limitmb=128)
    try:
        for slug in gone:
            writer.delete_by_term("slug", slug)
        for record in records:
            document = make(record)
            counted = zip(FIELDS, document.fields, strict=True)
            writer.add_document(
                slug=document.slug,
                items=document.items,
                words=" ".join(document.words),
                **{field.name: counts for field, counts in counted if counts},
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
