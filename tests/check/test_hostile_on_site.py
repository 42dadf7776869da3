"""What lint accepts, or finds and somebody publishes all the same, stays text on the site, in its feeds and parts."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from benchlore.publish.writer import publish
from benchlore.read.base import Base
from tests.check.examples import laid_over, new_base

SCRIPT = "<script>alert(1)</script>"
TEXTS = [
    SCRIPT,
    "<img src=x onerror=alert(1)>",
    "[a](javascript:alert(1))",
    "<javascript:alert(1)>",
    "![a](https://elsewhere.example/a.png)",
    "</title></script><script>alert(1)</script>",
    "{{ 7*7 }} {% raw %}",
    "=HYPERLINK(1) @SUM(A1) +cmd",
    "]]><!--",
    "\"onmouseover='alert(1)' x=\"",
]


class Seen(HTMLParser):
    """The elements and attributes of a page, as a browser would find them."""

    def __init__(self) -> None:
        super().__init__()
        self.wrong: list[str] = []
        self._in_script = False

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self._in_script = tag == "script"
        for name, value in attributes:
            if name.startswith("on") or (value or "").strip().lower().startswith(("javascript:", "data:text")):
                self.wrong.append(f"{tag} {name}={value}")
            if name == "src" and "://" in (value or ""):
                self.wrong.append(f"{tag} loads {value}")

    def handle_endtag(self, tag: str) -> None:
        self._in_script = False

    def handle_data(self, data: str) -> None:
        if self._in_script and "alert(1)" in data and not data.lstrip().startswith(("{", "[")):
            self.wrong.append(f"script {data[:60]}")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    base = new_base(tmp_path_factory.mktemp("site") / "base")
    folder = base.entries_folder / "dehumidifier"
    folder.mkdir()
    for number, said in enumerate(TEXTS):
        as_yaml = json.dumps(said)
        lines = (
            f"title: {json.dumps(f'Relay chatters under load {said}')}\nauthor: {as_yaml}\n"
            f"equipment: {{class: dehumidifier, maker: {as_yaml}, model: {as_yaml},"
            f" boards: [{{marking: {as_yaml}}}]}}\n"
            f"symptoms: [{{term: relay-chatter, note: {as_yaml}}}]\n"
            f"documents: [{{title: {as_yaml}, covers: {as_yaml}, link: {as_yaml}}}]\n"
            f"notes: {json.dumps(f'See {said} and {said}')}\nfix: {{steps: [{as_yaml}]}}\n"
        )
        (folder / f"hostile-{number}.yaml").write_text(laid_over(lines), encoding="utf-8")
    opened = Base(base.root)
    assert len(opened.records()) == len(TEXTS)
    out = base.root / "site"
    publish(opened, out, lambda *_: None)
    return out


def test_no_page_runs_or_loads_what_an_entry_says(site: Path) -> None:
    pages = list(site.rglob("*.html"))
    assert len(pages) > len(TEXTS)
    for page in pages:
        seen = Seen()
        seen.feed(page.read_text(encoding="utf-8"))
        assert seen.wrong == [], page.name


def test_the_words_are_there_to_be_read(site: Path) -> None:
    page = next(site.rglob("hostile-0.html")).read_text(encoding="utf-8")
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page


def test_parts_are_calls_with_plain_data_and_feeds_hold_no_markup(site: Path) -> None:
    for path in site.rglob("*"):
        if path.suffix == ".js" and "data" in path.relative_to(site).parts:
            call = re.fullmatch(r"[\w.]+\((.*)\);?\s*", path.read_text(encoding="utf-8"), re.DOTALL)
            assert call, path.name
            json.loads(f"[{call[1]}]")
        if path.suffix == ".xml":
            assert not re.search(r"<script|<img", path.read_text(encoding="utf-8")), path.name
