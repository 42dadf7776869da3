"""The search page as somebody at the bench uses it: from a folder, by keyboard, on a phone, when things go wrong."""

from __future__ import annotations

import functools
import http.server
import json
import re
import shutil
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from benchlore.index.browser_parts import browser_parts
from tests.index.made_up import made_up, record, vocabulary

TOTAL, HITS, TITLES = "[data-total]", "[data-hits] > li", "[data-hits] .entry-title"


@pytest.fixture
def search(page: Page, demo_site: Path) -> Page:
    page.goto((demo_site / "search.html").as_uri())
    return page


@pytest.fixture
def own_site(demo_site: Path, tmp_path: Path) -> Path:
    """A copy of the site, for tests that change it."""
    return Path(shutil.copytree(demo_site, tmp_path / "site"))


def with_entries(site: Path, records) -> Path:
    """The site with the search data of other entries."""
    shutil.rmtree(site / "data")
    (site / "data").mkdir()
    for name, text in browser_parts(records, vocabulary()).items():
        (site / name).write_text(text, encoding="ascii")
    return site / "search.html"


def fragment(page: Page) -> str:
    return page.evaluate("location.hash")


def test_results_as_you_type_with_what_matched_and_what_did_not(search):
    search.locator("#find").press_sequentially("BW16 fan, compresser clicks")
    expect(search.locator(TOTAL)).to_have_text(re.compile(r"^\d+\srepairs?$"))
    read = search.locator("#read-as")
    expect(read).to_contain_text("BW-16 (shares board BWC-02 with BW-12, BW-20)")
    expect(read).to_contain_text("compressor (typed “compresser”)")
    first = search.locator(HITS).first
    expect(first).to_contain_text("Brackwater BW-20, same board as BW-16")
    expect(first.locator("mark").first).to_have_text("fan")
    expect(search.locator(HITS).filter(has_text="nothing about").locator("s").first).to_be_visible()
    assert fragment(search) == "#q=BW16+fan%2C+compresser+clicks"
    assert search.title().startswith("BW16 fan")
    assert search.locator(TITLES).first.get_attribute("href").startswith("e/")


def test_an_address_opens_its_search_and_back_goes_through_the_searches(page, demo_site):
    page.goto((demo_site / "search.html").as_uri() + "#q=relay&class=dehumidifier")
    expect(page.locator("#find")).to_have_value("relay")
    expect(page.locator(HITS)).not_to_have_count(0)
    assert page.locator("input[name=class][value=dehumidifier]").is_checked()
    page.locator("#find").fill('"stitches"')
    page.locator("#find").press("Enter")
    expect(page.locator(TOTAL)).to_have_text("Nothing found")
    page.get_by_role("button", name="without your choices").click()
    expect(page.locator(TITLES).first).to_contain_text("stitch")
    page.go_back()
    expect(page.locator(TOTAL)).to_have_text("Nothing found")
    page.go_back()
    expect(page.locator("#find")).to_have_value("relay")
    expect(page.locator(HITS)).not_to_have_count(0)
    page.locator(TITLES).first.click()
    page.wait_for_url("**/e/*.html")
    page.go_back()
    expect(page.locator("#find")).to_have_value("relay")
    expect(page.locator(HITS)).not_to_have_count(0)


def test_facets_narrow_and_keep_their_alternatives(search):
    search.locator("#find").fill("capacitor class:dehumidifier")
    expect(search.locator(HITS)).not_to_have_count(0)
    few = int(search.locator(TOTAL).inner_text().split()[0])
    other = search.locator("input[name=class][value=bench-power-supply]")
    other.check()
    expect(search.locator("#find")).to_have_value("capacitor")
    assert fragment(search) == "#q=capacitor&class=dehumidifier&class=bench-power-supply"
    expect(search.locator(TOTAL)).not_to_have_text(re.compile(rf"^{few}\s"))
    assert search.evaluate("document.activeElement.value") == "bench-power-supply"
    count = int(re.match(r"\d+", search.locator(".choice", has=other).locator(".count").inner_text())[0])
    assert int(search.locator(TOTAL).inner_text().split()[0]) == few + count
    search.get_by_role("button", name="Clear all choices").click()
    expect(search.locator("input[name=class]:checked")).to_have_count(0)
    assert fragment(search) == "#q=capacitor"


def test_everything_by_keyboard(search):
    search.keyboard.press("/")
    assert search.evaluate("document.activeElement.id") == "find"
    search.keyboard.type("capacitor")
    search.keyboard.press("Enter")
    expect(search.locator(HITS)).not_to_have_count(0)
    search.keyboard.press("ArrowDown")
    search.keyboard.press("ArrowDown")
    assert search.evaluate("document.activeElement === document.querySelectorAll('[data-hits] a')[1]")
    search.keyboard.press("ArrowUp")
    search.keyboard.press("ArrowUp")
    assert search.evaluate("document.activeElement.id") == "find"
    search.keyboard.press("Escape")
    expect(search.locator("#find")).to_have_value("")
    expect(search.locator("[data-intro]")).to_be_visible()
    assert fragment(search) == ""
    search.keyboard.type("7/8")
    expect(search.locator("#find")).to_have_value("7/8")


def test_what_can_be_typed_finds_something(search):
    links = search.locator("[data-intro] dt a")
    assert links.count() >= 4
    for place in range(links.count()):
        links.nth(place).click()
        expect(search.locator(HITS)).not_to_have_count(0)
        search.locator("#find").fill("")
        expect(search.locator("[data-intro]")).to_be_visible()


def test_nothing_found_offers_what_is_nearest(search):
    search.locator("#find").fill('"relay pump" brushs')
    expect(search.locator(TOTAL)).to_have_text("Nothing found")
    offers = search.locator("[data-nothing]")
    expect(offers).to_contain_text("Nearest to it")
    expect(offers.get_by_role("link", name="classes")).to_have_count(0)
    expect(offers.get_by_role("link", name="equipment")).to_have_attribute("href", "classes.html")
    offers.get_by_role("link", name="Look for them on their own").click()
    expect(search.locator(HITS)).not_to_have_count(0)
    search.locator("#find").fill("qqqqqq")
    expect(offers).to_contain_text("Written up most")
    offers.locator(".counted a").first.click()
    expect(search.locator(HITS)).not_to_have_count(0)
    assert fragment(search).startswith("#symptom=")


def test_nothing_is_loaded_before_the_box_is_touched_and_then_only_what_is_needed(page, demo_site):
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[1]) if "/data/" in request.url else None)
    page.goto((demo_site / "search.html").as_uri())
    page.wait_for_timeout(200)
    assert asked == []
    page.locator("#find").focus()
    page.wait_for_timeout(200)
    assert asked == ["search.js"]
    page.locator("#find").fill("relay")
    expect(page.locator(HITS)).not_to_have_count(0)
    expect(page.locator("[data-facets] input").first).to_be_attached()
    assert 1 <= sum(name.startswith("phrases-") for name in asked) <= 2
    assert not any(name.startswith(("spelling-", "dates-")) for name in asked)
    facets = [name for name in asked if name.startswith("facet-")]
    assert facets == asked[-len(facets) :], "what narrows the hits down comes after them"
    assert len(asked) < 40 and len(asked) == len(set(asked))


def test_entries_are_text_and_never_markup(page, own_site):
    title = "<img src=x onerror=alert(1)> & <b>bold</b> \u2028 pump"
    board = {"marking": "<u>U-1</u>"}
    unit = {"class": "dehumidifier", "maker": "<i>Maker</i>", "model": "PX-1", "boards": [board]}
    note = "pump </script><script>alert(1)</script>"
    hostile = record("zz-1", title=title, symptoms=[{"note": note}], equipment=unit)
    other = record("zz-2", title="pump", equipment={"class": "dehumidifier", "maker": "Plain"})
    page.goto(with_entries(own_site, [hostile, other]).as_uri() + "#q=pump+%3Cimg%3E+PX-1")
    expect(page.locator(HITS)).to_have_count(2)
    assert page.locator(TITLES).first.text_content() == title
    expect(page.locator("[data-facets]")).to_contain_text("<i>Maker</i>")
    assert page.locator("main img, main i, main u, main [onerror]").count() == 0


def test_a_slug_that_is_no_good_file_name_leads_to_its_page(page, own_site):
    search = own_site / "search.html"
    told = """data-elsewhere='{"con": "e/con-0.html"}'"""
    search.write_text(search.read_text(encoding="utf-8").replace("data-elsewhere='{}'", told), encoding="utf-8")
    records = [record(slug, title="pump") for slug in ("con", "constructor")]
    page.goto(with_entries(own_site, records).as_uri() + "#q=pump")
    expect(page.locator(TITLES)).to_have_count(2)
    assert [a.get_attribute("href") for a in page.locator(TITLES).all()] == ["e/con-0.html", "e/constructor.html"]


def test_more_results_are_shown_when_asked_for(page, own_site):
    page.goto(with_entries(own_site, made_up(60)).as_uri() + "#outcome=repaired")
    expect(page.locator(HITS)).to_have_count(10)
    page.get_by_role("button", name="Show").click()
    expect(page.locator(HITS)).not_to_have_count(10)
    assert page.evaluate("document.activeElement === document.querySelectorAll('[data-hits] a')[10]")
    assert int(page.locator(TOTAL).inner_text().split()[0]) >= page.locator(HITS).count() > 10


def test_a_part_that_cannot_be_read_is_said_and_tried_again(page, own_site):
    manifest = (own_site / "data" / "search.js").read_text(encoding="ascii")
    table = json.loads(manifest.partition(",")[2].removesuffix(");\n"))["phrases"]
    parts = [own_site / "data" / f"phrases-{table['names'][at : at + 6]}.js" for at in range(0, len(table["names"]), 6)]
    kept = {part: part.read_bytes() for part in parts}
    for part in parts:
        part.unlink()
    page.goto((own_site / "search.html").as_uri() + "#q=relay")
    trouble = page.get_by_role("alert")
    expect(trouble).to_contain_text(re.compile(r"data/phrases-\w+\.js could not be read"))
    expect(trouble.get_by_role("link", name="symptoms")).to_be_visible()
    for part in parts:
        part.write_bytes(b"")
    trouble.get_by_role("button", name="Try again").click()
    expect(trouble).to_contain_text(re.compile(r"data/phrases-(\w+)\.js does not hold phrases-"))
    for part, content in kept.items():
        part.write_bytes(content)
    page.reload()
    expect(page.locator(HITS)).not_to_have_count(0)
    expect(trouble).to_be_empty()
    page.complaints.clear()  # the browser tells of the file that was not there


@pytest.mark.parametrize("way", ["file", "http"])
def test_a_site_published_anew_meanwhile_is_searched_as_it_is_now(page, own_site, way):
    with serve(own_site.parent) as address:
        page.goto((own_site / "search.html").as_uri() if way == "file" else f"{address}{own_site.name}/search.html")
        page.locator("#find").fill("relay")
        expect(page.locator(HITS)).not_to_have_count(0)
        with_entries(own_site, [record(f"new-{n}", title="Wobblegasket seal worn") for n in range(3)])
        page.locator("#find").fill("wobblegasket seal")
        expect(page.locator(TITLES)).to_have_text(["Wobblegasket seal worn"] * 3)
        page.complaints.clear()  # the browser tells of the files that were gone


def test_what_is_left_out_is_shown_and_can_be_taken_back(search):
    search.locator("#find").fill("capacitor -class:dehumidifier minutes:..60")
    expect(search.locator(HITS)).not_to_have_count(0)
    expect(search.locator("[data-facets]")).to_contain_text("not Dehumidifier")
    box = search.locator("input[name=class][value='-dehumidifier']")
    assert box.is_checked()
    box.uncheck()
    assert fragment(search) == "#q=capacitor&minutes=..60"
    expect(search.locator("input[name=class][value='-dehumidifier']")).to_have_count(0)


def test_sorting_is_part_of_the_address(search):
    search.locator("#find").fill("capacitor")
    expect(search.locator(HITS)).not_to_have_count(0)
    search.get_by_role("button", name="quickest").click()
    expect(search.get_by_role("button", name="quickest")).to_have_attribute("aria-pressed", "true")
    assert fragment(search) == "#q=capacitor&sort=quickest"
    first = search.locator(HITS).first.inner_text()
    search.reload()
    expect(search.locator(HITS).first).to_contain_text(first.splitlines()[0])


def test_the_box_on_other_pages_leads_here(page, demo_site):
    entry = sorted((demo_site / "e").glob("*.html"))[0]
    page.goto(entry.as_uri())
    page.keyboard.press("/")
    page.keyboard.type("relay & <fan>")
    page.keyboard.press("Enter")
    page.wait_for_url("**/search.html#q=relay+%26+%3Cfan%3E")
    expect(page.locator("#find")).to_have_value("relay & <fan>")
    expect(page.locator(HITS)).not_to_have_count(0)


def test_without_scripts_the_page_leads_to_the_lists(page, demo_site):
    page.context.new_cdp_session(page).send("Emulation.setScriptExecutionDisabled", {"value": True})
    page.goto((demo_site / "search.html").as_uri())
    told = page.locator("noscript p")
    expect(told).to_contain_text("Without them, the lists lead to every repair")
    for href in re.findall(r'href="([^"]+)"', (demo_site / "search.html").read_text(encoding="utf-8")):
        if href.endswith(".html"):
            assert (demo_site / href).is_file(), href


@pytest.mark.parametrize("width", [320, 390])
def test_nothing_scrolls_sideways_on_a_phone(page, demo_site, width):
    page.set_viewport_size({"width": width, "height": 844})
    page.goto((demo_site / "search.html").as_uri() + "#q=BW16+fan+runs+no+water%2C+compresser+clicks")
    expect(page.locator(HITS)).not_to_have_count(0)
    assert not page.locator("[data-facets]").is_visible()
    page.locator(".narrow-name").click()
    expect(page.locator("[data-facets]")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    for target in page.locator(".narrow label, .narrow summary, .narrow button, .hits a").all():
        if target.is_visible():
            assert target.bounding_box()["height"] >= 24


class _Quiet(http.server.SimpleHTTPRequestHandler):
    pause = 0.0

    def log_message(self, *args: object) -> None:
        pass

    def do_GET(self) -> None:
        if "/data/" in self.path:
            time.sleep(self.pause)
        super().do_GET()


@contextmanager
def serve(folder: Path) -> Iterator[str]:
    handler = functools.partial(_Quiet, directory=str(folder))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


@pytest.fixture
def served(demo_site: Path) -> Iterator[str]:
    with serve(demo_site.parent) as address:
        yield f"{address}site/"


def test_served_under_a_sub_path_it_works_alike(page, served):
    page.goto(f"{served}search.html#q=漢+relay+chatters")
    expect(page.locator(TITLES).first).to_contain_text("relay chatters")
    page.goto(f"{served}index.html")
    page.locator("#find").fill("relay")
    page.locator("#find").press("Enter")
    page.wait_for_url(f"{served}search.html#q=relay")
    expect(page.locator(HITS)).not_to_have_count(0)


def test_slow_data_is_said_to_be_read(page, served, monkeypatch):
    monkeypatch.setattr(_Quiet, "pause", 0.7)
    page.goto(f"{served}search.html#q=relay", wait_until="commit")
    expect(page.get_by_role("status")).to_have_text("Reading the index …")
    expect(page.locator(HITS)).not_to_have_count(0, timeout=15_000)
