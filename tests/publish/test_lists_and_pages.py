"""Class, symptom, board, model and component pages; and that no page grows with the number of entries."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchlore.answer.intervals import wilson
from benchlore.publish.pages import equipment_class
from benchlore.publish.sections.entry_list import slices
from benchlore.publish.writer import PublishResult, make_site, publish
from benchlore.read.base import Base
from tests.publish.conftest import entry
from tests.publish.reading import Element, read_html, read_page

BOARD = "{class: dehumidifier, maker: Tarnwick, model: %s, boards: [{marking: %s, revision: %s}]}"


@pytest.fixture
def varied(base_with: Callable[..., Path], tmp_path: Path) -> Path:
    """Five repairs: four with a cause, three of them the same; three on one board in two spellings."""
    joint = "{component_class: solder-joint, failure_mode: cracked, block: fan-circuit}"
    relay = "{component_class: relay, failure_mode: contacts-welded, block: load-switching}"
    entries = {
        "one": entry(
            "One", equipment=BOARD % ("TW-1", "TWB-1", "A"), root_cause=joint, symptoms="[{term: fan-stopped}]"
        ),
        "two": entry(
            "Two", equipment=BOARD % ("TW-2", "twb 1", "B"), root_cause=joint, symptoms="[{term: fan-stopped}]"
        ),
        "three": entry("Three", equipment=BOARD % ("TW-2", "TWB-1", "B"), root_cause=joint, symptoms="[{term: hum}]"),
        "four": entry("Four", root_cause=relay, symptoms="[{term: hum}, {term: fan-stopped}]"),
        "five": entry("Five", outcome="no-fault-found", root_cause="null", symptoms="[{term: hum}]"),
    }
    entries["five"] = entries["five"].replace("root_cause: null\n", "")
    out = tmp_path / "site"
    assert publish(Base(base_with(entries)), out).left_out == 0
    return out


def test_a_class_says_what_it_was_with_intervals(varied: Path) -> None:
    page = read_page(varied / "c" / "dehumidifier.html")
    rows = page.one("ol", class_="causes").all("li")
    low, high = wilson(3, 4)
    assert rows[0].one("span", class_="cause-name").text == "Solder joint, cracked"
    assert (
        rows[0].one("span", class_="cause-words").text
        == f"3 of 4, likely between {100 * low:.0f} and {100 * high:.0f} %"
    )
    assert "In 1 no cause was found." in page.one("main").text
    assert "They do not say how often such equipment fails." in page.one("main").text


def test_symptom_against_cause_counts_repairs(varied: Path) -> None:
    grid = read_page(varied / "c" / "dehumidifier.html").one("table", class_="grid")
    cells = {row.one("th").text: [td.text for td in row.all("td")] for row in grid.one("tbody").all("tr")}
    assert cells == {"Fan does not turn": ["2", "1"], "Hums": ["1", "1"]}


def test_blocks_stand_in_the_order_of_the_vocabulary_with_their_counts(varied: Path) -> None:
    page = read_page(varied / "c" / "dehumidifier.html")
    blocks = page.one("ol", class_="chain").all("li")
    counts = {block.one("span").text: block.all("b")[0].text for block in blocks if block.all("b")}
    assert blocks[0].text == "Mains input"
    assert counts == {"Fan circuit": "3", "Load switching": "1"}


def test_a_symptom_says_what_it_was_in_each_class(varied: Path) -> None:
    page = read_page(varied / "s" / "hum.html")
    assert "Dehumidifier : in 3 repairs it was" in page.text
    assert [a.text for a in page.all("a", class_="entry-title")] == ["Five", "Four", "Three"]


def test_a_board_joins_its_spellings_and_tells_revisions(varied: Path) -> None:
    page = read_page(varied / "b" / "twb1.html")
    assert page.one("h1").text == "Board TWB-1"
    models = [li.text for li in page.all("ul", class_="ruled")[0].all("li")]
    assert models == ["Tarnwick TW-1 Dehumidifier, revision A", "Tarnwick TW-2 Dehumidifier, revision B"]
    assert "check the values before you rely on them" in page.text
    assert {a.text for a in page.all("a", class_="entry-title")} == {"One", "Two", "Three"}


def test_a_model_shows_the_repairs_of_its_sisters(varied: Path) -> None:
    page = read_page(varied / "m" / "tarnwick-tw1.html")
    assert "Shares a board with Tarnwick TW-2" in page.text
    sisters = next(s for s in page.all("section") if s.attributes.get("aria-labelledby") == "sisters")
    assert {a.text for a in sisters.all("a", class_="entry-title")} == {"Two", "Three"}


def test_a_component_says_where_and_how_it_failed(published: PublishResult) -> None:
    page = read_page(published.out / "p" / "electrolytic-capacitor.html")
    text = page.one("main").text
    assert "Low-voltage supply" in text
    assert "radial 470 µF 16 V 105 °C" in text


def test_a_class_without_a_repair_still_has_its_cautions_and_blocks(varied: Path) -> None:
    page = read_page(varied / "c" / "bench-power-supply.html")
    assert page.one("section", class_="caution").all("a")
    assert page.one("ol", class_="chain")
    assert "Nothing of this kind is written up yet." in page.text


def test_a_long_list_is_cut_into_pages_that_lead_to_each_other() -> None:
    parts = list(slices(range(450), "c/x.html", 200))
    assert [(p.url, len(p.items), p.previous, p.following) for p in parts] == [
        ("c/x.html", 200, None, "c/x.2.html"),
        ("c/x.2.html", 200, "c/x.html", "c/x.3.html"),
        ("c/x.3.html", 50, "c/x.2.html", None),
    ]
    assert [p.items for p in slices([], "c/x.html")] == [()]


def test_pages_do_not_grow_with_the_number_of_entries(
    base_with: Callable[..., Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(equipment_class, "slices", lambda items, url: slices(items, url, 20))

    def text(n: int) -> str:
        board = BOARD % (f"TW-{n}", "TWB-1", "A")
        return entry(f"Repair {n:03}", equipment=board, date=f"2026-{1 + n % 12:02}-{1 + n % 28:02}")

    root = base_with({f"e-{n:03}": text(n) for n in range(60)})
    small = make_site(Base(root)).files
    for n in range(60, 180):
        (root / "entries" / "dehumidifier" / f"e-{n:03}.yaml").write_text(text(n), encoding="utf-8")
    large = make_site(Base(root)).files
    for url in ("index.html", "e/e-030.html", "c/dehumidifier.html", "m/tarnwick-tw30.html", "classes.html"):
        assert len(large[url]) < 1.1 * len(small[url]), url
    assert "c/dehumidifier.9.html" in large
    assert "c/dehumidifier.9.html" not in small


def test_a_new_entry_changes_few_other_entry_pages(base_with: Callable[..., Path]) -> None:
    def text(n: int) -> str:
        return entry(f"Repair {n:03}", date=f"20{10 + n % 15}-{1 + n % 12:02}-{1 + n % 28:02}")

    root = base_with({f"e-{n:03}": text(n) for n in range(80)})
    before = make_site(Base(root)).files
    (root / "entries" / "dehumidifier" / "e-new.yaml").write_text(text(81), encoding="utf-8")
    after = make_site(Base(root)).files
    changed = [url for url in before if url.startswith("e/") and before[url] != after[url]]
    assert len(changed) <= 12


def test_related_entries_prefer_board_then_cause_then_symptoms(base_with: Callable[..., Path]) -> None:
    own = BOARD % ("TW-1", "TWB-1", "A")
    other = "{class: dehumidifier, model: ZZ-9}"
    unlike = "{component_class: relay, failure_mode: contacts-welded}"
    root = base_with(
        {
            "mine": entry("Mine", equipment=own),
            "symptom-only": entry("Symptom", equipment=other, root_cause=unlike),
            "same-cause": entry("Cause", equipment=other, symptoms="[{term: hum}]"),
            "same-board": entry(
                "Board", equipment=own.replace("TW-1", "TW-7"), root_cause=unlike, symptoms="[{term: hum}]"
            ),
            "nothing": entry("Nothing", equipment=other, root_cause=unlike, symptoms="[{term: hum}]"),
        }
    )
    page = read_html(make_site(Base(root)).files["e/mine.html"].decode())
    told = [(li.one("a").text, li.one("p", class_="soft").text) for li in related(page)]
    assert told == [("Board", "same board, TWB-1"), ("Cause", "same cause"), ("Symptom", "fan does not turn")]


def related(page: Element) -> list[Element]:
    return page.one("section", class_="related").all("li")


def test_dead_links_of_hand_written_pages_are_told(base_with: Callable[..., Path]) -> None:
    root = base_with({"one": entry()})
    (root / "site_config" / "pages" / "more.md").write_text(
        "# More\n\n[fine](e/one.html) [gone](e/two.html) [out](https://elsewhere.example/)\n", encoding="utf-8"
    )
    assert make_site(Base(root)).warnings == ("more.html links to e/two.html, which is not there",)
