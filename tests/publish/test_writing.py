"""Writing the site: changed bytes only, stale files away, nothing of anybody else touched."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from benchlore.errors import BenchloreError
from benchlore.publish import sync as syncing
from benchlore.publish.sync import MANIFEST, NotOurs, sync
from benchlore.publish.writer import make_site, publish
from benchlore.read.base import Base
from tests.publish.conftest import SAMPLE, entry
from tests.publish.reading import read_page


def snapshot(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        path.relative_to(folder).as_posix(): (path.read_bytes(), path.stat().st_mtime_ns)
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_publishing_again_writes_nothing(tmp_path: Path) -> None:
    first = publish(Base(SAMPLE), tmp_path / "site")
    before = snapshot(first.out)
    again = publish(Base(SAMPLE), tmp_path / "site")
    assert again.written == again.removed == ()
    assert again.unchanged == len(first.written)
    assert snapshot(first.out) == before


def test_the_same_entries_give_the_same_bytes_whatever_was_there_before(
    base_with: Callable[..., Path], tmp_path: Path
) -> None:
    root = base_with({"a-one": entry("One"), "b-two": entry("Two")})
    publish(Base(root), tmp_path / "grown")
    third = root / "entries" / "dehumidifier" / "c-three.yaml"
    third.write_text(entry("Three", date="2026-02-01"), encoding="utf-8")
    (root / "entries" / "dehumidifier" / "a-one.yaml").unlink()
    publish(Base(root), tmp_path / "grown")
    publish(Base(root), tmp_path / "fresh")
    grown, fresh = snapshot(tmp_path / "grown"), snapshot(tmp_path / "fresh")
    assert {k: v[0] for k, v in grown.items()} == {k: v[0] for k, v in fresh.items()}


def test_pages_of_what_is_gone_are_removed(base_with: Callable[..., Path], tmp_path: Path) -> None:
    board = "{class: dehumidifier, model: TW-9, boards: [{marking: XB-1}]}"
    root = base_with({"a-one": entry("One", equipment=board), "b-two": entry("Two")})
    out = tmp_path / "site"
    publish(Base(root), out)
    assert (out / "b" / "xb1.html").is_file()
    (out / "mine.txt").write_text("mine", encoding="utf-8")
    (root / "entries" / "dehumidifier" / "a-one.yaml").unlink()
    result = publish(Base(root), out)
    assert {"e/a-one.html", "b/xb1.html", "m/tw9.html"} <= set(result.removed)
    assert not (out / "b").exists(), "an empty folder of ours goes with its last file"
    assert (out / "mine.txt").read_text(encoding="utf-8") == "mine"
    assert "One" not in (out / "index.html").read_text(encoding="utf-8")


def test_a_folder_of_somebody_else_is_refused_and_left_alone(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    (out / "thesis.txt").write_text("years of work", encoding="utf-8")
    with pytest.raises(NotOurs, match="did not write") as refused:
        publish(Base(SAMPLE), out)
    assert "--out" in refused.value.hint
    assert [path.name for path in out.iterdir()] == ["thesis.txt"]


def test_a_file_in_the_way_is_not_overwritten(tmp_path: Path) -> None:
    out = tmp_path / "site"
    sync({"a.html": b"a"}, out)
    (out / "b.html").write_text("not yours", encoding="utf-8")
    with pytest.raises(NotOurs, match=r"b\.html is in the way"):
        sync({"a.html": b"changed", "b.html": b"b"}, out)
    assert (out / "b.html").read_text(encoding="utf-8") == "not yours"
    assert (out / "a.html").read_bytes() == b"a"


@pytest.mark.parametrize(
    "files", [{"../outside.txt": ""}, {"/etc/passwd": ""}, {"a/../../b": ""}, {".git/config": ""}, {"a": 1}, [], "x"]
)
def test_a_manifest_cannot_make_us_remove_other_files(files: object, tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    outside = tmp_path / "outside.txt"
    outside.write_text("keep", encoding="utf-8")
    (out / MANIFEST).write_text(json.dumps({"format": 1, "files": files}), encoding="utf-8")
    with pytest.raises(NotOurs):
        sync({"a.html": b"a"}, out)
    assert outside.read_text(encoding="utf-8") == "keep"


def test_after_a_crash_the_next_run_knows_every_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "site"
    sync({"a.html": b"a", "old.html": b"old"}, out)
    write = syncing._write

    def full_disk(target: Path, content: bytes) -> None:
        if target.name == "c.html":
            raise OSError("no space left")
        write(target, content)

    monkeypatch.setattr(syncing, "_write", full_disk)
    with pytest.raises(OSError, match="no space"):
        sync({"a.html": b"a", "b.html": b"b", "c.html": b"c"}, out)
    monkeypatch.undo()
    result = sync({"a.html": b"a"}, out)
    assert set(result.removed) == {"b.html", "old.html"}
    assert sorted(path.name for path in out.iterdir()) == ["a.html", MANIFEST]


def test_a_file_is_never_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "site"
    sync({"a.html": b"whole"}, out)

    def crash(*args: object) -> None:
        raise OSError("crash")

    monkeypatch.setattr(Path, "replace", crash)
    with pytest.raises(OSError, match="crash"):
        sync({"a.html": b"other"}, out)
    monkeypatch.undo()
    assert (out / "a.html").read_bytes() == b"whole"
    assert not [path for path in out.iterdir() if path.name.startswith(".benchlore-")]


def test_invalid_entries_are_left_out_and_counted(base_with: Callable[..., Path], tmp_path: Path) -> None:
    root = base_with({"good-one": entry(), "bad-one": "format: 1\ntitle: [\n"})
    result = publish(Base(root), tmp_path / "site")
    assert (result.entries, result.left_out) == (1, 1)
    assert not (tmp_path / "site" / "e" / "bad-one.html").exists()


def test_an_empty_base_makes_a_site_too(base_with: Callable[..., Path], tmp_path: Path) -> None:
    result = publish(Base(base_with({})), tmp_path / "site")
    assert result.entries == 0
    assert "Nothing is written up yet" in read_page(tmp_path / "site" / "index.html").text


def test_where_the_site_is_served_it_says_its_address(base_with: Callable[..., Path], tmp_path: Path) -> None:
    root = base_with({"a-one": entry()}, shop="site_url: https://bench.example/repairs\n")
    publish(Base(root), tmp_path / "site")
    page = read_page(tmp_path / "site" / "e" / "a-one.html")
    canonical = [link.attributes["href"] for link in page.all("link") if link.attributes["rel"] == "canonical"]
    assert canonical == ["https://bench.example/repairs/e/a-one.html"]
    sitemap = (tmp_path / "site" / "sitemap.xml").read_text(encoding="utf-8")
    assert "<loc>https://bench.example/repairs/e/a-one.html</loc><lastmod>2026-01-05</lastmod>" in sitemap
    assert "404.html" not in sitemap
    lost = read_page(tmp_path / "site" / "404.html")
    assert {a.attributes["href"] for a in lost.one("main").all("a")} == {
        f"/repairs/{name}.html" for name in ("classes", "symptoms", "boards")
    }, "a host shows this page at any depth"


def test_hand_written_pages_stand_in_our_frame(base_with: Callable[..., Path], tmp_path: Path) -> None:
    root = base_with({"a-one": entry()})
    (root / "site_config" / "pages" / "opening-hours.md").write_text(
        "---\ntitle: Opening hours\n---\n# When we are there\n\nOn *Tuesdays*.\n", encoding="utf-8"
    )
    publish(Base(root), tmp_path / "site")
    page = read_page(tmp_path / "site" / "opening-hours.html")
    assert page.one("h1").text == "When we are there"
    assert page.one("em").text == "Tuesdays"
    links = {
        a.text: a.attributes["href"]
        for a in read_page(tmp_path / "site" / "e" / "a-one.html").one("footer", class_="foot").all("a")
    }
    assert links["Opening hours"] == "../opening-hours.html"


def test_the_cautions_page_always_lists_every_hazard(base_with: Callable[..., Path], tmp_path: Path) -> None:
    root = base_with({"a-one": entry()})
    (root / "site_config" / "pages" / "cautions.md").write_text("# Our rules\n\nAsk Priya.\n", encoding="utf-8")
    publish(Base(root), tmp_path / "site")
    page = read_page(tmp_path / "site" / "cautions.html")
    assert page.one("h1").text == "Our rules"
    for hazard in Base(root).vocabulary.terms("hazard"):
        text = page.one("section", id=hazard).text
        assert "Before you open it" in text and "When to stop" in text


def test_a_hand_written_page_cannot_take_the_place_of_a_made_one(
    base_with: Callable[..., Path], tmp_path: Path
) -> None:
    root = base_with({"a-one": entry()})
    (root / "site_config" / "pages" / "classes.md").write_text("# Mine\n", encoding="utf-8")
    with pytest.raises(BenchloreError, match=r"classes\.html"):
        publish(Base(root), tmp_path / "site")


def test_settings_that_mkdocs_refuses_are_explained(base_with: Callable[..., Path], tmp_path: Path) -> None:
    root = base_with({"a-one": entry()})
    settings = root / "site_config" / "mkdocs.yml"
    settings.write_text(
        "site_name: x\ndocs_dir: nowhere\ntheme: {name: benchlore}\nplugins: [benchlore]\n", encoding="utf-8"
    )
    with pytest.raises(BenchloreError, match="nowhere"):
        publish(Base(root), tmp_path / "site")
    settings.write_text("site_name: x\ndocs_dir: pages\ntheme: {name: benchlore}\nplugins: []\n", encoding="utf-8")
    with pytest.raises(BenchloreError, match="plugin") as refused:
        publish(Base(root), tmp_path / "site")
    assert "plugins: [benchlore]" in refused.value.hint


def test_a_base_without_its_own_pages_gets_ours(base_with: Callable[..., Path], tmp_path: Path) -> None:
    root = base_with({"a-one": entry()})
    (root / "site_config" / "mkdocs.yml").unlink()
    (root / "site_config" / "pages" / "about.md").unlink()
    made = make_site(Base(root))
    assert {"about.html", "contribute.html", "licence.html", "cautions.html"} <= set(made.pages)
