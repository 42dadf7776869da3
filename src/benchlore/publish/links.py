"""Finds links of hand-written pages that lead nowhere; the generated pages are tested to have none."""

from __future__ import annotations

import posixpath
from collections.abc import Collection, Iterator, Mapping
from html.parser import HTMLParser
from urllib.parse import unquote, urlsplit


def dead_links(pages: Mapping[str, bytes], known: Collection[str]) -> list[str]:
    """One line for each link in ``pages`` (HTML by address) to a file of the site that is not in ``known``."""
    return [
        f"{url} links to {target}, which is not there"
        for url, content in sorted(pages.items())
        if url.endswith(".html")
        for target in _targets(content.decode())
        if not _leads_somewhere(url, target, known)
    ]


def _leads_somewhere(url: str, target: str, known: Collection[str]) -> bool:
    parts = urlsplit(target)
    if parts.scheme or parts.netloc or not parts.path:
        return True
    return posixpath.normpath(posixpath.join(posixpath.dirname(url), unquote(parts.path))) in known


def _targets(html: str) -> Iterator[str]:
    reader = _Reader()
    reader.feed(html)
    reader.close()
    yield from dict.fromkeys(reader.targets)


class _Reader(HTMLParser):
    """Collects what a page links to or shows."""

    def __init__(self) -> None:
        super().__init__()
        self.targets: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the address of a link or a picture."""
        wanted = {"a": "href", "img": "src"}.get(tag)
        self.targets += [value for name, value in attrs if name == wanted and value]
