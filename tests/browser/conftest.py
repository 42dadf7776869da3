"""Fixtures of the browser tests: one Chromium with an empty profile and no network, and fresh pages in it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser.chromium import ARGUMENTS, MISSING, OUTSIDE, browser_required, find_browser

HERE = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator:
    """A Playwright browser context. ``refused`` on it lists the addresses outside this machine that were asked for."""
    executable = find_browser()
    if executable is None:
        if browser_required():
            pytest.fail(MISSING, pytrace=False)
        pytest.skip(MISSING)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        context = playwright.chromium.launch_persistent_context(
            str(tmp_path_factory.mktemp("profile")),
            executable_path=str(executable),
            headless=True,
            args=ARGUMENTS,
            viewport={"width": 1280, "height": 900},
        )
        context.refused = []

        def refuse(route) -> None:
            context.refused.append(route.request.url)
            route.abort()

        context.route(OUTSIDE, refuse)
        context.set_default_timeout(10_000)
        yield context
        context.close()


@pytest.fixture
def page(chromium) -> Iterator:
    """A fresh page. Afterwards it must have asked for nothing outside and have raised no script error.

    ``page.complaints`` collects script errors and console errors; a test that provokes one clears the list.
    """
    chromium.refused.clear()
    page = chromium.new_page()
    page.complaints = []
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    page.on("console", lambda message: page.complaints.append(message.text) if message.type == "error" else None)
    yield page
    complaints, refused = list(page.complaints), list(chromium.refused)
    page.close()
    assert not complaints, complaints
    assert not refused, refused


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the entries that come with Benchlore, published to a folder; tests must leave it as it is."""
    from benchlore import data
    from benchlore.publish.writer import publish
    from benchlore.read.base import Base

    out = tmp_path_factory.mktemp("demo") / "site"
    publish(Base(data.folder("entries").parent), out)
    return out
