"""What a repository cannot hold, made in a temporary folder: unreadable files, links, bytes that are not text."""

from __future__ import annotations

import os
import struct
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.check.finding import Finding
from benchlore.check.photo_position import has_position
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


def exif(position: bool, order: str = "<") -> bytes:
    """Exif data, by hand: a directory with the software's name and, asked for, a pointer to a GPS directory."""
    field = order + "HHII"
    fields = [struct.pack(field, 0x0131, 2, 4, 0)]
    gps = struct.pack(order + "H", 1) + struct.pack(field, 0x0002, 5, 3, 200) + struct.pack(order + "I", 0)
    if position:
        fields.append(struct.pack(field, 0x8825, 4, 1, 8 + 2 + 2 * 12 + 4))
    directory = struct.pack(order + "H", len(fields)) + b"".join(fields) + struct.pack(order + "I", 0)
    start = {"<": b"II*\0", ">": b"MM\0*"}[order] + struct.pack(order + "I", 8)
    return start + directory + (gps if position else b"")


def jpeg(tiff: bytes) -> bytes:
    """The start of a JPEG file with Exif data in its first segment."""
    segment = b"Exif\0\0" + tiff
    return b"\xff\xd8\xff\xe1" + struct.pack(">H", len(segment) + 2) + segment + b"\xff\xda" + bytes(100)


@pytest.mark.parametrize(
    ("content", "tells"),
    [
        (jpeg(exif(True)), True),
        (jpeg(exif(True, ">")), True),
        (jpeg(exif(False)), False),
        (b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 60) + b"eXIf" + exif(True), True),
        (b"RIFF" + bytes(4) + b"WEBPEXIF" + bytes(4) + exif(True), True),
        (b"\xff\xd8 <exif:GPSLatitude>59,54N</exif:GPSLatitude>", True),
        (jpeg(exif(True))[:40], False),
        (b"picture", False),
        (b"", False),
    ],
)
def test_a_photo_that_tells_where_it_was_taken(base: Base, content: bytes, tells: bool) -> None:
    (base.root / NAME).with_name("c1.jpg").write_bytes(content)
    (base.root / NAME).write_text(MINIMAL + "photos: [{file: c1.jpg, shows: fault, of: C1}]\n", encoding="utf-8")
    found = [(finding.name, finding.column) for finding in lint_all(base).findings]
    assert found == ([("photo-with-position", 17)] if tells else [])


def test_a_photo_with_a_position_written_by_a_library(base: Base) -> None:
    pictures = pytest.importorskip("PIL.Image")
    photo = (base.root / NAME).with_name("c1.jpg")
    picture, data = pictures.new("RGB", (8, 8)), pictures.Exif()
    data.get_ifd(0x8825)[2] = (59.0, 54.0, 0.0)
    picture.save(photo, exif=data)
    (base.root / NAME).write_text(MINIMAL + "photos: [{file: c1.jpg, shows: fault, of: C1}]\n", encoding="utf-8")
    assert only(lint_all(base)).name == "photo-with-position"
    picture.save(photo)
    assert lint_all(Base(base.root)).findings == ()


@given(st.binary(max_size=300))
def test_any_bytes_can_be_looked_at_for_a_position(content: bytes) -> None:
    has_position(b"Exif\0\0II*\0" + content)
    has_position(content)


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
