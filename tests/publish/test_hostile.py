"""Entries from strangers: whatever is written in them stays text, and no name in them leaves the site's folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchlore.publish.markdown import to_html
from benchlore.publish.writer import publish
from benchlore.read.base import Base
from tests.publish.conftest import entry
from tests.publish.reading import read_html, read_page

MARKUP = "<script>alert(1)</script><img src=x onerror=alert(1)>"


@pytest.fixture
def hostile(base_with: Callable[..., Path], tmp_path: Path) -> Path:
    text = entry(
        title=MARKUP,
        author=f"'{MARKUP}'",
        licence=f"'{MARKUP}'",
        equipment=f"{{class: '../../{MARKUP}', maker: '{MARKUP}', model: '../../etc/passwd', supply: '{MARKUP}', "
        f"boards: [{{marking: '../{MARKUP}', revision: '{MARKUP}', function: '{MARKUP}'}}, {{marking: '...'}}]}}",
        symptoms=f"[{{term: '../../{MARKUP}', note: '{MARKUP}', brought_on_by: ['{MARKUP}']}}]",
        not_seen=f"['{MARKUP}']",
        documents=f"[{{title: '{MARKUP}', covers: '{MARKUP}', link: 'javascript:alert(1)'}}]",
        tests=f"[{{test: '{MARKUP}', target: '{MARKUP}', component: '{MARKUP}', outcome: normal, note: '{MARKUP}'}}]",
        measurements=f"[{{point: '{MARKUP}', quantity: '{MARKUP}', expected: 5 V ±5 %, after: 5.01 V}}]",
        root_cause=f"{{component: '{MARKUP}', component_class: '../{MARKUP}', failure_mode: '{MARKUP}', "
        f"confirm_by: '{MARKUP}'}}",
        fix=f"{{actions: [{{do: '{MARKUP}', on: '{MARKUP}'}}], steps: ['{MARKUP}'], tools: ['{MARKUP}']}}",
        parts=f"[{{ref: '{MARKUP}', type: '{MARKUP}', ratings: {{'{MARKUP}': '{MARKUP}'}}, note: '{MARKUP}'}}]",
        hazards=f"['{MARKUP}']",
        stored_energy=f"[{{component: '{MARKUP}', capacitance: 1 µF, voltage: 325 V}}]",
        verification=f"{{result: holding, checks: ['{MARKUP}']}}",
        notes=f"'{MARKUP} [a](javascript:alert(1)) [b](data:text/html,x) ![c](http://elsewhere.example/c.png)'",
    )
    out = tmp_path / "site"
    result = publish(Base(base_with({"hostile-one": text, "plain-one": entry()})), out)
    assert result.entries == 2
    return out


def test_markup_stays_text_on_every_page(hostile: Path) -> None:
    pages = {path: read_page(path) for path in hostile.rglob("*.html")}
    assert MARKUP in pages[hostile / "e" / "hostile-one.html"].one("h1").text
    for path, page in pages.items():
        assert page.all("img") == [], path
        ours = {(path.parent / s.attributes["src"]).resolve() for s in page.all("script")}
        assert ours <= set((hostile / "scripts").iterdir()), path
        for element in page.all():
            assert "onerror" not in element.attributes, path
            assert not element.attributes.get("href", "").lower().startswith(("javascript:", "data:", "vbscript:")), (
                path
            )


def test_every_piece_of_it_is_shown(hostile: Path) -> None:
    text = read_page(hostile / "e" / "hostile-one.html").one("main").text
    assert text.count("<script>alert(1)</script>") > 20


def test_no_name_leaves_the_folder(hostile: Path) -> None:
    outside = [path for path in hostile.parent.iterdir() if path.name not in {"site", "base"}]
    assert outside == []
    assert {path.name for path in hostile.iterdir() if path.is_dir()} <= {
        "api",
        "b",
        "c",
        "data",
        "e",
        "m",
        "p",
        "r",
        "s",
        "scripts",
        "styles",
    }


@pytest.mark.parametrize(
    "text",
    [
        "[x](javascript:alert(1))",
        "[x](JaVaScRiPt:alert(1))",
        "[x](&#106;avascript:alert(1))",
        "[x](vbscript:x)",
        "[x](data:text/html;base64,xx)",
        "[x](file:///etc/passwd)",
        "[x](mailto:a@b.example)",
        "[x](//elsewhere.example)",
        "<javascript:alert(1)>",
        "[x][1]\n\n[1]: javascript:alert(1)",
    ],
)
def test_only_web_addresses_become_links(text: str) -> None:
    assert read_html(str(to_html(text))).all("a") == []


def test_web_links_tell_nothing_about_us() -> None:
    link = read_html(str(to_html("[data sheet](https://maker.example/sheet?a=1&b=2 'a \"title\"')"))).one("a")
    assert link.attributes["href"] == "https://maker.example/sheet?a=1&b=2"
    assert link.attributes["rel"] == "nofollow noopener noreferrer"


@pytest.mark.parametrize(
    "text", ["<b>x</b>", "<!-- x -->", "a <i onclick=x>b</i>", "<style>*{display:none}</style>", "&lt;b>"]
)
def test_raw_html_in_notes_is_shown_as_written(text: str) -> None:
    made = read_html(str(to_html(text)))
    assert {e.tag for e in made.all()} <= {"p"}


def test_notes_cannot_add_a_second_title() -> None:
    made = read_html(str(to_html("# One\n\nTwo\n===\n\n## Three\n\n| a |\n|--:|\n| b |")))
    assert made.all("h1") == made.all("h2") == []
    assert [e.text for e in made.all("h3")] == ["One", "Three"]
    assert all("style" not in e.attributes for e in made.all())


def test_deeply_nested_notes_are_bounded() -> None:
    assert len(to_html(">" * 5_000 + "x")) < 50_000
    assert len(to_html("[" * 5_000)) < 50_000
    assert len(to_html("*a " * 10_000)) < 400_000
