"""Lets MkDocs build the hand-written pages with our theme; the only place that knows MkDocs."""

from __future__ import annotations

import logging
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException, PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import Files

from benchlore.errors import BenchloreError
from benchlore.publish.page import Page
from benchlore.publish.render import Frame, environment
from benchlore.publish.urls import CAUTIONS, to_root

Titles = tuple[tuple[str, str], ...]
"""Title and address of each hand-written page, in the order of their file names."""


@dataclass(frozen=True, slots=True)
class HandWritten:
    """The hand-written part of the site: files by address, titles for the footer, and what MkDocs warned of."""

    files: Mapping[str, bytes]
    titles: Titles
    warnings: tuple[str, ...]


class BenchlorePlugin(BasePlugin):  # type: ignore[misc]
    """Replaces MkDocs' template environment by ours, gives our layout what it needs, and keeps the finished pages."""

    def __init__(self) -> None:
        self.make_frame: Callable[[Titles], Frame] | None = None
        """Makes the frame of all pages once the hand-written ones are known."""
        self.data: Mapping[str, object] = {}
        """What the templates of hand-written pages may use besides."""
        self.files: dict[str, bytes] = {}
        self.titles: Titles = ()

    def on_config(self, config: Any) -> Any:
        """Flat files, and none of the templates that MkDocs adds to every theme."""
        if self.make_frame is None:
            raise PluginError("hand-written pages are built by: benchlore publish")
        config.theme.static_templates = set()
        config.use_directory_urls = False
        # MkDocs knows nothing of the generated pages; links are checked against the whole site once it is made
        config.validation.links.not_found = config.validation.links.unrecognized_links = logging.DEBUG
        return config

    def on_files(self, files: Files, *, config: Any) -> Files:
        """The pages and their pictures; our writer copies the theme's files itself."""
        pages = Path(config.docs_dir)
        return Files([f for f in files if f.abs_src_path and Path(f.abs_src_path).is_relative_to(pages)])

    def on_page_markdown(self, markdown: str, *, page: Any, config: Any, files: Files) -> str:
        """The cautions page always has the template that lists every hazard, since entries link into it."""
        if page.file.dest_uri == CAUTIONS:
            page.meta["template"] = "cautions.html"
        return markdown

    def on_env(self, env: Environment, *, config: Any, files: Files) -> Environment:
        """Our environment in place of MkDocs' own; by now all pages are read."""
        self.titles = tuple((str(f.page.title), f.url) for f in files.documentation_pages() if f.page is not None)
        self.files = {f.dest_uri: f.content_bytes for f in files if not f.is_documentation_page()}
        return environment()

    def on_page_context(self, context: Any, *, page: Any, config: Any, nav: Any) -> Any:
        """What our layout needs."""
        assert self.make_frame is not None
        head = Page(
            url=page.url,
            title=str(page.title),
            template="main.html",
            data={},
            description=str(page.meta.get("description", "")),
            section=page.url,
        )
        context.update(self.data, head=head, frame=self.make_frame(self.titles), root=to_root(page.url))
        return context

    def on_post_page(self, output: str, *, page: Any, config: Any) -> str:
        """Keep the finished page for the writer."""
        self.files[page.file.dest_uri] = (output.rstrip() + "\n").encode()
        return output


def build_hand_written(
    settings: Path, pages: Path | None, make_frame: Callable[[Titles], Frame], data: Mapping[str, object]
) -> HandWritten:
    """Build the pages in the folder ``pages`` (that which ``settings`` names when None) in a temporary folder.

    ``settings`` is a ``mkdocs.yml``. What MkDocs would warn of is handed back, not printed.
    Raises :class:`BenchloreError` with MkDocs' own words where it refuses the settings or a page.
    """
    with tempfile.TemporaryDirectory(prefix="benchlore-") as staging, _heard() as warnings:
        try:
            own_pages = {"docs_dir": str(pages)} if pages else {}
            config = load_config(str(settings), site_dir=str(Path(staging) / "site"), **own_pages)
            plugin = config.plugins.get("benchlore")
            if not isinstance(plugin, BenchlorePlugin):
                raise BenchloreError(
                    f"{settings} does not use the plugin that builds hand-written pages",
                    hint="Put this line into it:  plugins: [benchlore]",
                )
            plugin.make_frame = make_frame
            plugin.data = data
            build(config)
        except (MkDocsException, SystemExit) as error:
            told = "; ".join([*warnings, str(error)])
            raise BenchloreError(
                f"the hand-written pages could not be built: {told}", hint=f"See {settings}"
            ) from error
    return HandWritten(plugin.files, plugin.titles, tuple(warnings))


class _Listener(logging.Handler):
    """Collects what MkDocs logs as warnings or errors."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.heard: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep the message."""
        self.heard.append(record.getMessage())


@contextmanager
def _heard() -> Iterator[list[str]]:
    logger, listener = logging.getLogger("mkdocs"), _Listener()
    before = logger.propagate
    logger.addHandler(listener)
    logger.propagate = False
    try:
        yield listener.heard
    finally:
        logger.removeHandler(listener)
        logger.propagate = before
