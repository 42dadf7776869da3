"""The entry page: what it must hold, and in which order."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchlore.publish.writer import PublishResult, publish
from benchlore.read.base import Base
from tests.publish.conftest import entry
from tests.publish.reading import Element, read_page


@pytest.fixture(scope="module")
def page(relay: PublishResult) -> Element:
    return read_page(relay.out / "e" / "bw-12-relay-chatters.html")


def place(page: Element, text: str) -> int:
    found = page.one("main").text.find(text)
    assert found >= 0, text
    return found


def test_the_parts_stand_in_the_order_a_technician_needs_them(page: Element) -> None:
    headings = [e.text for e in page.one("main").all() if e.tag in {"h1", "h2"}]
    assert headings == [
        "Cautions",
        "Compressor relay chatters and the display dims; dropper capacitor had lost its value",
        "It did",
        "It was",
        "Proves it on yours",
        "It took",
        "How it was found",
        "Readings",
        "Fix",
        "Part fitted",
        "Checked after repair",
        "Documents",
        "Notes",
        "Worth a look",
    ]


def test_cautions_come_first_and_join_the_class_to_the_entry(page: Element) -> None:
    box = page.one("section", class_="caution")
    links = {a.attributes["href"] for a in box.all("a")}
    # mains, not-isolated, stored-energy and moving-parts stand in the entry, water and dust only in its class
    assert {f"../cautions.html#{h}" for h in ("mains", "not-isolated", "water-and-electricity", "dust")} <= links
    assert "Local codes and licensed practice come first" in box.text
    assert place(page, "Mains inside") < place(page, "Replace C1")


def test_stored_energy_is_computed_and_the_open_bleeder_stands_first(page: Element) -> None:
    text = page.one("section", class_="caution").text
    # E = CV²/2 = 1e-6·325²/2 = 52.8 mJ; Q = CV = 325 µC; t = RC·ln(325/60) = 0.68·1.6895 = 1.15 s, by hand
    assert "C1, 1 µF, holds 52.8 mJ (325 µC) at 325 V." in text
    assert (
        "With the bleeder open it stays charged; with the 680 kΩ bleeder working it falls below 60 V in 1.1 s." in text
    )
    assert "measure it, proving the meter before and after" in text
    assert "safe" not in text.lower().replace("safety", "")


def test_the_plate_names_boards_and_sisters(page: Element) -> None:
    plate = page.one("section", class_="plate")
    assert "Brackwater BW-12" in plate.text
    assert {a.text: a.attributes["href"] for a in plate.all("a")} == {
        "Dehumidifier": "../c/dehumidifier.html",
        "Brackwater BW-12": "../m/brackwater-bw12.html",
        "BWC-02": "../b/bwc02.html",
        "BW-16": "../m/brackwater-bw16.html",
        "BW-20": "../m/brackwater-bw20.html",
    }


def test_the_gist_says_it_in_four_statements(page: Element) -> None:
    did, was, proves, took = page.one("section", class_="gist").all("div")
    assert "Relay chatters" in did.text
    assert "Looked for and not there: fuse blown or burnt smell." in did.text
    assert was.text.startswith("It was C1, X capacitor: capacitance too low")
    assert "Confirmed" in was.text
    assert proves.text == "Proves it on yours C1 out of circuit below 0.9 µF"
    assert "C1 replaced" in took.text
    assert "60 minutes: 35 to find, 15 to mend, 10 to prove" in took.text


def test_tests_differ_in_shape_and_word(page: Element) -> None:
    rows = page.one("ol", class_="tests").all("li")
    assert [row.one("span", class_="test-said").text for row in rows] == [
        "normal", "abnormal", "inconclusive", "abnormal",
    ]  # fmt: skip
    shapes = {row.one("span", class_="test-said").text: [e.tag for e in row.one("svg").all()] for row in rows}
    assert shapes == {"normal": ["circle"], "abnormal": ["path"], "inconclusive": ["circle", "path"]}


def test_the_ruler_has_a_mark_for_each_test_and_is_not_read_out(page: Element) -> None:
    ruler = page.one("svg", class_="ruler")
    assert ruler.attributes["aria-hidden"] == "true"
    assert len(ruler.all("circle")) == 2
    labels = [text.text for text in ruler.all("text", class_="tick-label")]
    assert labels == ["0 min", "5", "10", "15", "20", "25", "30"]


def test_readings_have_a_drawn_scale_with_a_text_equivalent(page: Element) -> None:
    rows = page.one("section", class_="readings").one("tbody").all("tr")
    scale = rows[1].one("svg", class_="scale")
    assert scale.attributes["role"] == "img"
    assert "before 0.41 µF; after 0.99 µF; was too low, now within limits" in scale.attributes["aria-label"].replace(
        "\N{NO-BREAK SPACE}", " "
    )
    assert rows[1].one("span", class_="verdict").text == "was too low, now within limits"


def test_a_swinging_reading_is_drawn_as_a_bar(page: Element) -> None:
    row = page.one("section", class_="readings").one("tbody").all("tr")[0]
    assert len(row.all("path", class_="swing")) == 1
    assert row.one("span", class_="verdict").text == "was too low, now within limits"


def test_a_reading_nearer_to_the_limit_than_the_meter_can_tell_is_left_open(page: Element) -> None:
    # the sample's meter: 0.5 % + 2 digits at 22.82 V on a 4000-count display is 0.13 V, the limit is 22.8 V, by hand
    row = page.one("section", class_="readings").one("tbody").all("tr")[2]
    assert row.one("span", class_="verdict").text == "too near a limit to tell"


def test_number_and_unit_never_part(page: Element) -> None:
    html = page.one("main")
    assert "0.9\N{NO-BREAK SPACE}µF" in "".join(html._texts())


def test_ratings_stand_against_the_originals(page: Element) -> None:
    rows = {
        row.one("th").text: [td.text for td in row.all("td")]
        for row in page.one("section", class_="parts").all("tr")[1:]
    }
    assert rows["AC voltage rating"] == ["275 V ac", "310 V ac higher"]
    assert rows["Capacitance"] == ["1 µF ±10 %", "same"]


def test_related_entries_say_why(page: Element) -> None:
    items = page.one("section", class_="related").all("li")
    assert 1 <= len(items) <= 5
    assert all("same board, BWC-02" in item.text for item in items)
    assert [item.one("a").attributes["href"] for item in items] == [
        "../e/bw-20-other-fault.html",
        "../e/bw-16-other-fault.html",
    ], "the nearer in date first"


def test_no_hazard_recorded_does_not_mean_none(base_with: Callable[..., Path], tmp_path: Path) -> None:
    text = entry(equipment="{class: some-new-kind, model: X-1}")
    out = tmp_path / "site"
    publish(Base(base_with({"x-1-stops": text})), out)
    box = read_page(out / "e" / "x-1-stops.html").one("section", class_="caution")
    assert "No hazards are recorded here; that does not mean there are none" in box.text


def test_an_entry_that_stopped_says_why(published: PublishResult) -> None:
    page = read_page(published.out / "e" / "vm-30-no-output.html")
    assert "Not repaired, cause suspected" in page.one("p", class_="under-title").text


def test_a_capacitor_without_bleeder_stays_charged(published: PublishResult) -> None:
    text = read_page(published.out / "e" / "vm-30-no-output.html").one("section", class_="caution").text
    assert "holds 4.76 J" in text  # CV²/2 = 4700e-6·45²/2 = 4.759 J, by hand
    assert "under 60 V" in text


def test_a_former_address_leads_to_the_entry(published: PublishResult) -> None:
    moved = read_page(published.out / "e" / "tw-12-no-display.html")
    refresh = [m for m in moved.all("meta") if m.attributes.get("http-equiv") == "refresh"]
    assert refresh[0].attributes["content"] == "0; url=../e/tw-12-display-dark.html"
