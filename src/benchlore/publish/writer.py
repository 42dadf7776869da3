"""Publishes a base: renders the generated pages, has the hand-written ones built, and syncs all to the output folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import escape

from jinja2 import Environment

from benchlore import data
from benchlore.errors import BenchloreError
from benchlore.publish.assets import theme_files
from benchlore.publish.mkdocs_plugin import HandWritten, Titles, build_hand_written
from benchlore.publish.page import Page
from benchlore.publish.pages import WAYS, all_pages
from benchlore.publish.pages.cautions import hazards
from benchlore.publish.render import Frame, environment, render
from benchlore.publish.site_data import SiteData
from benchlore.publish.sync import check_ours, sync
from benchlore.publish.urls import CAUTIONS, SEARCH
from benchlore.read.base import Base

Progress = Callable[[str], None]
_EVERY = 500
"""Progress is told after so many pages."""


@dataclass(frozen=True, slots=True)
class PublishResult:
    """What :func:`publish` did: addresses of pages, of files written and removed, and how many stayed as they were."""

    out: Path
    pages: tuple[str, ...]
    written: tuple[str, ...]
    removed: tuple[str, ...]
    unchanged: int
    warnings: tuple[str, ...]


def publish(base: Base, out: Path, progress: Progress | None = None) -> PublishResult:
    """Publish ``base`` to the folder ``out``, which must be new, empty or an earlier site of ours.

    The same entries give the same bytes. Raises :class:`benchlore.publish.sync.NotOurs` for a folder of somebody
    else, :class:`BenchloreError` for hand-written pages that cannot be built.
    """
    check_ours(out)
    files, pages, warnings = site_files(base, progress)
    synced = sync(files, out)
    return PublishResult(out, pages, synced.written, synced.removed, synced.unchanged, warnings)


def site_files(base: Base, progress: Progress | None = None) -> tuple[dict[str, bytes], tuple[str, ...], tuple[str, ...]]:
    """Every file of the site by address; the addresses of its pages; warnings."""
    say = progress or (lambda text: None)
    say("Reading the entries")
    site = SiteData(base)
    pages = {page.url: page for page in all_pages(site)}
    say("Building the hand-written pages")
    hand_written = _hand_written(base, site, SEARCH in pages)
    taken = sorted(url for url in hand_written.files if url in pages and url != CAUTIONS)
    if taken:
        raise BenchloreError(
            f"the hand-written page {taken[0]} would take the place of one that Benchlore makes",
            hint="Give the file in site_config/pages/ another name.",
        )
    frame = make_frame(site, hand_written.titles, search=SEARCH in pages)
    files: dict[str, bytes] = {**theme_files(), **_render_all(environment(), frame, pages.values(), say), **hand_written.files}
    if frame.site_url:
        files["sitemap.xml"] = _sitemap(frame.site_url, pages.values(), hand_written)
    return files, tuple(sorted(url for url in files if url.endswith(".html"))), hand_written.warnings


def make_frame(site: SiteData, titles: Titles, *, search: bool) -> Frame:
    """What stands around every page of ``site``."""
    foot = [("Makers and models", "makers.html"), *titles]
    if CAUTIONS not in {url for _, url in foot}:
        foot.append(("Cautions", CAUTIONS))
    site_url = site.shop.site_url or ""
    return Frame(
        shop=site.shop.name,
        language=site.shop.language,
        site_url=f"{site_url.rstrip('/')}/" if site_url else "",
        ways=WAYS,
        foot=tuple(foot),
        closing="Local codes, the maker's documents and licensed practice come before anything on these pages.",
        search=search,
    )


def _hand_written(base: Base, site: SiteData, search: bool) -> HandWritten:
    own = base.root / "site_config" / "mkdocs.yml"
    settings = own if own.is_file() else data.folder("site_config") / "mkdocs.yml"
    return build_hand_written(
        settings, lambda titles: make_frame(site, titles, search=search), {"hazards": hazards(site)}
    )


def _render_all(env: Environment, frame: Frame, pages: Iterable[Page], say: Progress) -> Mapping[str, bytes]:
    rendered = {}
    for number, page in enumerate(pages, start=1):
        rendered[page.url] = render(env, frame, page).encode()
        if number % _EVERY == 0:
            say(f"{number} pages")
    return rendered


def _sitemap(site_url: str, pages: Iterable[Page], hand_written: HandWritten) -> bytes:
    """The sitemap by the sitemaps.org protocol 0.9; a page's date is that of its newest entry."""
    lines = ['<?xml version="1.0" encoding="UTF-8"?>', '<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">']
    dated = {page.url: page.updated for page in pages if page.listed}
    dated.update({url: None for _, url in hand_written.titles})
    for url, updated in sorted(dated.items()):
        when = f"<lastmod>{updated.isoformat()}</lastmod>" if updated else ""
        lines.append(f"<url><loc>{escape(site_url + url)}</loc>{when}</url>")
    return ("\n".join([*lines, "</urlset>"]) + "\n").encode()
