"""A folder served on this machine as a web host would: compressed by gzip at level 6, and every byte of it counted."""

from __future__ import annotations

import gzip
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import unquote, urlsplit

TYPES = {".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".json": "application/json"}


class Counted:
    """What was asked for since the last ``clear()``: path and compressed bytes."""

    def __init__(self, address: str) -> None:
        self.address = address
        self.asked: list[tuple[str, int]] = []

    def clear(self) -> None:
        self.asked.clear()

    def bytes(self, *starts: str) -> int:
        """Bytes of what was asked for below these paths."""
        return sum(size for path, size in self.asked if path.startswith(starts))


@contextmanager
def served(folder: Path) -> Iterator[Counted]:
    """Serve ``folder`` until the block ends."""
    kept: dict[str, bytes] = {}

    class Handler(http.server.BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"
        wbufsize = -1  # headers and body go out together
        disable_nagle_algorithm = True

        def log_message(self, *args: object) -> None:
            pass

        def do_GET(self) -> None:
            path = unquote(urlsplit(self.path).path)
            file = folder / path.lstrip("/")
            if path not in kept:
                if not file.is_file():
                    self.send_error(404)
                    return
                kept[path] = gzip.compress(file.read_bytes(), 6, mtime=0)
            counted.asked.append((path, len(kept[path])))
            self.send_response(200)
            self.send_header("Content-Type", TYPES.get(file.suffix, "application/octet-stream"))
            self.send_header("Content-Encoding", "gzip")
            self.send_header("Content-Length", str(len(kept[path])))
            self.end_headers()
            self.wfile.write(kept[path])
            self.wfile.flush()

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        counted = Counted(f"http://127.0.0.1:{server.server_port}/")
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield counted
        server.shutdown()
