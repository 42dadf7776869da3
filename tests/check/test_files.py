"""What a repository cannot hold, made in a temporary folder: unreadable files, links, bytes that are not text."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchlore.check.finding import Finding
from benchlore.check.runner import Report, lint
from benchlore.errors import BenchloreError
from benchlore.read.base import Base
from tests.check.examples import MINIMAL, TODAY, new_base

NAME = "entries/dehumidifier/broken-entry.yaml"


@pytest.fixture
def base(tmp_path: Path) -> Base:
    made = new_base(tmp_path / "base")
    (made.root / NAME).parent.mkdir()
    return made


def only(report: Report) -> Finding:
    (finding,) = report.findings
    return finding


def lint_all(base: Base) -> Report:
    return lint(base, today=TODAY)


def test_bytes_that_are_not_utf8(base: Base) -> None:
    (base.root / NAME).write_bytes(MINIMAL.replace("µ", "u").encode() + "notes: 1 µF\n".encode("latin-1"))
    finding = only(lint_all(base))
    assert (finding.name, finding.line, finding.column) == ("not-utf8", 1, 1)
    assert f"line {MINIMAL.count(chr(10)) + 1}" in finding.message


def test_utf16(base: Base) -> None:
    (base.root / NAME).write_bytes(MINIMAL.encode("utf-16"))
    assert only(lint_all(base)).name == "not-utf8"


def test_a_folder_named_like_an_entry(base: Base) -> None:
    (base.root / NAME).mkdir()
    assert only(lint_all(base)).name == "unreadable-file"


def test_a_pipe_does_not_hang(base: Base) -> None:
    os.mkfifo(base.root / NAME)
    assert only(lint_all(base)).name == "unreadable-file"


def test_a_link_out_of_the_base(base: Base, tmp_path: Path) -> None:
    (tmp_path / "secret.yaml").write_text(MINIMAL, encoding="utf-8")
    (base.root / NAME).symlink_to(tmp_path / "secret.yaml")
    finding = only(lint_all(base))
    assert finding.name == "link-outside"
    assert finding.text == ""


def test_a_link_out_of_the_base_named_on_the_command_line(base: Base, tmp_path: Path) -> None:
    (tmp_path / "secret.yaml").write_text(MINIMAL, encoding="utf-8")
    (base.root / NAME).symlink_to(tmp_path / "secret.yaml")
    assert only(lint(base, [base.root / NAME], today=TODAY)).name == "link-outside"


def test_a_link_that_leads_nowhere(base: Base) -> None:
    (base.root / NAME).symlink_to("nothing.yaml")
    assert only(lint_all(base)).name == "unreadable-file"


def test_a_photo_that_is_a_link(base: Base, tmp_path: Path) -> None:
    (tmp_path / "secret.jpg").write_bytes(b"picture")
    (base.root / NAME).with_name("c1.jpg").symlink_to(tmp_path / "secret.jpg")
    (base.root / NAME).write_text(MINIMAL + "photos: [{file: c1.jpg, shows: fault, of: C1}]\n", encoding="utf-8")
    finding = only(lint_all(base))
    assert (finding.name, finding.column) == ("photo-elsewhere", 17)


def test_a_file_too_large(base: Base) -> None:
    (base.root / NAME).write_text(MINIMAL + "notes: " + "x" * 300_000, encoding="utf-8")
    assert only(lint_all(base)).name == "file-too-large"


def test_more_problems_than_are_listed(base: Base) -> None:
    (base.root / NAME).write_text(MINIMAL + "".join(f"key_{n}: 1\n" for n in range(80)), encoding="utf-8")
    names = [finding.name for finding in lint_all(base).findings]
    assert names.count("too-many-problems") == 1
    assert set(names) == {"unknown-key", "too-many-problems"}


def test_another_suffix_and_another_depth(base: Base) -> None:
    deep = base.root / "entries/dehumidifier/old"
    deep.mkdir()
    (base.root / "entries/dehumidifier/short-suffix.yml").write_text(MINIMAL, encoding="utf-8")
    (deep / "too-deep.yaml").write_text(MINIMAL.replace("relay", "compressor relay"), encoding="utf-8")
    found = {(f.file, f.name) for f in lint_all(base).findings if f.name == "bad-file-name"}
    assert found == {
        ("entries/dehumidifier/short-suffix.yml", "bad-file-name"),
        ("entries/dehumidifier/old/too-deep.yaml", "bad-file-name"),
    }


def test_a_draft_outside_the_base_is_checked_against_it(base: Base, tmp_path: Path) -> None:
    draft = tmp_path / "My draft.yaml"
    draft.write_text(MINIMAL.replace("relay-chatter,", "relay-chater,"), encoding="utf-8")
    finding = only(lint(base, [draft], today=TODAY))
    assert (finding.name, finding.file) == ("unknown-term", draft.as_posix())


def test_a_folder_of_drafts(base: Base, tmp_path: Path) -> None:
    drafts = tmp_path / "drafts"
    drafts.mkdir()
    (drafts / "one.yaml").write_text(MINIMAL, encoding="utf-8")
    (drafts / "two.txt").write_text("no entry", encoding="utf-8")
    assert lint(base, [drafts], today=TODAY).files_checked == 1


def test_a_path_that_is_not_there(base: Base) -> None:
    with pytest.raises(BenchloreError, match="nowhere"):
        lint(base, [base.root / "nowhere.yaml"], today=TODAY)
