"""After 20 edits and 5 deletions in a base, the terminal, a fresh index and the browser still agree."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from benchlore import data
from benchlore.publish.writer import publish
from benchlore.read.base import Base
from tests.acceptance.command import run

QUERIES = {
    "relay chatters, display dim": {"bw-12-relay-chatters"},
    "BWC-02 run capacitor": {"bw-20-hums-and-clicks-off"},
    "bwc02 run capacitor": {"bw-20-hums-and-clicks-off"},
    "BWC 02 run capacitor": {"bw-20-hums-and-clicks-off"},
    "2N30": {"hg-3005-stuck-at-maximum", "hg-3003-twelve-volts-became-forty", "hg-3003-pass-transistor-again"},
    "472k": {"fc-12-no-lamp"},
    "472 kohm": {"fc-12-no-lamp"},
    "0.472 MΩ": {"fc-12-no-lamp"},
}
"""Query to the entries of which one must come first: a symptom, a marking, the start of a part number, a value."""
KEPT = set.union(*QUERIES.values())


@pytest.fixture
def base(tmp_path: Path) -> Path:
    root = tmp_path / "base"
    for name in ("entries", "site_config"):
        shutil.copytree(data.folder(name), root / name)
    return root


def _terminal(base: Path, query: str, cache: Path) -> list[tuple[str, float]]:
    ran = run("search", "--json", "--limit", "50", "--base", str(base), query, cache=cache)
    assert ran.code == 0, ran.err
    return [(hit["id"], hit["score"]) for hit in json.loads(ran.out)["hits"]]


def _browser(page: Page, query: str) -> list[tuple[str, float]]:
    found = page.evaluate(
        "async query => (await Benchlore.findEntries(query, new Map(), 50)).hits.map(h => [h.slug, h.score])", query
    )
    return [(slug, score) for slug, score in found]


def _agree(base: Path, page: Page, cache: Path, site: Path) -> None:
    publish(Base(base), site)
    page.goto((site / "search.html").as_uri())
    page.locator("#find").focus()
    expect(page.locator("#find")).to_be_focused()
    for query, first in QUERIES.items():
        terminal, browser = _terminal(base, query, cache), _browser(page, query)
        assert terminal[0][0] in first, query
        assert [slug for slug, _ in browser] == [slug for slug, _ in terminal], query
        assert [score for _, score in browser] == pytest.approx([score for _, score in terminal], abs=1e-9), query


def test_terminal_and_browser_agree_after_edits(base: Path, page: Page, tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    _agree(base, page, cache, tmp_path / "site")
    others = [path for path in sorted((base / "entries").rglob("*.yaml")) if path.stem not in KEPT]
    for number, path in enumerate(others[:20]):
        path.write_text(path.read_text().replace("title: ", f"title: Relay wiggled {number}, ", 1))
    for path in others[20:25]:
        path.unlink()
    _agree(base, page, cache, tmp_path / "site")
    for query in QUERIES:
        assert _terminal(base, query, cache) == _terminal(base, query, tmp_path / "fresh")
