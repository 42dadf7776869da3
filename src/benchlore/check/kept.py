"""Keeps what lint found between runs, in JSON in the user's cache folder; whatever does not fit is forgotten.

A result holds for the same bytes (size and times of change as a shortcut), the same files beside the entry, and the
same surroundings: vocabulary, shop.yaml, our version and sources, pydantic's version.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import json
import os
import sys
import tempfile
import zlib
from collections.abc import Iterable, Iterator
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any

from benchlore.check.facts import Facts, Name
from benchlore.check.finding import Finding
from benchlore.check.ignores import IgnoreRecord
from benchlore.check.one_file import FileResult
from benchlore.check.registry import RULES
from benchlore.check.rules.tool.rule_crashed import RuleCrashed
from benchlore.check.together import Together
from benchlore.read.base import Base, file_stamp
from benchlore.read.files import read_text
from benchlore.read.shop import SHOP_FILE
from benchlore.terms.model import KINDS
from benchlore.terms.vocabulary import Vocabulary

_SHARDS = 32
_FORM = 1
_BY_DAY = frozenset(rule.code for rule in RULES if rule.by_day)
_STAMP, _DIGEST, _DAY, _BESIDE, _FILE, _FINDINGS, _FACTS, _IGNORES, _READABLE = range(9)
_PATH = Finding.__slots__.index("path")
_Record = list[Any]


def _has_form(record: Any) -> bool:
    """Whether a record looks like one of ours."""
    if not isinstance(record, list) or len(record) != _READABLE + 1:
        return False
    facts = record[_FACTS]
    return facts is None or (isinstance(facts, list) and len(facts) == len(Facts.__slots__))


class Kept:
    """The results of earlier runs over one base. Records are by path from the root; only changed parts are written."""

    def __init__(self, root: Path, folder: Path, surroundings: str, today: dt.date) -> None:
        self._root = os.path.join(root, "")  # noqa: PTH118 - compared as text, ten thousand times
        self._folder = folder
        self._surroundings = surroundings
        self._today = today.isoformat()
        self._records: dict[str, _Record] = {}
        self._old: dict[str, _Record | None] = {}
        self._stamps: dict[str, list[int] | None] = {}
        self._changed_shards: set[int] = set()
        self._of = ""
        self._together: Together | None = None

    @classmethod
    def load(cls, base: Base, cache: Path, today: dt.date) -> Kept:
        """What is kept of ``base`` in ``cache``; nothing when it cannot be read or its surroundings have changed."""
        key = hashlib.sha256(os.fsencode(base.root)).hexdigest()[:24]
        kept = cls(base.root, cache / "lint" / key, surroundings(base), today)
        for number in range(_SHARDS):
            with contextlib.suppress(OSError, ValueError, KeyError, TypeError):
                shard = json.loads((kept._folder / f"files-{number}.json").read_bytes())
                if shard["surroundings"] == kept._surroundings:
                    kept._records.update({key: row for key, row in shard["records"].items() if _has_form(row)})
        kept._of = kept._state()
        return kept

    def vocabulary(self) -> Vocabulary | None:
        """The vocabulary as it is kept, which saves parsing its YAML."""
        try:
            kept = json.loads((self._folder / "vocabulary.json").read_bytes())
            if kept["surroundings"] != self._surroundings:
                return None
            terms = {
                kind: {term_id: KINDS[kind].model_validate(fields) for term_id, fields in of_kind.items()}
                for kind, of_kind in kept["terms"].items()
            }
            return Vocabulary(terms, kept["digest"])
        except (OSError, ValueError, LookupError, TypeError, AttributeError):
            return None

    def put_vocabulary(self, vocabulary: Vocabulary) -> None:
        """Keep the vocabulary."""
        with contextlib.suppress(OSError):
            terms = {
                kind: {i: t.model_dump(mode="json", by_alias=True, exclude_defaults=True) for i, t in of_kind.items()}
                for kind in KINDS
                if (of_kind := vocabulary.terms(kind))
            }
            content = {"surroundings": self._surroundings, "digest": vocabulary.digest, "terms": terms}
            self._write("vocabulary.json", content)

    def get(self, path: Path) -> FileResult | None:
        """The result kept for ``path``, if it still holds; without facts, which :meth:`facts` gives."""
        key = self._key(path)
        stamp = file_stamp(path) if key else None
        if not key:
            return None
        self._stamps[key] = list(stamp) if stamp else None
        record = self._records.get(key)
        if record is None or stamp is None:
            return None
        try:
            return self._held(record, path, key, list(stamp))
        except (TypeError, ValueError, LookupError):
            return None  # not written by us

    def _held(self, record: _Record, path: Path, key: str, stamp: list[int]) -> FileResult | None:
        if record[_DAY] != self._today and (
            record[_DAY] > self._today or any(finding[0] in _BY_DAY for finding in record[_FINDINGS])
        ):
            return None
        if any(_beside(path, name) != found for name, found in record[_BESIDE]):
            return None
        if record[_STAMP] != stamp:
            if read_text(path)[1] != record[_DIGEST]:
                return None
            record[_STAMP] = stamp
            self._changed_shards.add(_shard(key))
        return FileResult(
            record[_FILE],
            tuple(_finding(row) for row in record[_FINDINGS]),
            None,
            tuple(IgnoreRecord(*row) for row in record[_IGNORES]),
            record[_DIGEST],
            readable=record[_READABLE],
        )

    def put(self, path: Path, result: FileResult) -> None:
        """Keep a new result, unless a rule of ours failed or the file cannot be told from a changed one."""
        key = self._key(path)
        if not key:
            return
        self._old.setdefault(key, self._records.pop(key, None))
        self._changed_shards.add(_shard(key))
        crashed = any(finding.code == RuleCrashed.code for finding in result.findings)
        self._records[key] = [
            self._stamps.get(key), "" if crashed else result.digest, self._today,
            [[name, _beside(path, name)] for name in result.attached], result.file,
            [_row(finding) for finding in result.findings], _facts_row(result.facts),
            [[ignore.index, ignore.rule] for ignore in result.ignores], result.readable,
        ]  # fmt: skip
        if crashed or not result.digest:
            self._records[key][_STAMP] = None

    def facts(self, path: Path) -> Facts | None:
        """The facts kept for ``path``."""
        record = self._records.get(self._key(path))
        return _facts(record[_FACTS]) if record else None

    def changed(self, everything: Iterable[Path]) -> list[Facts]:
        """The facts, as they were and as they are, of all entries that differ from the last run."""
        here = {self._key(path) for path in everything}
        for key in [key for key in self._records if key not in here]:
            self._old.setdefault(key, self._records.pop(key))
            self._changed_shards.add(_shard(key))
        rows = []
        for key, old in self._old.items():
            before, after = old[_FACTS] if old else None, (self._records.get(key) or [None] * 9)[_FACTS]
            same_place = old is not None and key in self._records and old[_DIGEST] == self._records[key][_DIGEST]
            if not same_place:
                rows += [before, after]
        return [facts for row in rows if (facts := _facts(row))]

    def together(self) -> Together | None:
        """What the collection rules found last time, if that was of exactly the entries kept; else None."""
        try:
            kept = json.loads((self._folder / "together.json").read_bytes())
            if kept["surroundings"] != self._surroundings or kept["of"] != self._of:
                return None
            return {
                code: {key: tuple(_finding(row) for row in rows) for key, rows in groups}
                for code, groups in kept["found"].items()
            }
        except (OSError, ValueError, LookupError, TypeError):
            return None

    def put_together(self, found: Together) -> None:
        """Keep what the collection rules found in all entries as they are now."""
        self._together = found

    def save(self) -> None:
        """Write what has changed. Not being able to is no failure: the next run takes longer."""
        with contextlib.suppress(OSError):
            for number in sorted(self._changed_shards):
                records = {key: record for key, record in self._records.items() if _shard(key) == number}
                self._write(f"files-{number}.json", {"surroundings": self._surroundings, "records": records})
            if self._together is not None and not _has_crash(self._together):
                rows = {
                    code: [[key, [_row(finding) for finding in findings]] for key, findings in groups.items()]
                    for code, groups in self._together.items()
                }
                of = self._state()
                self._write("together.json", {"surroundings": self._surroundings, "of": of, "found": rows})

    def _write(self, name: str, content: dict[str, Any]) -> None:
        self._folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        handle, temporary = tempfile.mkstemp(dir=self._folder, prefix=name, suffix=".new")
        try:
            with os.fdopen(handle, "w", encoding="ascii") as file:
                file.write(json.dumps(content, separators=(",", ":")))
            Path(temporary).replace(self._folder / name)
        except BaseException:
            Path(temporary).unlink(missing_ok=True)
            raise

    def _key(self, path: Path) -> str:
        """The path from the root; empty for a file outside, which is not kept."""
        text = os.fspath(path)
        return text[len(self._root) :].replace(os.sep, "/") if text.startswith(self._root) else ""

    def _state(self) -> str:
        """What all kept files are, in a word."""
        digest = hashlib.sha256()
        for key in sorted(self._records):
            digest.update(f"{key}\0{self._records[key][_DIGEST]}\n".encode("utf-8", "surrogatepass"))
        return digest.hexdigest()


def surroundings(base: Base) -> str:
    """A digest of everything that lint's findings depend on besides the entries."""
    digest = hashlib.sha256()
    for name in ("benchlore", "pydantic", "pyyaml"):
        with contextlib.suppress(PackageNotFoundError):
            digest.update(f"{name} {version(name)}\n".encode())
    digest.update(f"{sys.version} {_FORM}\n".encode())
    package = Path(__file__).parents[1]
    for room in ("answer", "check", "quantity", "read", "terms"):
        _add(digest, package / room, (".py", ".json", ".yaml"))
    _add(digest, base.vocabulary_folder, (".yaml",))
    digest.update((base.root / SHOP_FILE).read_bytes())
    return digest.hexdigest()


def _add(digest: Any, folder: Path, suffixes: tuple[str, ...]) -> None:
    for path in sorted(_files(os.fspath(folder))):
        if path.endswith(suffixes):
            with open(path, "rb") as file:  # noqa: PTH123 - hundreds of small files at every start
                digest.update(os.fsencode(path) + b"\0" + file.read() + b"\0")


def _files(folder: str) -> Iterator[str]:
    with os.scandir(folder) as listing:
        for item in listing:
            if item.is_dir(follow_symlinks=False):
                yield from _files(item.path)
            else:
                yield item.path


def _shard(key: str) -> int:
    return zlib.crc32(key.encode("utf-8", "surrogatepass")) % _SHARDS


def _beside(entry: Path, name: str) -> list[int] | None:
    """What changes when the file ``name`` beside the entry does; None when it is not there."""
    try:
        status = (entry.parent / name).lstat()
    except (OSError, ValueError):
        return None
    return [status.st_mode, status.st_size, status.st_mtime_ns, status.st_ctime_ns]


def _has_crash(found: Together) -> bool:
    codes = {finding.code for groups in found.values() for findings in groups.values() for finding in findings}
    return RuleCrashed.code in codes


def _row(finding: Finding) -> list[Any]:
    return [getattr(finding, name) for name in Finding.__slots__]


def _finding(row: list[Any]) -> Finding:
    values = list(row)
    values[_PATH] = tuple(values[_PATH])
    return Finding(*values)


def _facts_row(facts: Facts | None) -> list[Any] | None:
    return [getattr(facts, name) for name in Facts.__slots__] if facts else None


def _facts(row: list[Any] | None) -> Facts | None:
    if row is None:
        return None
    file, slug, date, kind, names, formerly, follows, visits, words, sketch = row
    return Facts(
        file, slug, date, kind, tuple([Name(*name) for name in names]), tuple(formerly), follows,
        tuple([(index, slug) for index, slug in visits]), words, tuple(sketch),
    )  # fmt: skip
