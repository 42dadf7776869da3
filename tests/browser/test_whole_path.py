"""A technician's path through the site: home, search, facet, entry, board, sister; by mouse and by keyboard alone."""

from __future__ import annotations

import functools
import http.server
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

ENTRY = "Compressor relay chatters and the display dims; dropper capacitor had lost its value"


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        pass


@pytest.fixture(params=["file", "http"])
def home(request: pytest.FixtureRequest, demo_site: Path) -> Iterator[str]:
    """The address of the home page: in the folder, and served under a sub-path of a loopback server."""
    if request.param == "file":
        yield (demo_site / "index.html").as_uri()
        return
    handler = functools.partial(_Quiet, directory=str(demo_site.parent))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/{demo_site.name}/index.html"
        server.shutdown()


def tab_to(page: Page, selector: str, most: int = 120) -> None:
    """Press Tab until the element matching ``selector`` has the focus, as somebody without a mouse would."""
    for _ in range(most):
        if page.evaluate("s => !!document.activeElement && document.activeElement.matches(s)", selector):
            return
        page.keyboard.press("Tab")
    pytest.fail(f"{most} Tabs do not reach {selector}")


def test_by_mouse(page: Page, home: str) -> None:
    page.goto(home)
    box = page.get_by_role("searchbox").first
    box.click()
    box.press_sequentially("relay chatters display dims")
    box.press("Enter")
    page.wait_for_url("**/search.html#*")
    page.locator("input[name=class][value=dehumidifier]").click()
    page.get_by_role("link", name=ENTRY).click()
    page.wait_for_url("**/e/bw-12-relay-chatters.html")
    assert page.locator("h1").inner_text() == ENTRY
    page.get_by_role("link", name="BWC-02").first.click()
    page.wait_for_url("**/b/bwc02.html")
    expect(page.locator("main")).to_contain_text("BW-20")
    page.get_by_role("link", name="Fan runs, compressor hums and clicks off").first.click()
    page.wait_for_url("**/e/bw-20-hums-and-clicks-off.html")


def test_by_keyboard_alone(page: Page, home: str) -> None:
    page.goto(home)
    tab_to(page, "main input[type=search]")
    page.keyboard.type("relay chatters display dims")
    page.keyboard.press("Enter")
    page.wait_for_url("**/search.html#*")
    expect(page.locator("[data-hits] > li").first).to_be_visible()
    tab_to(page, "input[name=class][value=dehumidifier]")
    page.keyboard.press("Space")
    expect(page.locator("input[name=class][value=dehumidifier]")).to_be_checked()
    expect(page.get_by_role("link", name=ENTRY)).to_be_visible()
    tab_to(page, "a[href$='e/bw-12-relay-chatters.html']")
    page.keyboard.press("Enter")
    page.wait_for_url("**/e/bw-12-relay-chatters.html")
    tab_to(page, "a[href$='b/bwc02.html']")
    page.keyboard.press("Enter")
    page.wait_for_url("**/b/bwc02.html")
    tab_to(page, "a[href$='e/bw-20-hums-and-clicks-off.html']")
    page.keyboard.press("Enter")
    page.wait_for_url("**/e/bw-20-hums-and-clicks-off.html")


def test_the_content_security_policy_is_active(page: Page, home: str) -> None:
    """An inline script, an inline handler and an inline style are put in by hand; none of them takes effect."""
    page.goto(home)
    violations = page.evaluate(
        """() => new Promise((done) => {
            const seen = [];
            document.addEventListener("securitypolicyviolation", (event) => seen.push(event.effectiveDirective));
            const script = document.createElement("script");
            script.textContent = "window.intruder = true";
            document.body.append(script);
            const box = document.createElement("div");
            box.setAttribute("onclick", "window.intruder = true");
            box.setAttribute("style", "color: red");
            document.body.append(box);
            box.click();
            setTimeout(() => done(seen), 200);
        })"""
    )
    assert page.evaluate("window.intruder") is None
    assert {"script-src-elem", "script-src-attr", "style-src-attr"} <= set(violations)
    assert page.complaints
    page.complaints.clear()
