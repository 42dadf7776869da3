"""What concerns the whole test run: a last line that says when the browser tests did not run."""

from __future__ import annotations

from collections.abc import Generator

import pytest

from tests.browser.chromium import MISSING


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_sessionfinish(session: pytest.Session) -> Generator[None]:
    """Say last, after the counts, that browser tests were skipped; a skip is easily overlooked."""
    outcome = yield
    terminal = session.config.pluginmanager.get_plugin("terminalreporter")
    if terminal is not None:
        skipped = [report for report in terminal.stats.get("skipped", []) if MISSING in str(report.longrepr)]
        if skipped:
            terminal.write_line(f"BROWSER TESTS DID NOT RUN: {len(skipped)} skipped, {MISSING}", red=True, bold=True)
    return outcome
