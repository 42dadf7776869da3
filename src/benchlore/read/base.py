"""A knowledge base on disk: finds, reads, keeps and looks up entries. Nothing else reads entries."""

from __future__ import annotations

import gc
import os
import re
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from benchlore import data
from benchlore.errors import BenchloreError
from benchlore.read.entry import FaultEntry
from benchlore.read.files import read_text
from benchlore.read.parse import ParsedEntry, parse_entry
from benchlore.read.problem import Problem
from benchlore.read.shop import SHOP_FILE, Shop, read_shop
from benchlore.terms.vocabulary import Vocabulary, load

DEEPEST = 4
"""Folders below ``entries/`` that are looked into; entries themselves lie one deep."""
SUFFIXES = (".yaml", ".yml")
_JUST_NOW = 50_000_000
"""Nanoseconds within which two changes of a file can bear the same time."""
_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class BaseNotFound(BenchloreError):  # noqa: N818 - reads better where it is caught
    """No knowledge base where one was looked for."""


@dataclass(frozen=True, slots=True)
class Source:
    """One file under ``entries/`` as it was found.

    ``rel`` is its path from the base's root, with ``/``; ``slug`` its name without suffix; ``digest`` the SHA-256 of
    its bytes in hex, empty when they were not read. ``problems`` are those of the file and of the entry.
    """

    path: Path
    rel: str
    slug: str
    text: str | None
    digest: str
    parsed: ParsedEntry | None
    problems: tuple[Problem, ...]

    @property
    def entry(self) -> FaultEntry | None:
        """The entry, when nothing at all is wrong with its file and its form."""
        return self.parsed.model if self.parsed and not self.problems else None


@dataclass(frozen=True, slots=True)
class Record:
    """A valid entry with its identity: slug, path from the root, SHA-256 of its bytes."""

    slug: str
    rel: str
    digest: str
    entry: FaultEntry


class Base:
    """A knowledge base: the folder that holds ``site_config/shop.yaml`` and ``entries/``.

    Files are read when asked for, and again only when their size or time of change differs.
    """

    def __init__(self, root: Path) -> None:
        """Open the base at ``root``; raises :class:`BaseNotFound` when there is no ``site_config/shop.yaml``."""
        self.root = root.resolve()
        if not (self.root / SHOP_FILE).is_file():
            raise BaseNotFound(
                f"{root} is no knowledge base: it has no {SHOP_FILE.as_posix()}",
                hint="Make one with: benchlore start DIR",
            )
        self._read: dict[Path, tuple[tuple[int, ...], Source]] = {}

    @classmethod
    def find(cls, start: Path) -> Base:
        """The base that ``start`` lies in: the nearest folder upwards with ``site_config/shop.yaml``."""
        start = start.resolve()
        for folder in (start, *start.parents):
            if (folder / SHOP_FILE).is_file():
                return cls(folder)
        raise BaseNotFound(
            f"no knowledge base here: neither {start} nor a folder above it has {SHOP_FILE.as_posix()}",
            hint="Go to one, name one with --base DIR, or make one with: benchlore start DIR",
        )

    @cached_property
    def shop(self) -> Shop:
        """The shop's configuration; raises :class:`benchlore.read.shop.ShopError` with file, line and column."""
        return read_shop(self.root / SHOP_FILE, SHOP_FILE.as_posix())

    @cached_property
    def vocabulary(self) -> Vocabulary:
        """The base's own ``schema/vocabulary/``, else the one that comes with Benchlore."""
        return load(self.vocabulary_folder)

    @property
    def vocabulary_folder(self) -> Path:
        """The folder that the vocabulary is read from."""
        own = self.root / "schema" / "vocabulary"
        return own if own.is_dir() else data.folder("schema") / "vocabulary"

    @property
    def entries_folder(self) -> Path:
        """``entries/``; it may not exist yet."""
        return self.root / "entries"

    def entry_paths(self) -> list[Path]:
        """Everything under ``entries/`` that is named like an entry, sorted; also what :meth:`read` will refuse."""
        found = list(_candidates(self.entries_folder))
        return sorted(found, key=lambda path: path.as_posix())

    def read(self, path: Path) -> Source:
        """Read one file; a relative path starts at the root. What the file is or holds never raises: it is a problem.

        A file outside the base may be read when it is named; a link inside that leads outside is not followed.
        """
        path = Path(os.path.normpath(self.root / path))
        stamp = file_stamp(path)
        kept = self._read.get(path)
        if kept and stamp and kept[0] == stamp:
            return kept[1]
        source = self._source(path)
        if stamp and stamp == file_stamp(path):
            self._read[path] = (stamp, source)
        else:
            self._read.pop(path, None)
        return source

    def sources(self) -> Iterator[Source]:
        """Every file of :meth:`entry_paths`, read, in that order."""
        for path in self.entry_paths():
            yield self.read(path)

    def records(self) -> list[Record]:
        """The valid entries by slug. Where two files have the same slug, the first by path counts."""
        found: dict[str, Record] = {}
        with _collector_paused():
            for source in self.sources():
                if source.entry is not None:
                    found.setdefault(source.slug, Record(source.slug, source.rel, source.digest, source.entry))
        return [found[slug] for slug in sorted(found)]

    def _source(self, path: Path) -> Source:
        rel = _readable(path.relative_to(self.root).as_posix() if path.is_relative_to(self.root) else path.as_posix())
        slug = _readable(path.stem)
        real, problems = self._behind(path)
        if real is None:
            return Source(path, rel, slug, None, "", None, problems)
        text, digest, unread = read_text(real)
        if text is None:
            return Source(path, rel, slug, None, digest, None, unread)
        parsed = parse_entry(text)
        return Source(path, rel, slug, text, digest, parsed, (*self._name_problems(path), *parsed.problems))

    def _behind(self, path: Path) -> tuple[Path | None, tuple[Problem, ...]]:
        """The file itself, links resolved; None when a link inside the base leads outside or nowhere."""
        try:
            real = path.resolve(strict=True)
        except (OSError, RuntimeError):
            return None, (Problem("unreadable-file", (), "the file is not there, or a link that leads nowhere"),)
        if path.is_relative_to(self.root) and not real.is_relative_to(self.root):
            message = "this link leads outside the knowledge base and is not followed"
            return None, (Problem("link-outside", (), message, "Put the file itself here."),)
        return real, ()

    def _name_problems(self, path: Path) -> tuple[Problem, ...]:
        """What is wrong with the name and place of a file under ``entries/``; elsewhere neither means anything."""
        if not path.is_relative_to(self.entries_folder):
            return ()
        problems = []
        if path.suffix != ".yaml":
            message = f"the file's name ends in {_readable(path.suffix)}"
            problems.append(Problem("bad-file-name", (), message, f"Call it {_readable(path.stem)}.yaml"))
        if not (_SLUG.fullmatch(path.stem) and 3 <= len(path.stem) <= 100):
            slug = re.sub(r"[^a-z0-9]+", "-", path.stem.lower()).strip("-")[:100]
            message = f"{_readable(path.stem)!r} cannot be an entry's name: it becomes the address of its page"
            hint = f"Use lower-case letters, digits and single hyphens: {slug or 'maker-model-fault'}.yaml"
            problems.append(Problem("bad-file-name", (), message, hint))
        if len(path.relative_to(self.entries_folder).parts) != 2:
            message = "an entry lies in a folder named for its class: entries/<class>/<slug>.yaml"
            problems.append(Problem("bad-file-name", (), message, "Move it into the folder of its equipment class."))
        return tuple(problems)


def file_stamp(path: Path) -> tuple[int, ...] | None:
    """What changes when a file does; None when that cannot be told: for links, and for a file changed just now."""
    try:
        status = path.lstat()
    except OSError:
        return None
    changed = max(status.st_mtime_ns, status.st_ctime_ns)
    if not stat.S_ISREG(status.st_mode) or time.time_ns() - changed < _JUST_NOW:
        return None
    return status.st_mtime_ns, status.st_ctime_ns, status.st_size, status.st_ino


def _candidates(folder: Path, depth: int = 0) -> Iterator[Path]:
    """Whatever is named like an entry; folders behind links are not entered."""
    try:
        with os.scandir(folder) as listing:
            items = list(listing)
    except OSError:
        return
    for item in items:
        if item.name.startswith("."):
            continue
        if item.name.lower().endswith(SUFFIXES):
            yield Path(item.path)
        elif depth < DEEPEST and item.is_dir(follow_symlinks=False):
            yield from _candidates(Path(item.path), depth + 1)


def _readable(name: str) -> str:
    """A file name that can be printed, whatever bytes it is made of."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape", "surrogatepass").decode() for c in name)


@contextmanager
def _collector_paused() -> Iterator[None]:
    """Without the cyclic collector, which would look at every model again and again while thousands are made."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()
