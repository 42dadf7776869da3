"""Where the browser is, how it is started, and what keeps it off the network."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # Names other than the loopback ones resolve to nothing, whatever asks (web sockets and workers included).
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE localhost , EXCLUDE 127.0.0.1",
]
OUTSIDE = re.compile(r"^(?!file:|data:|blob:|about:|https?://(127\.0\.0\.1|localhost|\[::1\])(:\d+)?(/|$))")
"""Matches every address that is neither a local file nor on this machine's loopback."""
MISSING = "no Chromium found: set BENCHLORE_BROWSER to its path"
"""The reason given for a skip; the last line of the test run is built from it."""


def find_browser() -> Path | None:
    """The Chromium to drive: BENCHLORE_BROWSER, else the system's; None when there is none."""
    named = os.environ.get("BENCHLORE_BROWSER")
    if named:
        return Path(named) if Path(named).is_file() else None
    for name in ("chromium", "chromium-browser", "google-chrome"):
        found = shutil.which(name)
        if found:
            return Path(found)
    return None


def browser_required() -> bool:
    """Whether an absent browser is a failure (as in continuous integration) rather than a skip."""
    return os.environ.get("BENCHLORE_REQUIRE_BROWSER") == "1"
