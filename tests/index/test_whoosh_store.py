"""The index on disk: exactly as a fresh one whatever happened before, and rebuilt or left alone when in doubt."""

from __future__ import annotations

import json
import os
import random
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

import benchlore
from benchlore.index import search as search_module
from benchlore.index.documents import Document, document
from benchlore.index.lexicon import VocabularyLexicon
from benchlore.index.open_index import open_store
from benchlore.index.search import Searcher, search
from benchlore.index.store import MemoryStore, StoreLookup
from benchlore.index.whoosh_store import StoreUnavailableError, WhooshCache, WhooshStore
from benchlore.read.base import Base, Record
from tests.index.made_up import made_up, record, vocabulary

QUERIES = (
    "relay chatters", "no power", "PCB-12", "BW-33", "irf8", "4.7 kΩ", "seal leak", '"loose lug"', "relya", "fan",
    "class:dehumidifier", "outcome:not-repaired screw", "fuse not blown", "",
)  # fmt: skip


def make(records: Sequence[Record]) -> list[Document]:
    return [document(record, vocabulary()) for record in records]


@pytest.fixture
def cache(tmp_path: Path) -> WhooshCache:
    return WhooshCache(tmp_path / "base", "fingerprint", tmp_path / "cache")


def opened(cache: WhooshCache, signature: str, records: Sequence[Record]) -> WhooshStore:
    return cache.open(signature, lambda: records, make)


def must_not_read() -> Sequence[Record]:
    raise AssertionError("the entries were read again")


def answers(store: WhooshStore | MemoryStore) -> list[object]:
    searcher = Searcher(store, VocabularyLexicon(vocabulary()))
    found = [searcher.search(query, limit=None) for query in QUERIES]
    store.close()
    return found


def test_after_twenty_edits_and_five_deletions_it_is_as_a_fresh_one(cache: WhooshCache, tmp_path: Path) -> None:
    records = made_up(120)
    opened(cache, "before", records).close()
    chance = random.Random(3)
    others = made_up(30, seed=2)
    left = chance.sample(records, len(records) - 5)
    edited = [Record(old.slug, old.rel, new.digest, new.entry) for old, new in zip(left, others[:20], strict=False)]
    now = sorted([*edited, *left[20:], record("brand-new", title="Seal leaks")], key=lambda r: r.slug)
    changed = answers(opened(cache, "after", now))
    fresh = answers(opened(WhooshCache(tmp_path / "other", "fingerprint", tmp_path / "cache"), "after", now))
    assert changed == fresh
    assert changed == answers(MemoryStore(make(now)))


def test_what_changed_is_all_that_is_read_anew(cache: WhooshCache) -> None:
    records = made_up(20)
    opened(cache, "1", records).close()
    made: list[str] = []

    def counted(entries: Sequence[Record]) -> list[Document]:
        made.extend(entry.slug for entry in entries)
        return make(entries)

    new = record(records[0].slug, title="Changed")
    cache.open("2", lambda: [new, *records[1:]], counted).close()
    assert made == [records[0].slug]


def test_nothing_is_read_when_no_file_changed(cache: WhooshCache) -> None:
    opened(cache, "1", made_up(5)).close()
    cache.open("1", must_not_read, make).close()


def test_another_fingerprint_builds_anew(cache: WhooshCache, tmp_path: Path) -> None:
    opened(cache, "1", made_up(5)).close()
    other = WhooshCache(tmp_path / "base", "another", tmp_path / "cache")
    with pytest.raises(AssertionError, match="read again"):
        other.open("1", must_not_read, make)


@pytest.mark.parametrize("damage", ["state", "index", "generation", "half a state", "no segments"])
def test_a_damaged_index_is_built_anew(cache: WhooshCache, tmp_path: Path, damage: str) -> None:
    records = made_up(5)
    opened(cache, "1", records).close()
    (state,) = (tmp_path / "cache").rglob("state.json")
    (folder,) = (path for path in state.parent.iterdir() if path.is_dir())
    if damage == "state":
        state.write_text("{}")
    elif damage == "half a state":
        state.write_bytes(state.read_bytes()[:-100])
    elif damage == "generation":
        state.write_text(json.dumps({**json.loads(state.read_text()), "generation": 77}))
    elif damage == "index":
        shutil.rmtree(folder)
    else:
        for path in folder.glob("*.seg"):
            path.write_bytes(b"")
    assert answers(opened(cache, "1", records)) == answers(MemoryStore(make(records)))
    assert len([path for path in state.parent.iterdir() if path.is_dir()]) == 1, "the old index is removed"


def test_a_crash_between_index_and_state_is_noticed(cache: WhooshCache, monkeypatch: pytest.MonkeyPatch) -> None:
    records = made_up(12)
    opened(cache, "1", records).close()
    with monkeypatch.context() as broken:
        broken.setattr(WhooshCache, "_write_state", lambda *_: (_ for _ in ()).throw(KeyboardInterrupt))
        with pytest.raises(KeyboardInterrupt):
            opened(cache, "2", records[1:])
    assert answers(opened(cache, "2", records[1:])) == answers(MemoryStore(make(records[1:])))


def test_a_cache_inside_the_base_is_not_used(tmp_path: Path) -> None:
    with pytest.raises(StoreUnavailableError, match="inside"):
        WhooshCache(tmp_path, "fingerprint", tmp_path / "cache")


@pytest.mark.skipif(os.name == "nt", reason="permissions as on Unix")
def test_a_folder_that_others_can_write_to_is_not_used(cache: WhooshCache, tmp_path: Path) -> None:
    cache._folder.chmod(0o777)
    with pytest.raises(StoreUnavailableError, match="alone"):
        WhooshCache(tmp_path / "base", "fingerprint", tmp_path / "cache")


def test_the_folder_is_made_for_us_alone(cache: WhooshCache) -> None:
    if os.name != "nt":
        assert cache._folder.stat().st_mode & 0o077 == 0


HOLD = """
import sys, time
from whoosh.util.filelock import FileLock
lock = FileLock(sys.argv[1])
assert lock.acquire(blocking=False)
print("held", flush=True)
sys.stdin.readline()
"""


@pytest.fixture
def held_by_another_process(cache: WhooshCache) -> Iterator[None]:
    other = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(cache._folder / "lock")], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert other.stdin
    assert other.stdout
    assert other.stdout.readline() == b"held\n"
    yield
    other.communicate(b"\n")


def test_while_another_process_writes_the_store_is_not_to_be_had(
    cache: WhooshCache, held_by_another_process: None
) -> None:
    with pytest.raises(StoreUnavailableError, match="another process"):
        opened(cache, "1", made_up(3))


@pytest.fixture
def base(tmp_path: Path) -> Base:
    shutil.copytree(Path(__file__).parents[1] / "sample_base", tmp_path / "shop")
    return Base(tmp_path / "shop")


def test_a_base_is_answered_from_memory_when_the_store_is_not_to_be_had(
    base: Base, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stored = open_store(base, tmp_path / "cache")
    assert isinstance(stored, WhooshStore)
    unavailable = open_store(base, base.root / "cache")
    assert isinstance(unavailable, MemoryStore)
    ours = Searcher(stored, VocabularyLexicon(base.vocabulary))
    theirs = Searcher(unavailable, VocabularyLexicon(base.vocabulary))
    assert [ours.search(q) for q in QUERIES] == [theirs.search(q) for q in QUERIES]


def test_a_changed_file_is_found_at_once(base: Base, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    assert search(base, "wobblegasket").total == 0
    path = base.root / "entries" / "dehumidifier" / "tw-12-display-dark.yaml"
    path.write_text(path.read_text(encoding="utf-8") + "  Also a wobblegasket.\n", encoding="utf-8")
    assert [hit.slug for hit in search(base, "wobblegasket").hits] == ["tw-12-display-dark"]
    path.unlink()
    assert search(base, "wobblegasket").total == 0


def test_terms_of_deleted_entries_are_gone_from_starts_and_spellings(cache: WhooshCache) -> None:
    gone = record("gone", title="Wobblegasket XQ9931")
    rest = made_up(8)
    opened(cache, "1", [gone, *rest]).close()
    store = opened(cache, "2", rest)
    lookup = StoreLookup(store, VocabularyLexicon(vocabulary()))
    assert lookup.starts("mark:xq99", 5) == []
    assert not lookup.has("wobblegasket")
    assert lookup.count("wobblegasket") == -1
    store.close()


def test_whoosh_is_imported_here_alone() -> None:
    package = Path(search_module.__file__).parents[1]
    users = [p.name for p in package.rglob("*.py") if "import whoosh" in (t := p.read_text()) or "from whoosh" in t]
    assert users == ["whoosh_store.py"]
    assert benchlore
