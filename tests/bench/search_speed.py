"""Prints how long building, changing and asking the index take: ``python tests/bench/search_speed.py [N]``.

The named queries of ``search_queries.yaml``, each with facet counts, are asked of Whoosh's own search, of SQLite FTS5
and of ours, one after the other over the same made-up entries (median and 95th percentile within one process; each
query five times, in mixed order). Then whole processes, against ``python -c "import whoosh.index"``.
"""

from __future__ import annotations

import gzip
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import yaml

sys.path.insert(0, str(Path(__file__).parents[2]))

from benchlore.index.browser_parts import parts_of
from benchlore.index.document_cache import cached_documents
from benchlore.index.documents import Document, document
from benchlore.index.fingerprint import fingerprint, signature
from benchlore.index.lexicon import VocabularyLexicon
from benchlore.index.open_index import keep_lexicon
from benchlore.index.search import Searcher
from benchlore.index.whoosh_store import WhooshCache
from benchlore.read.base import Record
from tests.bench.search_others import sqlite_fts5, whoosh_own
from tests.index.made_up import made_up, record, vocabulary

HERE = Path(__file__).parent
QUERIES = [row["query"] for row in yaml.safe_load((HERE / "search_queries.yaml").read_text(encoding="utf-8"))]


def main(count: int) -> None:
    """Build, reopen, change, ask, and make the browser's parts."""

    def timed(name: str, start: float) -> None:
        print(f"{name:52} {(time.perf_counter() - start) * 1000:10.1f} ms")

    records = made_up(count)
    terms = vocabulary()
    print(f"{count} made-up entries")
    with tempfile.TemporaryDirectory() as folder:
        cache, root = Path(folder) / "cache", Path(folder) / "base"
        made: dict[str, Document] = {}

        def make(some: Sequence[Record]) -> list[Document]:
            return [made[r.digest] if r.digest in made else document(r, terms) for r in some]

        start = time.perf_counter()
        documents = cached_documents(records, lambda r: document(r, terms), cache / "documents-x.sqlite")
        timed("terms of all entries, and kept", start)
        start = time.perf_counter()
        cached_documents(records, lambda r: document(r, terms), cache / "documents-x.sqlite")
        timed("the same again, as kept", start)
        made.update((d.digest, d) for d in documents)
        lay_down(root, records)
        start = time.perf_counter()
        stored = WhooshCache(root, fingerprint(terms, None, None), cache / "benchlore")
        stored.open(signature(root), lambda: records, make).close()
        timed("index on disk, built anew from these", start)
        other = WhooshCache(Path(folder) / "other", "bench", cache)
        other.open("1", lambda: records, make).close()
        changed = [record(records[5].slug, title="Pump leaks at the seal"), *records[6:]]
        start = time.perf_counter()
        other.open("2", lambda: changed, make).close()
        timed("index on disk, five gone and one changed", start)
        keep_lexicon(root, terms, fingerprint(terms, None, None), cache / "benchlore")
        start = time.perf_counter()
        store = stored.open(signature(root), list, make)
        timed("index on disk, opened as it is", start)
        searcher = Searcher(store, VocabularyLexicon(terms))
        asked: dict[str, Callable[[str], Any]] = {
            "Whoosh's own search and grouping": whoosh_own(documents, Path(tempfile.mkdtemp(dir=folder))),
            "SQLite FTS5": sqlite_fts5(documents),
            "ours": lambda query: Searcher(store, VocabularyLexicon(terms)).search(query, limit=10),
            "ours, one searcher for all": lambda query: searcher.search(query, limit=10),
        }
        print(f"\n{'20 queries, ten hits, facet counts':52} {'median':>10} / 95 %")
        for name, ask in asked.items():
            ask_all(name, ask)
        store.close()
        processes(root, cache)
    start = time.perf_counter()
    parts = parts_of(documents, terms)
    timed("\nparts for the browser, from documents", start)
    sizes = {name: len(gzip.compress(text.encode(), 6)) for name, text in parts.items()}
    written, packed = sum(map(len, parts.values())) / 1e6, sum(sizes.values()) / 1e6
    print(f"{len(parts)} parts, {written:.2f} MB, {packed:.2f} MB compressed")
    for kind in sorted({name.removeprefix("data/").split("-")[0] for name in sizes}):
        some = [size for name, size in sizes.items() if name.startswith((f"data/{kind}-", f"data/{kind}.js"))]
        print(f"  {kind:10} {len(some):5} parts, {max(some, default=0) / 1000:7.1f} kB the largest, "
              f"{sum(some) / 1000:9.1f} kB in all, compressed")  # fmt: skip


def lay_down(root: Path, records: Sequence[Record]) -> None:
    """A base with a file for each entry: enough for the index to see that nothing changed."""
    (root / "site_config").mkdir(parents=True)
    shutil.copy(HERE.parents[1] / "site_config" / "shop.yaml", root / "site_config")
    for one in records:
        file = root / one.rel
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(one.slug, encoding="utf-8")


def ask_all(name: str, ask: Callable[[str], Any]) -> None:
    """Each query five times, in mixed order."""
    mixed = list(QUERIES) * 5
    random.Random(1).shuffle(mixed)
    taken = []
    for query in mixed:
        start = time.perf_counter()
        ask(query)
        taken.append((time.perf_counter() - start) * 1000)
    taken.sort()
    print(f"  {name:50} {statistics.median(taken):10.1f} / {taken[int(len(taken) * 0.95)]:.1f} ms")


def processes(root: Path, cache: Path) -> None:
    """Whole processes, the quickest and the median of nine."""
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache)}
    search = "from benchlore.cli import main; main()"
    commands = {
        'python -c "import whoosh.index"': ["-c", "import whoosh.index"],
        "benchlore search relay": ["-c", search, "search", "relay", "--base", str(root)],
        "benchlore search burnt smell motor slow": [
            "-c", search, "search", "burnt", "smell", "motor", "slow", "--base", str(root),
        ],
    }  # fmt: skip
    print(f"\n{'whole processes':52} {'quickest':>10} / median")
    for name, arguments in commands.items():
        taken = []
        for _ in range(9):
            start = time.perf_counter()
            subprocess.run([sys.executable, *arguments], env=environment, check=True, capture_output=True)
            taken.append((time.perf_counter() - start) * 1000)
        print(f"  {name:50} {min(taken):10.0f} / {statistics.median(taken):.0f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
