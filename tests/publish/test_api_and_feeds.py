"""The static JSON and the feeds: the same facts as the pages, in the published forms."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

from benchlore.publish.api import PER_PART, SCHEMA_VERSION
from benchlore.publish.feeds import NEWEST
from benchlore.publish.writer import PublishResult, make_site
from benchlore.read.base import Base
from tests.publish.conftest import entry

ATOM = "{http://www.w3.org/2005/Atom}"


def read(path: Path) -> dict:
    return json.loads(path.read_text(encoding="utf-8"))


def test_an_entry_as_written_with_what_was_computed(relay: PublishResult) -> None:
    made = read(relay.out / "api" / "e" / "bw-12-relay-chatters.json")
    assert made["schema_version"] == SCHEMA_VERSION
    assert made["page"] == "e/bw-12-relay-chatters.html"
    assert made["entry"]["equipment"]["class"] == "dehumidifier"
    assert made["entry"]["measurements"][1]["expected"] == "1 µF ±10 %"
    computed = made["computed"]
    assert computed["minutes"] == 60
    assert {"mains", "not-isolated", "dust"} <= set(computed["cautions"])
    assert computed["verdicts"][1] == "was too low, now within limits"
    assert computed["boards"] == ["bwc02"]
    assert computed["sisters"] == ["Brackwater BW-16", "Brackwater BW-20"]


def test_the_index_leads_to_every_entry(relay: PublishResult) -> None:
    index = read(relay.out / "api" / "index.json")
    lines = [line for part in index["parts"] for line in read(relay.out / "api" / part)["entries"]]
    assert index["entries"] == len(lines) == relay.entries
    for line in lines:
        assert (relay.out / line["page"]).is_file()
        assert read(relay.out / "api" / line["file"])["slug"] == line["slug"]
    assert PER_PART <= 1000, "a part is bounded"


def served(root: Path) -> dict[str, bytes]:
    return dict(make_site(Base(root)).files)


def test_feeds_hold_the_newest_in_the_published_forms(base_with: Callable[..., Path]) -> None:
    days = [dt.date(2026, 1, 1) + dt.timedelta(days=n) for n in range(NEWEST + 2)]
    texts = {f"e-{n:02}": entry(f"Fan & <fuse> {n}", date=day.isoformat()) for n, day in enumerate(days)}
    files = served(base_with(texts, shop="site_url: https://bench.example/r\n"))
    feed = ElementTree.fromstring(files["feed.xml"])
    # RFC 4287, 4.1.1: id, title and updated, and an author for the feed; 4.1.2: the same of each entry
    assert feed.find(f"{ATOM}id").text == "https://bench.example/r/"
    assert feed.find(f"{ATOM}author/{ATOM}name").text
    assert feed.find(f"{ATOM}updated").text == f"{days[-1]}T00:00:00Z"
    entries = feed.findall(f"{ATOM}entry")
    assert len(entries) == NEWEST
    assert entries[0].find(f"{ATOM}title").text.endswith(f"Fan & <fuse> {NEWEST + 1}")
    assert all(e.find(f"{ATOM}{name}").text for e in entries for name in ("id", "title", "updated"))
    assert entries[0].find(f"{ATOM}link").attrib["href"] == f"https://bench.example/r/e/e-{NEWEST + 1:02}.html"
    told = json.loads(files["feed.json"])
    # JSON Feed 1.1: version, title and items at the top; id and content in each item
    assert told["version"] == "https://jsonfeed.org/version/1.1"
    assert [item["id"] for item in told["items"]] == [e.find(f"{ATOM}id").text for e in entries]
    assert all(isinstance(item["id"], str) and item["content_text"] for item in told["items"])


def test_without_an_address_there_are_no_feeds(base_with: Callable[..., Path]) -> None:
    files = served(base_with({"one": entry()}))
    assert not {"feed.xml", "feed.json", "sitemap.xml"} & set(files)
    assert b"feed.xml" not in files["index.html"]
