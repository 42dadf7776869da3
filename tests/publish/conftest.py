"""Sites to look at: the sample base published once, and a maker of small bases."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from benchlore.publish.writer import PublishResult, publish
from benchlore.read.base import Base

SAMPLE = Path(__file__).parents[1] / "sample_base"
REPOSITORY = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def published(tmp_path_factory: pytest.TempPathFactory) -> PublishResult:
    """The sample base, published."""
    return publish(Base(SAMPLE), tmp_path_factory.mktemp("sample") / "site")


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> PublishResult:
    """The demo base that comes with Benchlore, published."""
    return publish(Base(REPOSITORY), tmp_path_factory.mktemp("demo") / "site")


@pytest.fixture(scope="session")
def relay(tmp_path_factory: pytest.TempPathFactory) -> PublishResult:
    """Three entries of sisters on one board, one of them with every section, published."""
    root = tmp_path_factory.mktemp("relay")
    shutil.copytree(SAMPLE / "site_config", root / "site_config")
    shutil.copytree(Path(__file__).parent / "entries", root / "entries" / "dehumidifier")
    return publish(Base(root), root / "site")


@pytest.fixture
def base_with(tmp_path: Path) -> Callable[..., Path]:
    """Makes a base of the sample's settings with the entries given as slug to YAML text; hands back its root."""

    def make(entries: dict[str, str], shop: str = "") -> Path:
        root = tmp_path / "base"
        shutil.copytree(SAMPLE / "site_config", root / "site_config")
        settings = root / "site_config" / "shop.yaml"
        kept = [line for line in settings.read_text(encoding="utf-8").splitlines() if not line.startswith("site_url")]
        settings.write_text("\n".join([*kept, shop]), encoding="utf-8")
        folder = root / "entries" / "dehumidifier"
        folder.mkdir(parents=True)
        for slug, text in entries.items():
            (folder / f"{slug}.yaml").write_text(text, encoding="utf-8")
        return root

    return make


def entry(title: str = "Fan stops", **more: str) -> str:
    """A small valid entry; ``more`` adds or replaces top-level keys, each given as YAML."""
    keys = {
        "format": "1",
        "title": f'"{title}"',
        "outcome": "repaired",
        "date": "2026-01-05",
        "equipment": "{class: dehumidifier, maker: Tarnwick, model: TW-8}",
        "symptoms": "[{term: fan-stopped}]",
        "root_cause": "{component_class: solder-joint, failure_mode: cracked}",
        "fix": "{actions: [{do: resolder}]}",
        "minutes": "30",
        **more,
    }
    return "".join(f"{key}: {value}\n" for key, value in keys.items())
