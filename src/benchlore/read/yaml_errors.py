"""The parser's complaint in a technician's words: what stands there, and how to write it instead."""

from __future__ import annotations

import re
from typing import Any

import yaml

from benchlore.read.problem import Problem

_KEY = re.compile(r"""^[ \t]*(?:- +)*[\w-]+ *:[ \t]+|^[ \t]*(?:- +)+""")
"""What precedes a value on its line."""


def explain(error: yaml.YAMLError, text: str) -> Problem:
    """One problem for ``error``, at the place a person would look at."""
    if isinstance(error, yaml.reader.ReaderError):
        offset = min(error.position, max(len(text) - 1, 0))
        return Problem("control-character", (), "a character here cannot be read", "Delete it.", offset, offset + 1)
    mark: Any = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    offset = min(mark.index if mark else 0, len(text))
    said = f"{getattr(error, 'context', None) or ''} {getattr(error, 'problem', None) or ''}"
    before, line, value = _line_at(text, offset)
    column = offset - before

    if re.match(r"[ ]*\t", line) and "cannot start any token" in said:
        start = before + line.index("\t")
        message = "a tab stands at the start of this line"
        return Problem("tab-indentation", (), message, "Indent with spaces, two for each level.", start, start + 1)
    if "another document" in said:
        message = "a second YAML document starts here"
        return Problem("several-documents", (), message, "Give each repair a file of its own.", offset, offset + 3)
    if "mapping values are not allowed" in said and value and 0 <= value.start() < column:
        start = before + value.start()
        hint = f"Put the whole value in quotes: {_quoted(value[0])}"
        return Problem("second-colon", (), "a second colon in an unquoted value", hint, start, before + value.end())
    if "quoted scalar" in said and "end of stream" in said:
        context: Any = getattr(error, "context_mark", None)
        start = context.index if context else offset
        message = "a quotation mark is opened here and never closed"
        return Problem("unclosed-quote", (), message, "Close it, or leave both out.", start, start + 1)
    if value and value[0][0] in "\"'" and "did not find expected" in said and value.start() < column:
        start, end = before + value.start(), before + value.end()
        other = "'" if value[0][0] == '"' else '"'
        hint = "Put the whole value in quotes, of the other kind."
        if other not in value[0]:
            hint = f"Put the whole value in the other kind of quotes: {other}{value[0]}{other}"
        return Problem("text-after-quote", (), "text goes on after the closing quotation mark", hint, start, end)
    starts = _bad_start(text, offset, value, before, said)
    if starts:
        return starts
    message = f"this is not YAML: {_plainly(said)}"
    hint = "Check the indentation, and put values with special characters in quotes."
    return Problem("yaml-syntax", (), message, hint, min(offset, len(text)), min(offset + 1, len(text)))


def _bad_start(text: str, offset: int, value: re.Match[str] | None, before: int, said: str) -> Problem | None:
    """A value that starts with a character YAML keeps for itself."""
    start, written = offset, text[offset : offset + 1]
    if value and value[0][0] in ">|&*!%@`-?,]}" and value.start() <= offset - before:
        start, written = before + value.start(), value[0]
    elif written and written in "%@`>|":
        written = re.split(r"[,\]}\n]", text[offset:], maxsplit=1)[0].strip()
    else:
        return None
    if not written or not any(words in said for words in ("cannot start", "expected", "not allowed")):
        return None
    message = f"an unquoted value cannot start with {written[0]}"
    return Problem("unquoted-start", (), message, f"Put it in quotes: {_quoted(written)}", start, start + len(written))


def _line_at(text: str, offset: int) -> tuple[int, str, re.Match[str] | None]:
    """Offset and text of the line at ``offset``, and the value on it (without key and trailing comment)."""
    before = text.rfind("\n", 0, offset) + 1
    after = text.find("\n", offset)
    line = text[before : after if after >= 0 else len(text)].rstrip("\r")
    key = _KEY.match(line)
    value = re.compile(r"\S(?:.*?\S)?(?=\s*(?:\s#.*)?$)").match(line, key.end()) if key else None
    return before, line, value


def _quoted(written: str) -> str:
    """``written`` as a YAML string on one line."""
    if '"' not in written and "\\" not in written:
        return f'"{written}"'
    return "'" + written.replace("'", "''") + "'"


def _plainly(said: str) -> str:
    """The parser's own words, for what has no better ones."""
    return " ".join(said.split()) or "it cannot be parsed"
