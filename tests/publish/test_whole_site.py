"""What must hold on every page of a site: links resolve, ids are unique, nothing is loaded from elsewhere."""

from __future__ import annotations

import os
import re
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from benchlore.publish.render import POLICY
from benchlore.publish.sync import MANIFEST
from benchlore.publish.writer import PublishResult
from tests.publish.reading import Element, read_page

LOADING = {
    "script": "src",
    "link": "href",
    "img": "src",
    "iframe": "src",
    "source": "src",
    "object": "data",
    "form": "action",
}


@pytest.fixture(scope="module", params=["published", "demo"])
def site(request: pytest.FixtureRequest) -> tuple[Path, dict[str, Element]]:
    result: PublishResult = request.getfixturevalue(request.param)
    return result.out, {url: read_page(result.out / url) for url in result.pages}


def beside(url: str, path: str) -> str:
    """The address that a relative path in the page at ``url`` leads to."""
    return os.path.normpath((Path(url).parent / unquote(path)).as_posix()) if path else url


def test_every_link_leads_somewhere(site: tuple[Path, dict[str, Element]]) -> None:
    out, pages = site
    ids = {url: {e.attributes["id"] for e in page.all() if "id" in e.attributes} for url, page in pages.items()}
    dead = []
    for url, page in pages.items():
        for element in page.all():
            for name in ("href", "src", "action"):
                target = element.attributes.get(name)
                if target is None or target.startswith(("http://", "https://")):
                    continue
                parts = urlsplit(target.removeprefix("/repairs/") if url == "404.html" else target)
                assert not parts.scheme, f"{url}: {target}"
                file = beside(url, parts.path)
                is_place = parts.fragment and file != "search.html"  # there the fragment is the search itself
                if not (out / file).is_file() or (is_place and parts.fragment not in ids.get(file, set())):
                    dead.append(f"{url}: {target}")
    assert dead == []


def test_every_page_can_be_reached_from_the_home_page(site: tuple[Path, dict[str, Element]]) -> None:
    _, pages = site
    reached, waiting = set(), ["index.html", *(f.attributes["action"] for f in pages["index.html"].all("form"))]
    while waiting:
        url = waiting.pop()
        if url in reached or url not in pages:
            continue
        reached.add(url)
        for a in pages[url].all("a"):
            path = urlsplit(a.attributes["href"]).path
            waiting.append(beside(url, path))
    moved = {u for u, p in pages.items() if any(m.attributes.get("http-equiv") == "refresh" for m in p.all("meta"))}
    assert set(pages) - reached == {"404.html"} | moved


def test_ids_are_unique_and_named_by_what_refers_to_them(site: tuple[Path, dict[str, Element]]) -> None:
    for url, page in site[1].items():
        ids = [e.attributes["id"] for e in page.all() if "id" in e.attributes]
        assert len(ids) == len(set(ids)), url
        for element in page.all():
            for name in ("aria-labelledby", "aria-describedby", "for"):
                assert set(element.attributes.get(name, "").split()) <= set(ids), (url, name)


def test_every_page_has_one_title_one_main_and_its_landmarks(site: tuple[Path, dict[str, Element]]) -> None:
    for url, page in site[1].items():
        assert len(page.all("h1")) == 1, url
        assert page.one("main").attributes["id"] == "main"
        assert page.one("html").attributes["lang"]
        assert page.one("title").text
        assert page.one("header", class_="top") and page.one("footer", class_="foot")
        assert page.one("a", class_="skip").attributes["href"] == "#main"
        assert all(nav.attributes.get("aria-label") for nav in page.all("nav")), url


def test_headings_never_skip_a_level(site: tuple[Path, dict[str, Element]]) -> None:
    for url, page in site[1].items():
        levels = [int(e.tag[1]) for e in page.one("main").all() if re.fullmatch(r"h[1-6]", e.tag)]
        for before, after in pairwise(levels):
            assert after <= before + 1, (url, levels)


def test_nothing_is_loaded_from_another_host(site: tuple[Path, dict[str, Element]]) -> None:
    out, pages = site
    for url, page in pages.items():
        for element in page.all():
            name = LOADING.get(element.tag)
            if name and element.attributes.get("rel") != "canonical":
                assert "//" not in element.attributes.get(name, ""), url
    for file in out.rglob("*"):
        if file.suffix in {".css", ".svg"}:
            text = file.read_text(encoding="utf-8").replace('xmlns="http://www.w3.org/2000/svg"', "")
            assert "//" not in text and "@import" not in text, file


def test_nothing_is_inline_and_the_policy_says_so(site: tuple[Path, dict[str, Element]]) -> None:
    for url, page in site[1].items():
        policy = [
            m.attributes["content"]
            for m in page.all("meta")
            if m.attributes.get("http-equiv", "").startswith("Content")
        ]
        assert policy == [POLICY], url
        assert "unsafe" not in POLICY
        assert page.all("style") == []
        for element in page.all():
            assert "style" not in element.attributes, (url, element.tag)
            assert not [name for name in element.attributes if name.startswith("on")], url
        assert all("src" in script.attributes and not script.text for script in page.all("script")), url


def test_no_file_names_that_another_system_cannot_hold(site: tuple[Path, dict[str, Element]]) -> None:
    out, _ = site
    names = [path.relative_to(out).as_posix() for path in out.rglob("*")]
    assert all(re.fullmatch(r"[A-Za-z0-9._/-]+", name) for name in names)
    assert len({name.lower() for name in names}) == len(names)
    assert MANIFEST in names


def test_svg_has_no_style_attribute_and_says_or_hides_itself(site: tuple[Path, dict[str, Element]]) -> None:
    for url, page in site[1].items():
        for svg in page.all("svg"):
            assert svg.attributes.get("aria-hidden") == "true" or svg.attributes.get("aria-label"), url


def test_no_address_without_a_known_host(demo: PublishResult) -> None:
    page = read_page(demo.out / "index.html")
    assert [link for link in page.all("link") if link.attributes["rel"] == "canonical"] == []
    assert not (demo.out / "sitemap.xml").exists()
