"""Cautions on every entry of the demo base: each hazard has its text, is linked, and comes before the steps."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from benchlore import data
from benchlore.publish.writer import PublishResult, publish
from benchlore.read.base import Base
from tests.publish.conftest import entry
from tests.publish.reading import read_page

REPOSITORY = Path(__file__).parents[2]
VOCABULARY = data.folder("schema") / "vocabulary"


def raw(path: Path) -> dict:
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def hazards_of(found: dict) -> set[str]:
    """The hazards of an entry, of its class and of what was done, straight from the files."""
    class_id = found["equipment"]["class"]
    kind = raw(VOCABULARY / "classes" / f"{class_id}.yaml")[class_id]
    wanted = {*found.get("hazards", []), *kind.get("hazards", [])}
    for action in (found.get("fix") or {}).get("actions", []):
        wanted |= set(kind.get("hazards_by_action", {}).get(action["do"], []))
    return wanted


def test_every_hazard_of_every_entry_is_linked_to_its_text_before_the_steps(demo: PublishResult) -> None:
    page = read_page(demo.out / "cautions.html")
    texts = {section.attributes["id"]: section.text for section in page.all("section", class_="hazard")}
    for path in sorted((REPOSITORY / "entries").glob("*/*.yaml")):
        html = (demo.out / "e" / f"{path.stem}.html").read_text(encoding="utf-8")
        steps = html.find('id="fix"')
        for hazard in hazards_of(raw(path)):
            assert hazard in texts, f"{path.stem}: {hazard} has no text"
            at = html.find(f'href="../cautions.html#{hazard}"')
            assert at > 0, f"{path.stem}: {hazard} is not linked"
            assert steps < 0 or at < steps, f"{path.stem}: {hazard} comes after the steps"


def test_every_hazard_of_the_vocabulary_has_all_its_texts(demo: PublishResult) -> None:
    page = read_page(demo.out / "cautions.html")
    texts = {section.attributes["id"]: section.text for section in page.all("section", class_="hazard")}
    for path in sorted((VOCABULARY / "hazards").glob("*.yaml")):
        for hazard_id, hazard in raw(path).items():
            for part in ("caution", "why", "before_opening", "before_power", "stop_when"):
                assert " ".join(hazard[part].split()) in texts[hazard_id], (hazard_id, part)
    assert "Local codes and licensed practice come first" in page.text


def test_cautions_are_printed(demo: PublishResult) -> None:
    """Nothing of the caution box is among what the print style leaves out."""
    styles = (demo.out / "styles" / "site.css").read_text(encoding="utf-8")
    printed = styles[styles.index("@media print") :]
    hidden = [rule[0] for rule in re.findall(r"([^{}]+)\{([^{}]*)\}", printed) if "display: none" in rule[1]]
    assert hidden
    assert not [selector for selector in hidden if "caution" in selector]


KEPT = "[{component: C2, capacitance: 220 µF, voltage: 400 V, bleeder: 100 kΩ}]"


@pytest.fixture
def box(base_with: Callable[..., Path]) -> Callable[[str], str]:
    def make(stored_energy: str) -> str:
        root = base_with({"kept": entry(stored_energy=stored_energy)})
        result = publish(Base(root), root / "site")
        return read_page(result.out / "e" / "kept.html").one("section", class_="caution").text

    return make


def test_a_bulk_capacitor_shows_energy_times_and_a_resistor_to_buy(box: Callable[[str], str]) -> None:
    text = box(KEPT)
    # CV²/2 = 17.6 J; CV = 88 mC; RC·ln(400/60) = 22·1.8971 = 41.7 s; 22 kΩ: 4.84·1.8971 = 9.18 s, by hand
    assert "C2, 220 µF, holds 17.6 J (88 mC) at 400 V." in text
    assert "With the bleeder open it stays charged;" in text
    assert "with the 100 kΩ bleeder working it falls below 60 V in 42 s." in text
    assert "To discharge it: 22 kΩ 3 W metal oxide film, 500 V or more, insulated leads, for at least 9.2 s." in text
    assert "By calculation: measure it, proving the meter before and after." in text
    assert "safe" not in text.lower().replace("safety", "")


def test_the_mains_is_taken_at_its_highest(box: Callable[[str], str]) -> None:
    text = box("[{component: C1, capacitance: 1 µF, voltage: 230 V ac, bleeder: none}]")
    # 253 V·√2 = 357.8 V; 1 µF·357.8²/2 = 64.0 mJ
    assert "holds 64 mJ (358 µC) at 358 V, the peak of 253 V ac, the highest mains." in text
    assert "It has no bleeder: it stays charged." in text


def test_high_voltage_names_no_resistor(box: Callable[[str], str]) -> None:
    text = box("[{component: C1, capacitance: 1 µF, voltage: 2970 V, bleeder: 10 MΩ}]")
    assert "With the bleeder open it stays charged; with the 10 MΩ bleeder working it falls below 60 V in 39 s." in text
    assert "leave it to people equipped for it" in text
    assert "a resistor of" not in text
