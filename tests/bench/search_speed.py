"""Prints how long building, changing and asking the index take: ``python tests/bench/search_speed.py [N]``.

Queries are timed within one process (median and 95th percentile), with facets, over made-up entries.
"""

from __future__ import annotations

import gzip
import random
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from benchlore.index.browser_parts import browser_parts
from benchlore.index.documents import document
from benchlore.index.search import Searcher
from benchlore.index.store import MemoryStore
from benchlore.index.whoosh_store import WhooshCache
from tests.index.made_up import made_up, record, vocabulary

QUERIES = (
    "relay chatters", "fan runs no cooling", "pcb 12", "BW-33 no power", "4k7", "irf8", "seal leak water pump",
    '"loose screw"', "hums class:dehumidifier", "fuse not blown", "burnt smell motor slow squeal", "relya chater",
    "it made a noise after the water got in and then the lamp went dim and it stopped",
)  # fmt: skip


def main(count: int) -> None:
    """Build, reopen, change, ask, and make the browser's parts."""

    def timed(name: str, start: float) -> None:
        print(f"{name:52} {(time.perf_counter() - start) * 1000:10.1f} ms")

    records = made_up(count)
    terms = vocabulary()
    print(f"{count} made-up entries")
    start = time.perf_counter()
    documents = [document(r, terms) for r in records]
    timed("terms of all entries", start)
    start = time.perf_counter()
    memory = MemoryStore(documents)
    timed("index in memory, from these", start)
    with tempfile.TemporaryDirectory() as folder:
        cache = WhooshCache(Path("made-up"), "bench", Path(folder))
        start = time.perf_counter()
        cache.open("1", lambda: records, lambda r: document(r, terms)).close()
        timed("index on disk, built anew", start)
        changed = [record(records[5].slug, title="Pump leaks at the seal"), *records[6:]]
        start = time.perf_counter()
        cache.open("2", lambda: changed, lambda r: document(r, terms)).close()
        timed("index on disk, five gone and one changed", start)
        start = time.perf_counter()
        store = cache.open("2", list, lambda r: document(r, terms))
        timed("index on disk, opened as it is", start)
        size = sum(path.stat().st_size for path in Path(folder).rglob("*") if path.is_file())
        print(f"{'size on disk':52} {size / 1e6:10.1f} MB")
        ask("asked on disk", Searcher(store, terms), QUERIES)
        store.close()
    ask("asked in memory", Searcher(memory, terms), QUERIES)
    start = time.perf_counter()
    parts = browser_parts(records, terms)
    timed("parts for the browser", start)
    sizes = {name: len(gzip.compress(text.encode())) for name, text in parts.items()}
    total, compressed = sum(map(len, parts.values())), sum(sizes.values())
    print(f"{len(parts)} parts, {total / 1e6:.2f} MB, {compressed / 1e6:.2f} MB compressed")
    for kind in ("search", "choices", "terms", "lengths", "facets", "cards", "spelling", "phrases"):
        some = [size for name, size in sizes.items() if name.startswith(f"data/{kind}")]
        largest, all_ = max(some) / 1000, sum(some) / 1000
        print(f"  {kind:10} {len(some):5} parts, {largest:7.1f} kB the largest, {all_:9.1f} kB in all, compressed")


def ask(name: str, searcher: Searcher, queries: tuple[str, ...]) -> None:
    """Each query five times, in mixed order; the first time warms nothing that a second query would not find cold."""
    mixed = list(queries) * 5
    random.Random(1).shuffle(mixed)
    taken = []
    for query in mixed:
        start = time.perf_counter()
        searcher.search(query)
        taken.append((time.perf_counter() - start) * 1000)
    taken.sort()
    print(f"{name + ', median / 95 %':52} {statistics.median(taken):10.1f} / {taken[int(len(taken) * 0.95)]:.1f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
