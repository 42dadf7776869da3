"""Prints entries per second composed, made plain and fully read: ``python tests/bench/read_speed.py [N]``."""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from benchlore.read.base import Base
from benchlore.read.entry import FaultEntry
from benchlore.read.parse import parse_entry
from benchlore.read.yaml_nodes import COMPOSERS, LIMITS, read_yaml

REPOSITORY = Path(__file__).parents[2]


def rate(name: str, work: Callable[[], int]) -> None:
    """The best of three runs of ``work``, which returns how many entries it went through."""
    best = 0.0
    for _ in range(3):
        gc.collect()
        start = time.perf_counter()
        done = work()
        best = max(best, done / (time.perf_counter() - start))
    print(f"{name:44} {best:9,.0f} entries/s")


def main(count: int) -> None:
    """Copies of the example entry, each with a title and slug of its own."""
    example = (REPOSITORY / "entries" / "dehumidifier" / "bw-12-relay-chatters.yaml").read_text(encoding="utf-8")
    texts = [example.replace("title: Compressor", f"title: Number {n} compressor") for n in range(count)]
    print(f"{count} entries of {len(example.encode()) / 1000:.1f} kB")
    plain = [read_yaml(text).data for text in texts]

    def composed() -> int:
        for text in texts:
            COMPOSERS["fast"](text, LIMITS).get_single_node()
        return count

    rate("compose", composed)
    rate("compose + checks + plain values", lambda: len([None for text in texts if read_yaml(text).data]))
    rate("model from plain values", lambda: len([None for data in plain if FaultEntry.model_validate(data)]))
    rate("full parse of a text", lambda: len([None for text in texts if parse_entry(text).model]))
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        (root / "site_config").mkdir()
        (root / "site_config" / "shop.yaml").write_text("name: Bench\n", encoding="utf-8")
        (root / "entries" / "dehumidifier").mkdir(parents=True)
        for number, text in enumerate(texts):
            (root / "entries" / "dehumidifier" / f"bw-{number}.yaml").write_text(text, encoding="utf-8")
        rate("Base.records() from disk, models kept", lambda: len(Base(root).records()))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
