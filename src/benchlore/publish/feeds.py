"""News of the site as Atom (RFC 4287) and JSON Feed 1.1, for a site whose address is known."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape, quoteattr

from benchlore.publish.page import Page

ATOM = "feed.xml"
JSON_FEED = "feed.json"
NEWEST = 30


def feed_files(shop: str, site_url: str, entry_pages: Sequence[Page]) -> Iterator[tuple[str, bytes]]:
    """Address and bytes of both feeds, of the pages updated last; ``site_url`` ends in a slash."""
    newest = sorted(entry_pages, key=lambda page: (-_day(page).toordinal(), page.url))[:NEWEST]
    yield ATOM, _atom(shop, site_url, newest).encode()
    yield JSON_FEED, _json_feed(shop, site_url, newest).encode()


def _day(page: Page) -> dt.date:
    return page.updated or dt.date.min


def _moment(date: dt.date) -> str:
    """A day as RFC 3339 wants it; entries know no hour."""
    return f"{date.isoformat()}T00:00:00Z"


def _atom(shop: str, site_url: str, pages: Sequence[Page]) -> str:
    updated = _moment(max(map(_day, pages), default=dt.date(1970, 1, 1)))
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        '<feed xmlns="http://www.w3.org/2005/Atom">',
        f"<id>{escape(site_url)}</id>",
        f"<title>{escape(shop)}</title>",
        f"<updated>{updated}</updated>",
        f"<author><name>{escape(shop)}</name></author>",
        f'<link rel="self" href={quoteattr(site_url + ATOM)}/>',
        f'<link rel="alternate" href={quoteattr(site_url)}/>',
    ]
    for page in pages:
        url = site_url + page.url
        lines += [
            "<entry>",
            f"<id>{escape(url)}</id>",
            f"<title>{escape(page.title)}</title>",
            f"<updated>{_moment(_day(page))}</updated>",
            f'<link rel="alternate" href={quoteattr(url)}/>',
            f"<summary>{escape(page.description)}</summary>",
            "</entry>",
        ]
    return "\n".join([*lines, "</feed>"]) + "\n"


def _json_feed(shop: str, site_url: str, pages: Sequence[Page]) -> str:
    feed = {
        "version": "https://jsonfeed.org/version/1.1",
        "title": shop,
        "home_page_url": site_url,
        "feed_url": site_url + JSON_FEED,
        "items": [
            {
                "id": site_url + page.url,
                "url": site_url + page.url,
                "title": page.title,
                "content_text": page.description,
                "date_modified": _moment(_day(page)),
            }
            for page in pages
        ],
    }
    return json.dumps(feed, ensure_ascii=False, indent=1) + "\n"
