"""Prints publishing time against the number of entries, and whether one entry's page depends on it.

``python tests/bench/publish_speed.py [N]``: bases of N/4, N/2 and N made-up entries (default 2000) beside a few of the
demo, each published into an empty folder. Linear work shows as a steady figure per entry.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

import yaml

from benchlore.publish.writer import publish
from benchlore.read.base import Base
from tests.acceptance.command import REPOSITORY
from tests.index.made_up import made_up

WATCHED = "fc-12-no-lamp"


def _base(folder: Path, count: int) -> Base:
    shutil.copytree(REPOSITORY / "site_config", folder / "site_config")
    shutil.copytree(REPOSITORY / "entries" / "cordless-tool-charger", folder / "entries" / "cordless-tool-charger")
    for record in made_up(count):
        path = folder / "entries" / record.entry.equipment.class_ / f"{record.slug}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        fields = record.entry.model_dump(mode="json", by_alias=True, exclude_none=True, exclude_defaults=True)
        path.write_text(yaml.safe_dump(fields, sort_keys=False, allow_unicode=True), encoding="utf-8")
    return Base(folder)


def main(most: int) -> None:
    """Publish three sizes and compare."""
    pages = []
    for count in (most // 4, most // 2, most):
        with tempfile.TemporaryDirectory() as folder:
            base = _base(Path(folder) / "base", count)
            out = Path(folder) / "site"
            start = time.perf_counter()
            result = publish(base, out)
            seconds = time.perf_counter() - start
            pages.append((out / "e" / f"{WATCHED}.html").read_bytes())
            start = time.perf_counter()
            again = publish(base, out)
            print(
                f"{result.entries:6} entries {len(result.pages):6} pages {seconds:7.1f} s"
                f" {seconds / result.entries * 1000:6.1f} ms an entry;"
                f" again {time.perf_counter() - start:6.1f} s, {len(again.written)} files written"
            )
    print("one entry's page is the same bytes at every size:", len(set(pages)) == 1)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
