"""A knowledge base on disk: what is found, what is refused, and that nothing outside it is read."""

from __future__ import annotations

import hashlib
import os
import socket
import time
from pathlib import Path

import pytest

from benchlore.read.base import Base, BaseNotFound, Source
from benchlore.read.yaml_nodes import LIMITS

SAMPLE = Path(__file__).parents[1] / "sample_base"
ENTRY = """\
format: 1
title: Dead
outcome: repaired
date: 2026-01-02
equipment: {class: dehumidifier, model: BW-12}
symptoms: [{term: no-power}]
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    base = tmp_path / "base"
    (base / "site_config").mkdir(parents=True)
    (base / "site_config" / "shop.yaml").write_text("name: Bench\n")
    (base / "entries" / "dehumidifier").mkdir(parents=True)
    return base


def put(root: Path, rel: str, text: str | bytes = ENTRY) -> Path:
    path = root / "entries" / rel
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def only(root: Path) -> Source:
    (source,) = Base(root).sources()
    return source


def kinds(source: Source) -> list[str]:
    return [problem.kind for problem in source.problems]


# The sample -----------------------------------------------------------------------------------------------------------


def test_the_sample_base_is_valid() -> None:
    base = Base(SAMPLE)
    assert [source.problems for source in base.sources()] == [()] * 6
    assert [record.slug for record in base.records()] == [
        "fc-9-dead", "qv-20-cuts-out", "s-90-nothing-wrong", "tw-12-display-dark", "tw-8-fan-stops", "vm-30-no-output",
    ]  # fmt: skip
    record = base.records()[0]
    path = SAMPLE / "entries" / "cordless-tool-charger" / "fc-9-dead.yaml"
    assert record.rel == "entries/cordless-tool-charger/fc-9-dead.yaml"
    assert record.digest == hashlib.sha256(path.read_bytes()).hexdigest()
    assert record.entry.title == "Dead: fuse and input varistor"


def test_the_terms_of_the_sample_base_are_in_the_vocabulary() -> None:
    from benchlore.check.leaves import leaves

    base = Base(SAMPLE)
    unknown = [
        (record.slug, leaf.path, leaf.value)
        for record in base.records()
        for leaf in leaves(record.entry)
        if leaf.term_kind and base.vocabulary.get(leaf.term_kind, leaf.value) is None
    ]
    assert unknown == []


def test_a_base_is_found_from_below() -> None:
    assert Base.find(SAMPLE / "entries" / "dehumidifier").root == SAMPLE.resolve()
    assert Base.find(SAMPLE).root == SAMPLE.resolve()


def test_no_base(tmp_path: Path) -> None:
    with pytest.raises(BaseNotFound, match=r"site_config/shop\.yaml") as caught:
        Base.find(tmp_path)
    assert "benchlore start" in caught.value.hint
    with pytest.raises(BaseNotFound):
        Base(tmp_path / "nowhere")


def test_a_base_without_entries(root: Path) -> None:
    (root / "entries" / "dehumidifier").rmdir()
    (root / "entries").rmdir()
    assert (Base(root).entry_paths(), Base(root).records()) == ([], [])


# Names and places -----------------------------------------------------------------------------------------------------


def test_paths_are_sorted_and_only_what_is_named_like_an_entry(root: Path) -> None:
    for rel in ("b/x-2.yaml", "a/x-10.yaml", "a/x-1.yaml", "a/c1.jpg", "a/notes.txt", "a/.x-3.yaml", ".git/x.yaml"):
        put(root, rel)
    base = Base(root)
    assert [path.relative_to(root).as_posix() for path in base.entry_paths()] == [
        "entries/a/x-1.yaml", "entries/a/x-10.yaml", "entries/b/x-2.yaml",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("rel", "hint"),
    [
        ("dehumidifier/BW 12.yaml", "bw-12.yaml"),
        ("dehumidifier/bw_12.yaml", "bw-12.yaml"),
        ("dehumidifier/x.yaml", "x.yaml"),
        ("dehumidifier/bw--12.yaml", "bw-12.yaml"),
        ("dehumidifier/bw-12.yml", "bw-12.yaml"),
        ("dehumidifier/BW-12.YAML", "bw-12.yaml"),
        ("bw-12.yaml", "equipment class"),
        ("dehumidifier/more/bw-12.yaml", "equipment class"),
        ("dehumidifier/ünder.yaml", "nder.yaml"),
        ("dehumidifier/" + "a" * 101 + ".yaml", "a" * 100),
    ],
)
def test_names_that_cannot_be_addresses(root: Path, rel: str, hint: str) -> None:
    put(root, rel)
    source = only(root)
    assert set(kinds(source)) == {"bad-file-name"}
    assert hint in " ".join(problem.hint for problem in source.problems)
    assert source.entry is None
    assert source.parsed is not None
    assert source.parsed.model is not None
    assert Base(root).records() == []


def test_a_name_that_cannot_be_printed(root: Path) -> None:
    folder = os.fsencode(root / "entries" / "dehumidifier")
    Path(os.fsdecode(folder + b"/\x1b[31m\xff-x.yaml")).write_text(ENTRY)
    source = only(root)
    assert source.rel.isprintable()
    assert source.slug.isprintable()
    for problem in source.problems:
        assert (problem.message + problem.hint).isprintable()


def test_the_first_of_two_files_with_a_slug_counts(root: Path) -> None:
    put(root, "b/bw-12.yaml", ENTRY.replace("Dead", "Second"))
    put(root, "a/bw-12.yaml", ENTRY.replace("Dead", "First"))
    assert [record.entry.title for record in Base(root).records()] == ["First"]
    put(root, "a/bw-12.yaml", "broken: [")
    assert [record.entry.title for record in Base(root).records()] == ["Second"]


# Hostile files --------------------------------------------------------------------------------------------------------


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_does_not_hang(root: Path) -> None:
    os.mkfifo(root / "entries" / "dehumidifier" / "bw-12.yaml")
    assert kinds(only(root)) == ["not-a-file"]


def test_a_socket(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root / "entries" / "dehumidifier")
    with socket.socket(socket.AF_UNIX) as server:
        server.bind("bw-12.yaml")
        assert kinds(only(root)) == ["not-a-file"]


def test_a_folder_named_like_an_entry(root: Path) -> None:
    (root / "entries" / "dehumidifier" / "bw-12.yaml").mkdir()
    assert kinds(only(root)) == ["not-a-file"]


def test_a_device_behind_a_link(root: Path) -> None:
    (root / "entries" / "dehumidifier" / "bw-12.yaml").symlink_to("/dev/zero")
    assert kinds(only(root)) == ["link-outside"]


def test_links_that_lead_outside_are_not_followed(root: Path) -> None:
    secret = root.parent / "secret.yaml"
    secret.write_text(ENTRY)
    folder = root / "entries" / "dehumidifier"
    (folder / "bw-12.yaml").symlink_to(secret)
    (folder / "bw-13.yaml").symlink_to("../../../secret.yaml")
    sources = list(Base(root).sources())
    assert [kinds(source) for source in sources] == [["link-outside"], ["link-outside"]]
    assert [source.text for source in sources] == [None, None]


def test_folders_behind_links_are_not_entered(root: Path) -> None:
    outside = root.parent / "outside"
    outside.mkdir()
    (outside / "bw-12.yaml").write_text(ENTRY)
    (root / "entries" / "vacuum").symlink_to(outside)
    (root / "entries" / "loop").symlink_to(root / "entries")
    assert Base(root).entry_paths() == []


def test_a_link_inside_the_base_is_read(root: Path) -> None:
    path = put(root, "dehumidifier/bw-12.yaml")
    (path.parent / "bw-13.yaml").symlink_to("bw-12.yaml")
    assert [record.slug for record in Base(root).records()] == ["bw-12", "bw-13"]


def test_links_that_lead_nowhere_or_in_a_circle(root: Path) -> None:
    folder = root / "entries" / "dehumidifier"
    (folder / "bw-12.yaml").symlink_to("gone.yaml")
    (folder / "bw-13.yaml").symlink_to("bw-13.yaml")
    assert [kinds(source) for source in Base(root).sources()] == [["unreadable-file"], ["unreadable-file"]]


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_without_permission(root: Path) -> None:
    put(root, "dehumidifier/bw-12.yaml").chmod(0)
    assert kinds(only(root)) == ["unreadable-file"]


def test_a_path_that_is_not_there(root: Path) -> None:
    assert kinds(Base(root).read(Path("entries/dehumidifier/bw-12.yaml"))) == ["unreadable-file"]


def test_a_file_outside_may_be_named(root: Path) -> None:
    """A contribution that is not in the base yet; its name and place mean nothing."""
    path = root.parent / "Draft of mine.yaml"
    path.write_text(ENTRY)
    source = Base(root).read(path)
    assert (source.problems, source.rel) == ((), path.as_posix())
    assert source.entry is not None
    assert Base(root).read(root / "entries" / ".." / ".." / path.name).entry == source.entry


def test_a_file_that_is_too_large(root: Path) -> None:
    put(root, "dehumidifier/bw-12.yaml", b"#" * (LIMITS.size + 1))
    source = only(root)
    assert kinds(source) == ["too-large"]
    assert source.text is None


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (ENTRY.encode("utf-16"), "UTF-16"),
        (ENTRY.replace("Dead", "Größe").encode("latin-1"), "line 2"),
        (b"\xff\xfe", "UTF-16"),
        (b"a: \xed\xa0\x80\n", "line 1"),
        (b"a: \xc0\xaf\n", "line 1"),
    ],
)
def test_only_utf_8_is_text(root: Path, content: bytes, words: str) -> None:
    put(root, "dehumidifier/bw-12.yaml", content)
    source = only(root)
    assert kinds(source) == ["not-utf8"]
    assert words in source.problems[0].message
    assert source.digest == hashlib.sha256(content).hexdigest()


def test_a_byte_order_mark_and_other_line_ends_are_welcome(root: Path) -> None:
    put(root, "dehumidifier/bw-12.yaml", b"\xef\xbb\xbf" + ENTRY.replace("\n", "\r\n").encode())
    assert [record.slug for record in Base(root).records()] == ["bw-12"]


def test_deep_folders_are_not_searched_for_ever(root: Path) -> None:
    put(root, "a/" * 40 + "bw-12.yaml")
    assert Base(root).entry_paths() == []


# Reading again --------------------------------------------------------------------------------------------------------


def test_a_file_is_read_again_only_when_it_changed(root: Path) -> None:
    path = put(root, "dehumidifier/bw-12.yaml")
    base = Base(root)
    time.sleep(0.06)
    first = base.read(path)
    assert base.read(path) is first
    assert base.read(Path("entries/dehumidifier/bw-12.yaml")) is first
    path.write_text(ENTRY.replace("Dead", "Hums"))
    second = base.read(path)
    assert second.entry is not None
    assert second.entry.title == "Hums"
    path.unlink()
    assert kinds(base.read(path)) == ["unreadable-file"]


def test_two_changes_in_the_same_moment_are_both_seen(root: Path) -> None:
    path = put(root, "dehumidifier/bw-12.yaml")
    base = Base(root)
    for title in ("One1", "Two2", "Thr3"):
        path.write_text(ENTRY.replace("Dead", title))
        os.utime(path, ns=(10**18, 10**18))
        entry = base.read(path).entry
        assert entry is not None
        assert entry.title == title


def test_a_change_behind_a_link_is_seen(root: Path) -> None:
    path = put(root, "dehumidifier/bw-12.yaml")
    link = path.parent / "bw-13.yaml"
    link.symlink_to("bw-12.yaml")
    base = Base(root)
    base.read(link)
    path.write_text(ENTRY.replace("Dead", "Hums"))
    entry = base.read(link).entry
    assert entry is not None
    assert entry.title == "Hums"
