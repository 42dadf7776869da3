"""The shop figures page of the demo base, against plain counts of the raw files."""

from __future__ import annotations

import statistics
from pathlib import Path

import yaml

from benchlore.publish.writer import PublishResult
from tests.publish.reading import read_page

ENTRIES = Path(__file__).parents[2] / "entries"


def raw() -> list[dict]:
    return [yaml.load(p.read_text(encoding="utf-8"), Loader=yaml.BaseLoader) for p in sorted(ENTRIES.glob("*/*.yaml"))]


def test_figures_are_those_of_the_files(demo: PublishResult) -> None:
    entries = raw()
    text = read_page(demo.out / "figures.html").text
    faulty = [entry for entry in entries if entry["outcome"] != "no-fault-found"]
    repaired = sum(entry["outcome"] == "repaired" for entry in faulty)
    assert f"From {len(entries)} entries" in text
    assert f"{repaired} of {len(faulty)}, {100 * repaired / len(faulty):.0f} %" in text
    spent = [float(e["minutes"]) if "minutes" in e else sum(map(float, e["time"].values())) for e in entries]
    assert f"half take up to {round(statistics.median(spent))} min" in text


def test_each_kind_of_equipment_has_its_row(demo: PublishResult) -> None:
    page = read_page(demo.out / "figures.html")
    table = page.all("table")[0]
    rows = {row.all("th")[0].text: [cell.text for cell in row.all("td")] for row in table.all("tbody")[0].all("tr")}
    dehumidifiers = [entry for entry in raw() if entry["equipment"]["class"] == "dehumidifier"]
    worked = [entry for entry in dehumidifiers if entry["outcome"] != "no-fault-found"]
    repaired = sum(entry["outcome"] == "repaired" for entry in worked)
    assert rows["Dehumidifier"][:2] == [str(len(dehumidifiers)), f"{repaired} of {len(worked)}"]
    assert sum(int(cells[0]) for cells in rows.values()) == len(raw())


def test_the_measure_of_the_stock_list_is_named(demo: PublishResult) -> None:
    text = read_page(demo.out / "figures.html").text
    assert "X capacitor, 1 µF, X2, 27.5 mm" in text
    assert "P(D ≤ S), at least 95 %" in text
