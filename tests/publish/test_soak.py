"""A soak after an intermittent fault is judged by what it can show."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from benchlore.publish.writer import publish
from benchlore.read.base import Base
from tests.publish.conftest import entry
from tests.publish.reading import read_page


def test_a_soak_is_judged_when_the_fault_came_and_went(base_with: Callable[..., Path]) -> None:
    steady = entry(verification="{result: holding, soak: 24 h}")
    came = entry(
        verification="{result: holding, soak: 24 h}", symptoms="[{term: fan-stopped, pattern: intermittent}]"
    )
    root = base_with({"steady": steady, "came": came})
    out = publish(Base(root), root / "site").out
    # the zero-failure demonstration: 24 h / 2.3026 = 10.4 h, by the usual table of reliability handbooks
    judged = "shows with 90 % confidence that it does not come oftener than once in 10 h"
    assert judged in read_page(out / "e" / "came.html").one("section", class_="checked").text
    assert "confidence" not in read_page(out / "e" / "steady.html").one("section", class_="checked").text
