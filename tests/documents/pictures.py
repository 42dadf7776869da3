"""Takes the README's pictures from the demo site: ``python -m tests.documents.pictures``."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from benchlore import data
from benchlore.publish.writer import publish
from benchlore.read.base import Base
from tests.acceptance.command import REPOSITORY
from tests.browser.chromium import ARGUMENTS, MISSING, find_browser

PICTURES = {"entry.png": ("e/bw-12-relay-chatters.html", 1280, 1180)}


def main() -> int:
    """Publish the demo, open the pages, and keep what is seen."""
    executable = find_browser()
    if executable is None:
        print(MISSING, file=sys.stderr)
        return 2
    folder = REPOSITORY / ".pictures"
    folder.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as temporary, sync_playwright() as playwright:
        site = Path(temporary) / "site"
        publish(Base(data.folder("entries").parent), site)
        for name, (address, width, height) in PICTURES.items():
            context = playwright.chromium.launch_persistent_context(
                str(Path(temporary) / f"profile-{name}"),
                executable_path=str(executable),
                headless=True,
                args=ARGUMENTS,
                viewport={"width": width, "height": height},
            )
            page = context.new_page()
            page.goto((site / address).as_uri())
            page.screenshot(path=folder / name)
            context.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
