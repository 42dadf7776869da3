"""Serves the site on this machine alone, makes it anew when something changes, and tells open pages to load again.

Pages get one external script more than published ones; it asks this server for the site's state and reloads when that
changes. Nothing is written to disk.
"""

from __future__ import annotations

import contextlib
import json
import mimetypes
import posixpath
import threading
from collections.abc import Callable, Iterator, Mapping
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

from benchlore.errors import BenchloreError
from benchlore.publish.urls import HOME, NOT_FOUND, to_root
from benchlore.publish.writer import make_site
from benchlore.read.base import Base

HOST = "127.0.0.1"
POLL_SECONDS = 1.0
RELOAD_SCRIPT = "preview/reload.js"
STATE = "preview/state.json"
_WATCHED = ("entries", "site_config", "schema")
_TYPES = {".js": "text/javascript", ".html": "text/html", ".css": "text/css", ".svg": "image/svg+xml"}
_SCRIPT = b"""// Reloads the page when the preview has made the site anew.
(function () {
  "use strict";
  const address = new URL("state.json", document.currentScript.src);
  let seen = null;
  setInterval(async () => {
    try {
      const { state } = await (await fetch(address, { cache: "no-store" })).json();
      if (seen !== null && state !== seen) location.reload();
      seen = state;
    } catch {
      // The preview has been stopped.
    }
  }, 1000);
})();
"""


class Preview:
    """The site of ``base`` in memory, and its server. ``tell`` gets a line for people when something happens."""

    def __init__(self, base: Base, *, port: int, tell: Callable[[str], None]) -> None:
        """Make the site and take the port (0: any free one); raises :class:`BenchloreError` when it is taken."""
        self._root = base.root
        self._tell = tell
        self._files: Mapping[str, bytes] = make_site(base, served_at="/").files
        self._state = 0
        self._stop = threading.Event()
        self._seen = _fingerprint(self._root)
        try:
            self._server = ThreadingHTTPServer((HOST, port), self._handler())
        except OSError as error:
            raise BenchloreError(
                f"port {port} cannot be used: {error.strerror}", hint="Name another with --port, or 0 for any free one."
            ) from error

    @property
    def address(self) -> str:
        """Where the site is served."""
        return f"http://{HOST}:{self._server.server_address[1]}/"

    def serve(self, *, watch: bool) -> None:
        """Serve until :meth:`stop` or an interrupt; with ``watch``, make the site anew when a file changes."""
        watcher = threading.Thread(target=self._watch, daemon=True) if watch else None
        if watcher:
            watcher.start()
        try:
            self._server.serve_forever(poll_interval=0.2)
        finally:
            self._stop.set()
            self._server.server_close()
            if watcher:
                watcher.join(timeout=2 * POLL_SECONDS)

    def stop(self) -> None:
        """End :meth:`serve` from another thread."""
        self._stop.set()
        self._server.shutdown()

    def _watch(self) -> None:
        while not self._stop.wait(POLL_SECONDS):
            self.refresh()

    def refresh(self) -> bool:
        """Make the site anew if a watched file changed; says what is wrong and keeps the old site when it cannot."""
        now = _fingerprint(self._root)
        if now == self._seen:
            return False
        self._seen = now
        try:
            self._files = make_site(Base(self._root), served_at="/").files
        except Exception as error:  # whatever is wrong with a half-saved file must not end the preview
            self._tell(f"Not made anew: {error}")
            return False
        self._state += 1
        self._tell("Made anew")
        return True

    def answer(self, path: str) -> tuple[HTTPStatus, str, bytes]:
        """Status, content type and body for the path of a request."""
        url = posixpath.normpath(unquote(urlsplit(path).path)).lstrip("/")
        if url == RELOAD_SCRIPT:
            return HTTPStatus.OK, "text/javascript; charset=utf-8", _SCRIPT
        if url == STATE:
            return HTTPStatus.OK, "application/json", json.dumps({"state": self._state}).encode()
        url = HOME if url in {"", "."} else url
        content, status = self._files.get(url), HTTPStatus.OK
        if content is None:
            url, status = NOT_FOUND, HTTPStatus.NOT_FOUND
            content = self._files[NOT_FOUND]
        suffix = Path(url).suffix
        kind = _TYPES.get(suffix) or mimetypes.guess_type(url)[0] or "application/octet-stream"
        if suffix == ".html":
            root = "/" if status is HTTPStatus.NOT_FOUND else to_root(url)
            tag = f'<script src="{root}{RELOAD_SCRIPT}" defer></script>\n</head>'
            content = content.replace(b"</head>", tag.encode(), 1)
        if kind.startswith("text/"):
            kind += "; charset=utf-8"
        return status, kind, content

    def _handler(self) -> type[BaseHTTPRequestHandler]:
        preview = self

        class Handler(BaseHTTPRequestHandler):
            """Answers GET and HEAD from memory; says nothing on the terminal."""

            server_version = "Benchlore"
            sys_version = ""

            def do_GET(self) -> None:
                status, kind, content = preview.answer(self.path)
                self.send_response(status)
                self.send_header("Content-Type", kind)
                self.send_header("Content-Length", str(len(content)))
                self.send_header("Cache-Control", "no-store")
                self.send_header("X-Content-Type-Options", "nosniff")
                self.end_headers()
                if self.command != "HEAD":
                    with contextlib.suppress(ConnectionError):
                        self.wfile.write(content)

            do_HEAD = do_GET  # noqa: N815 - the library's name

            def log_message(self, format: str, *args: object) -> None:
                """Requests are not listed."""

        return Handler


def _fingerprint(root: Path) -> tuple[tuple[str, int, int], ...]:
    return tuple(sorted(_stamps(root)))


def _stamps(root: Path) -> Iterator[tuple[str, int, int]]:
    for folder in _WATCHED:
        for path in (root / folder).rglob("*"):
            with contextlib.suppress(OSError):
                status = path.stat()
                yield path.as_posix(), status.st_mtime_ns, status.st_size
