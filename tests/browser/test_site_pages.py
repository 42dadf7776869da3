"""The published pages in a real browser: nothing scrolls sideways, targets are large enough, print fits two sheets."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from benchlore.publish.writer import publish
from benchlore.read.base import Base

SAMPLE = Path(__file__).parents[1] / "sample_base"

ONE_OF_EACH = (
    "index.html",
    "classes.html",
    "symptoms.html",
    "boards.html",
    "makers.html",
    "components.html",
    "cautions.html",
    "helpers.html",
    "figures.html",
    "rules.html",
    "about.html",
    "404.html",
    "e/*.html",
    "c/*.html",
    "s/*.html",
    "b/*.html",
    "m/*.html",
    "p/*.html",
    "r/*.html",
)
WIDE = """() => [...document.querySelectorAll("body *")]
  .filter((e) => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".unseen, .skip"))
  .map((e) => `${e.tagName}.${e.className.baseVal ?? e.className}: ${e.textContent.trim().slice(0, 40)}`)"""
SMALL = """() => [...document.querySelectorAll(".top a, .top input, .foot a, .terms a, .counted a, .pager a")]
  .map((e) => [e.textContent.trim(), e.getBoundingClientRect().height])
  .filter(([, height]) => height > 0 && height < 43.5)"""


@pytest.mark.parametrize("width", [320, 390, 768, 1280])
@pytest.mark.parametrize("pattern", ONE_OF_EACH)
def test_nothing_scrolls_sideways(demo_site: Path, page, pattern: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    for file in sorted(demo_site.glob(pattern))[:4]:
        page.goto(file.as_uri())
        scroll = page.evaluate("document.documentElement.scrollWidth")
        assert scroll <= width, (file.name, page.evaluate(WIDE)[:3])


def test_what_can_be_pressed_is_large_enough_for_a_finger(demo_site: Path, page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    for pattern in ONE_OF_EACH:
        page.goto(sorted(demo_site.glob(pattern))[0].as_uri())
        assert page.evaluate(SMALL) == [], pattern


def test_the_title_is_in_sight_on_a_phone_without_scrolling(demo_site: Path, page) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    for file in sorted((demo_site / "e").glob("*.html")):
        page.goto(file.as_uri())
        box = page.locator("h1").bounding_box()
        assert box["y"] < 844 - 30, file.name


def test_an_entry_prints_on_at_most_two_sheets(demo_site: Path, page) -> None:
    entries = sorted((demo_site / "e").glob("*.html"))
    longest = sorted(entries, key=lambda file: file.stat().st_size)[-6:]
    for file in [*entries[:8], *longest]:
        page.goto(file.as_uri())
        for paper in ("A4",) if file in longest else ("A4", "Letter"):
            sheets = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper, prefer_css_page_size=False)))
            assert 1 <= sheets <= 2, (file.name, paper)


def test_the_ruler_is_a_list_down_the_side_on_a_phone(demo_site: Path, page) -> None:
    file = next(f for f in sorted((demo_site / "e").glob("*.html")) if 'class="ruler"' in f.read_text(encoding="utf-8"))
    page.goto(file.as_uri())
    for width, drawn in ((390, False), (1280, True)):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.locator("svg.ruler").is_visible() is drawn
        assert page.locator("ol.tests li").first.is_visible()


def test_both_colour_schemes_are_honoured(demo_site: Path, page) -> None:
    def paper(scheme: str) -> str:
        page.emulate_media(color_scheme=scheme)
        return page.evaluate("getComputedStyle(document.body).backgroundColor")

    page.goto((demo_site / "index.html").as_uri())
    assert paper("light") == "rgb(243, 245, 242)"
    assert paper("dark") == "rgb(16, 22, 20)"
    page.emulate_media(color_scheme="light")


def test_the_skip_link_shows_itself_and_leads_to_the_content(demo_site: Path, page) -> None:
    page.goto((demo_site / "classes.html").as_uri())
    page.keyboard.press("Tab")
    skip = page.locator("a.skip")
    assert skip.bounding_box()["y"] >= 0
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "main"


def test_words_without_end_do_not_widen_a_page(page, tmp_path: Path) -> None:
    w = "W" * 190
    root = tmp_path / "base"
    shutil.copytree(SAMPLE / "site_config", root / "site_config")
    (root / "entries" / "dehumidifier").mkdir(parents=True)
    (root / "entries" / "dehumidifier" / "wide-one.yaml").write_text(
        f"""format: 1
title: {w}
outcome: repaired
date: 2026-01-05
author: {w}
equipment: {{class: dehumidifier, maker: {w}, model: {w}, supply: {w}, boards: [{{marking: {w}, function: {w}}}]}}
symptoms: [{{term: fan-stopped, note: {w}}}, {{term: {w[:60]}}}]
tests: [{{test: voltage-check, component: {w}, outcome: normal, minutes: 5, note: {w}}}]
measurements: [{{point: {w}, quantity: dc-voltage, condition: {w}, expected: 5 V ±5 %, before: 4 V, after: 5 V}}]
root_cause: {{component: {w}, component_class: solder-joint, failure_mode: cracked, confirm_by: {w}}}
fix: {{actions: [{{do: resolder, on: {w}}}], steps: [{w}]}}
parts: [{{ref: {w}, type: {w}, ratings: {{capacitance: {w}}}, original: {{ratings: {{capacitance: {w}}}}}, note: {w}}}]
documents: [{{title: {w}, covers: {w}}}]
verification: {{result: holding, checks: [{w}]}}
minutes: 30
notes: |
  {w} `{w}`

      {w}
""",
        encoding="utf-8",
    )
    result = publish(Base(root), tmp_path / "site")
    assert result.entries == 1
    for width in (390, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        for pattern in ("index.html", "boards.html", "makers.html", "[ecbmsp]/*.html"):
            for file in sorted(result.out.glob(pattern))[:3]:
                if "W" in file.read_text(encoding="utf-8"):
                    page.goto(file.as_uri())
                    scroll = page.evaluate("document.documentElement.scrollWidth")
                    assert scroll <= width, (file.name, page.evaluate(WIDE)[:3])
