"""Paths and problems to lines, columns and text."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlore.read.problem import Problem
from benchlore.read.span import SHOWN, Lines, locate

ENTRY = (Path(__file__).parent / "entry.yaml").read_text(encoding="utf-8")
TITLE = "Compressor relay chatters and the display dims; dropper capacitor had lost its value"


@pytest.mark.parametrize(
    ("path", "place", "text"),
    [
        (("title",), "3:8-3:92", TITLE),
        (("outcome",), "4:10-4:18", "repaired"),
        (("equipment", "boards", 0, "marking"), "17:16-17:22", "BWC-02"),
        (("equipment", "boards", 0), "17:7-19:47", ENTRY.splitlines()[16][6:]),
        (("symptoms", 0, "brought_on_by", 0), "33:21-33:25", "load"),
        (("symptoms", 0, "brought_on_by"), "33:20-33:26", "[load]"),
        (("tests", 3, "outcome"), "49:106-49:112", "normal"),
        (("measurements", 1, "expected"), "65:15-65:25", "1 µF ±10 %"),
        (("also_found",), "78:13-78:15", "[]"),
        (("parts", 0, "original", "ratings", "ac-voltage"), "95:38-95:46", "275 V ac"),
        (("notes",), "116:8-117:23", "|"),
    ],
)  # fmt: skip
def test_values(path: tuple[str | int, ...], place: str, text: str) -> None:
    (span,) = locate(ENTRY, [path], "e.yaml")
    assert f"{span.line}:{span.column}-{span.end_line}:{span.end_column}" == place
    assert (span.file, span.text) == ("e.yaml", text[:SHOWN])


@pytest.mark.parametrize(
    ("path", "text"),
    [
        (("title",), "title"),
        (("equipment", "boards", 0, "marking"), "marking"),
        (("parts", 0, "ratings", "pitch"), "pitch"),
        (("tests", 3, "outcome"), "outcome"),
    ],
)
def test_keys(path: tuple[str | int, ...], text: str) -> None:
    (span,) = locate(ENTRY, [Problem("x", path, "", on_key=True)])
    assert span.text == text
    line = ENTRY.splitlines()[span.line - 1]
    assert line[span.column - 1 : span.end_column - 1] == text


@pytest.mark.parametrize(
    ("path", "text"),
    [
        (("equipment", "weight"), "equipment"),
        (("equipment", "boards", 7, "marking"), "boards"),
        (("tests", 1, "component"), "test"),
        (("nowhere",), "format"),
        ((), "format"),
        (("title", "deeper"), "title"),
        (("root_cause", 3), "root_cause"),
    ],
)
def test_a_path_that_leads_nowhere_gets_the_nearest_key(path: tuple[str | int, ...], text: str) -> None:
    (span,) = locate(ENTRY, [path])
    assert span.text.startswith(text)


def test_an_empty_value_is_shown_by_its_key() -> None:
    (span,) = locate("a: 1\nb:\nc: 2\n", [("b",)])
    assert (span.line, span.column, span.text) == (2, 1, "b")


def test_the_end_of_a_block_is_the_end_of_its_last_value() -> None:
    text = "a:\n  b: 1 # one\n\n  # two\nc: 3\nd:\n- e: 4\n  f:\n\n# end\n"
    a, d = locate(text, [("a",), ("d",)])
    assert (a.line, a.end_line, a.end_column) == (2, 2, 7)
    assert (d.line, d.end_line, d.end_column) == (7, 8, 4)


def test_columns_count_characters() -> None:
    text = "a: {µΩ: 1, 🔧🔧: [x, naïve]}\n"
    (span,) = locate(text, [("a", "🔧🔧", 1)])
    assert (span.column, span.end_column, span.text) == (20, 25, "naïve")


def test_other_line_ends_and_a_byte_order_mark() -> None:
    a, c = locate("\ufeffa: 1\r\nb:\r\n  c: 22\r\n", [("a",), ("b", "c")])
    assert (a.line, a.column) == (1, 4)
    assert (c.line, c.column, c.end_column, c.text) == (3, 6, 8, "22")


def test_a_text_that_cannot_be_composed() -> None:
    a, b = locate("a: [", [("a",), Problem("x", (), "", offset=3, end=4)])
    assert (a.line, a.column) == (1, 1)
    assert (b.line, b.column, b.text) == (1, 4, "[")


def test_a_long_text_is_cut() -> None:
    (span,) = locate("a: " + "x" * 500, [("a",)])
    assert len(span.text) == SHOWN
    assert span.end_column == 504


@given(text=st.text(alphabet=st.sampled_from("ab\n\r\ufeffµ")), offset=st.integers(-3, 40))
def test_lines_agree_with_counting(text: str, offset: int) -> None:
    line, column = Lines(text).at(offset)
    before = text[: max(0, min(offset, len(text)))]
    assert line == before.count("\n") + 1
    mark = line == 1 and text.startswith("\ufeff") and len(before) > 0
    assert column == len(before) - (before.rfind("\n") + 1) + 1 - mark
