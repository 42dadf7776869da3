"""Rules that judge by likeness or by figures: cases as data, what must be found and what must be left alone."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from tests.check.examples import lint_example

CASES = [
    pytest.param(rule, wanted == "found", fragment, id=f"{rule}-{wanted}-{number}")
    for path in sorted((Path(__file__).parent / "cases").glob("*.yaml"))
    for rule, sides in yaml.safe_load(path.read_text(encoding="utf-8")).items()
    for wanted, fragments in sides.items()
    for number, fragment in enumerate(fragments, start=1)
]


@pytest.mark.parametrize(("rule", "found", "fragment"), CASES)
def test_case(rule: str, found: bool, fragment: str, tmp_path: Path) -> None:
    report = lint_example(tmp_path, fragment)
    names = {finding.name for finding in report.findings}
    assert report.entries_checked == 1, names
    assert (rule in names) == found
