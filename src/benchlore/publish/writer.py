"""Publishes a base: renders the generated pages, has the hand-written ones built, syncs all to the output folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit
from xml.sax.saxutils import escape

from jinja2 import Environment

from benchlore import data
from benchlore.errors import BenchloreError
from benchlore.index.browser_parts import parts_of
from benchlore.index.open_index import documents_of
from benchlore.publish.api import api_files
from benchlore.publish.assets import theme_files
from benchlore.publish.feeds import feed_files
from benchlore.publish.links import dead_links
from benchlore.publish.mkdocs_plugin import HandWritten, Titles, build_hand_written
from benchlore.publish.page import Page
from benchlore.publish.pages import WAYS, all_pages
from benchlore.publish.pages.cautions import hazards
from benchlore.publish.render import Frame, environment, render
from benchlore.publish.site_data import SiteData
from benchlore.publish.sync import check_ours, sync
from benchlore.publish.urls import CAUTIONS, COMPONENTS, FIGURES, HELPERS, MAKERS, NOT_FOUND, RULES, to_root
from benchlore.read.base import Base

Progress = Callable[[str], None]
_EVERY = 500
"""Progress is told after so many pages."""


@dataclass(frozen=True, slots=True)
class PublishResult:
    """What :func:`publish` did: addresses of pages, of files written and removed, and how many stayed as they were.

    ``left_out`` counts the files among the entries that are no valid entry and so have no page.
    """

    out: Path
    entries: int
    left_out: int
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
    made = make_site(base, progress)
    synced = sync(made.files, out)
    return PublishResult(
        out, made.entries, made.left_out, made.pages, synced.written, synced.removed, synced.unchanged, made.warnings
    )


@dataclass(frozen=True, slots=True)
class MadeSite:
    """The site before it is on disk: bytes by address, the addresses of its pages, and what was met on the way."""

    files: Mapping[str, bytes]
    pages: tuple[str, ...]
    entries: int
    left_out: int
    warnings: tuple[str, ...]


def make_site(base: Base, progress: Progress | None = None, *, served_at: str | None = None) -> MadeSite:
    """Every file of the site of ``base``, in memory.

    ``served_at`` is the path of the site's root on its host, known from the shop's ``site_url`` when left out; only the
    page for lost addresses needs it, since a host shows that page at any depth.
    """
    say = progress or (lambda text: None)
    say("Reading the entries")
    site = SiteData(base)
    pages = {page.url: page for page in all_pages(site)}
    say("Building the hand-written pages")
    hand_written = _hand_written(base, site)
    taken = sorted(url for url in hand_written.files if url in pages and url != CAUTIONS)
    if taken:
        raise BenchloreError(
            f"the hand-written page {taken[0]} would take the place of one that Benchlore makes",
            hint="Give the file in site_config/pages/ another name.",
        )
    frame = make_frame(site, hand_written.titles)
    if served_at is None and frame.site_url:
        served_at = urlsplit(frame.site_url).path
    generated = _render_all(environment(), frame, pages.values(), say, {NOT_FOUND: served_at or ""})
    say("Writing the search parts")
    parts = parts_of(documents_of(base, site.records), site.vocabulary)
    data_files = {url: text.encode() for url, text in parts.items()}
    entry_pages = [page for page in pages.values() if page.template == "entry.html"]
    api = dict(api_files(site, {page.url: page.data for page in entry_pages}))
    files = {**theme_files(), **data_files, **api, **generated, **hand_written.files}
    if frame.site_url:
        files["sitemap.xml"] = _sitemap(frame.site_url, pages.values(), hand_written)
        files.update(feed_files(frame.shop, frame.site_url, entry_pages))
    return MadeSite(
        files,
        tuple(sorted(url for url in files if url.endswith(".html"))),
        len(site.records),
        len(base.entry_paths()) - len(site.records),
        (*hand_written.warnings, *dead_links(hand_written.files, files)),
    )


def make_frame(site: SiteData, titles: Titles) -> Frame:
    """What stands around every page of ``site``."""
    foot = [("Makers and models", MAKERS), ("Components", COMPONENTS)]
    foot += [("Bench helpers", HELPERS), ("Shop figures", FIGURES), *titles]
    if CAUTIONS not in {url for _, url in foot}:
        foot.append(("Cautions", CAUTIONS))
    foot.append(("Lint rules", RULES))
    site_url = site.shop.site_url or ""
    return Frame(
        shop=site.shop.name,
        language=site.shop.language,
        site_url=f"{site_url.rstrip('/')}/" if site_url else "",
        ways=WAYS,
        foot=tuple(foot),
        closing="Local codes, the maker's documents and licensed practice come before anything on these pages.",
        scripts=("header.js",),
    )


def _hand_written(base: Base, site: SiteData) -> HandWritten:
    """The base's own settings and pages, each replaced by ours where there is none."""
    own, ours = base.root / "site_config", data.folder("site_config")
    settings = own / "mkdocs.yml"
    pages = None
    if not settings.is_file():
        settings = ours / "mkdocs.yml"
        pages = own / "pages" if any((own / "pages").glob("*.md")) else ours / "pages"
    return build_hand_written(settings, pages, lambda titles: make_frame(site, titles), {"hazards": hazards(site)})


def _render_all(
    env: Environment, frame: Frame, pages: Iterable[Page], say: Progress, roots: Mapping[str, str]
) -> Mapping[str, bytes]:
    rendered = {}
    for number, page in enumerate(pages, start=1):
        root = roots.get(page.url, to_root(page.url))
        rendered[page.url] = render(env, frame, page, root).encode()
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
