"""Reports of findings, one file per output format; its module is imported when it is asked for."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchlore.check.runner import Report


def render(form: str, report: Report) -> str:
    """``report`` in the format ``form``, such as ``sarif`` or ``code-quality``, without a newline at its end."""
    module = importlib.import_module(f"benchlore.check.reports.{form.replace('-', '_')}")
    written: str = module.render(report)
    return written
