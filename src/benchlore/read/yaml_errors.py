"""The parser's complaint in a technician's words: what stands there, and how to write it instead."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import yaml

from benchlore.read.problem import SHOWN, Problem, in_quotes


@dataclass(frozen=True, slots=True)
class _Complaint:
    """What the parser said, where, and the line it said it about.

    ``context`` is where the thing began that went wrong. ``line`` starts at ``line_start``; ``value`` is what stands
    on it after its key or dash, without a comment, and starts at ``value_start`` (both are of the whole text).
    """

    text: str
    said: str
    offset: int
    context: int
    line_start: int
    line: str
    value_start: int
    value: str

    @property
    def at(self) -> str:
        """The character complained about; empty at the end of the text."""
        return self.text[self.offset : self.offset + 1]

    def problem(self, kind: str, message: str, hint: str, start: int, end: int) -> Problem:
        """A problem from ``start`` to ``end`` of the text."""
        return Problem(kind, (), message, hint, min(start, len(self.text)), min(end, len(self.text)))


def explain(error: yaml.YAMLError, text: str) -> Problem:
    """One problem for ``error``, at the place a person would look at."""
    if isinstance(error, yaml.reader.ReaderError):
        offset = min(error.position, max(len(text) - 1, 0))
        return Problem("control-character", (), "a character here cannot be read", "Delete it.", offset, offset + 1)
    complaint = _complaint(error, text)
    for explanation in _EXPLANATIONS:
        if problem := explanation(complaint):
            return problem
    message = f"this is not YAML ({' '.join(complaint.said.split())})"
    hint = "Check the indentation, and put values with special characters in quotes."
    return complaint.problem("yaml-syntax", message, hint, complaint.offset, complaint.offset + 1)


_KEY = re.compile(r"""[ \t]*(?:[-?][ ]+)*(?:(?:[\w-]+|"[^"]*"|'[^']*')[ ]*:[ \t]+)?""")
"""What precedes a value on its line: dashes, and a key with its colon."""
_VALUE = re.compile(r"\S(?:.*?\S)?(?=\s*(?:\s#.*)?$)")


def _complaint(error: yaml.YAMLError, text: str) -> _Complaint:
    context: Any = getattr(error, "context_mark", None)
    mark: Any = getattr(error, "problem_mark", None) or context
    offset = min(mark.index, len(text)) if mark else 0
    start = text.rfind("\n", 0, offset) + 1
    end = text.find("\n", offset)
    line = text[start : end if end >= 0 else len(text)].rstrip("\r")
    key = _KEY.match(line)
    value = _VALUE.match(line, key.end() if key else 0)
    return _Complaint(
        text,
        f"{getattr(error, 'context', None) or ''} {getattr(error, 'problem', None) or ''}",
        offset,
        min(context.index, len(text)) if context else offset,
        start,
        line,
        start + (value.start() if value else len(line)),
        value[0] if value else "",
    )


def _tab(c: _Complaint) -> Problem | None:
    tab = re.match(r" *\t", c.line)
    if c.at != "\t" and "tab" not in c.said:
        return None
    start = c.line_start + tab.end() - 1 if tab else c.offset
    message = "a tab stands at the start of this line" if tab else "a tab stands here"
    hint = "Indent with spaces, two for each level." if tab else "Use a space instead."
    return c.problem("tab-indentation", message, hint, start, start + 1)


def _too_deep(c: _Complaint) -> Problem | None:
    if "nesting depth" not in c.said:
        return None
    hint = "An entry needs far fewer levels; check the brackets."
    return c.problem("too-deep", "brackets are nested far too deep here", hint, c.context, c.context + 1)


def _second_document(c: _Complaint) -> Problem | None:
    if "another document" not in c.said and not ("document" in c.said and re.search(r"(?m)^\.\.\.", c.text)):
        return None
    hint = "Give each repair a file of its own, without lines of --- or ... in it."
    return c.problem("several-documents", "a second YAML document starts here", hint, c.offset, c.offset + 3)


def _directive(c: _Complaint) -> Problem | None:
    if not c.line.startswith("%") or "cannot start" in c.said:
        return None
    return c.problem("yaml-syntax", "a line cannot start with %", "Leave the line out.", c.line_start, c.line_start + 1)


def _unclosed_quote(c: _Complaint) -> Problem | None:
    if "quoted scalar" not in c.said or "end of stream" not in c.said:
        return None
    message = "a quotation mark is opened here and never closed"
    return c.problem("unclosed-quote", message, "Close it, or leave both out.", c.context, c.context + 1)


def _escape(c: _Complaint) -> Problem | None:
    start = c.text.rfind("\\", c.line_start, c.offset + 1)
    if start < 0 or not re.search(r"escape (?:character|code|sequence)|hexdecimal", c.said):
        return None
    message = "a backslash in double quotes starts an escape, and this one means nothing"
    return c.problem("yaml-syntax", message, "Use single quotes, or write two backslashes.", start, start + 2)


def _missing_space(c: _Complaint) -> Problem | None:
    """``key:value``, which is one word to YAML; the parser only notices on the next line."""
    if "mapping values are not allowed" not in c.said and "could not find expected ':'" not in c.said:
        return None
    for start in (c.line_start, c.text.rfind("\n", 0, max(c.line_start - 1, 0)) + 1):
        line = c.text[start:].split("\n", 1)[0]
        if match := re.match(r"[ ]*(?:- +)*([\w-]+):([^\s:/].*)", line):
            hint = f"Write it with a space: {match[1][:SHOWN]}: {match[2].strip()[:SHOWN]}"
            at = start + match.end(1)
            return c.problem("yaml-syntax", "there is no space after the colon", hint, at, at + 1)
    return None


def _second_colon(c: _Complaint) -> Problem | None:
    if "mapping values are not allowed" in c.said and c.value_start < c.offset:
        hint = f"Put the whole value in quotes: {in_quotes(c.value)}"
        end = c.value_start + len(c.value)
        return c.problem("second-colon", "there is a second colon in an unquoted value", hint, c.value_start, end)
    opened = max(c.text.rfind(mark, c.line_start, c.offset) for mark in "{[,")
    if _FLOW.search(c.said) and c.at == ":" and opened >= 0 and ": " in c.text[opened : c.offset]:
        start = c.text.index(": ", opened) + 2
        value = re.split(r"[,\]}\n]", c.text[start:], maxsplit=1)[0].strip()
        hint = f"Put the whole value in quotes: {in_quotes(value)}"
        message = "there is a second colon in an unquoted value"
        return c.problem("second-colon", message, hint, start, start + len(value))
    return None


_FLOW = re.compile(r"expected ',' or '")
_BLOCK = re.compile(r"expected key|expected <block end>|expected '-' indicator|expected '?<document start>")


def _after_quote(c: _Complaint) -> Problem | None:
    message = "text goes on after the closing quotation mark"
    if c.at and _FLOW.search(c.said) and re.search(r"[\"']\s*$", c.text[c.line_start : c.offset]):
        start = max(c.text.rfind(mark, c.line_start, c.offset - 1) for mark in "{[,:") + 1
        value = re.split(r"[,\]}\n]", c.text[start:], maxsplit=1)[0]
        start += len(value) - len(value.lstrip())
        return c.problem("text-after-quote", message, _other_quotes(value.strip()), start, start + len(value.strip()))
    if _BLOCK.search(c.said) and c.value[:1] in ("'", '"') and c.value_start < c.offset:
        end = c.value_start + len(c.value)
        return c.problem("text-after-quote", message, _other_quotes(c.value), c.value_start, end)
    return None


def _other_quotes(value: str) -> str:
    for mark in "'\"":
        if mark not in value and len(value) <= 2 * SHOWN:
            return f"Put the whole value in quotes: {mark}{value}{mark}"
    return "Leave the quotation marks inside out, or write the text on lines of its own below a |."


def _unclosed_bracket(c: _Complaint) -> Problem | None:
    if not _FLOW.search(c.said) and "flow node" not in c.said:
        return None
    at_end = not c.text[c.offset :].strip()
    if c.line_start <= c.context and not at_end:
        if c.at in ("]", "}"):
            message = f"this {c.at} closes nothing that is open, or closes it with a value missing"
            return c.problem("yaml-syntax", message, "Check the brackets before it.", c.offset, c.offset + 1)
        return None
    opened = max(c.text.rfind("[", 0, c.context + 1), c.text.rfind("{", 0, c.context + 1), 0)
    closing = "]" if c.text[opened : opened + 1] == "[" else "}"
    message = f"a {c.text[opened : opened + 1]} is opened here and never closed"
    hint = f"Close it with {closing}, or put the value in quotes if it is text."
    return c.problem("yaml-syntax", message, hint, opened, opened + 1)


def _bad_start(c: _Complaint) -> Problem | None:
    """A value that starts with a character YAML keeps for itself."""
    if not re.search("cannot start|expected|not allowed", c.said):
        return None
    if c.value and c.value[0] in ">|&*!%@`-?,]}" and c.value_start <= c.offset:
        start, written = c.value_start, c.value
    elif c.at and c.at in "%@`>|":
        start, written = c.offset, re.split(r"[,\]}\n]", c.text[c.offset :], maxsplit=1)[0].strip()
    else:
        return None
    message = f"an unquoted value cannot start with {written[0]}"
    return c.problem("unquoted-start", message, f"Put it in quotes: {in_quotes(written)}", start, start + len(written))


def _no_colon(c: _Complaint) -> Problem | None:
    if "could not find expected ':'" not in c.said:
        return None
    written = c.text[c.context :].split("\n", 1)[0].rstrip()
    message = "this line is no key with a value, no item of a list, and no longer part of the text above"
    hint = "Write key: value; or indent the line further if the text above goes on."
    return c.problem("yaml-syntax", message, hint, c.context, c.context + len(written))


def _indentation(c: _Complaint) -> Problem | None:
    first = c.line_start + len(c.line) - len(c.line.lstrip())
    if "mapping values are not allowed" in c.said:
        message = "this line cannot be a key here: the line above has a value already, or is text that goes on"
        hint = "Indent it like the keys it belongs with; or put the text above in quotes."
    elif _BLOCK.search(c.said):
        message = "the indentation of this line fits nothing above it"
        hint = "Keys that belong together start in the same column; so do the dashes of a list."
    else:
        return None
    return c.problem("yaml-syntax", message, hint, first, c.line_start + len(c.line.rstrip()))


_EXPLANATIONS: tuple[Callable[[_Complaint], Problem | None], ...] = (
    _tab,
    _too_deep,
    _second_document,
    _directive,
    _unclosed_quote,
    _escape,
    _missing_space,
    _second_colon,
    _after_quote,
    _unclosed_bracket,
    _bad_start,
    _no_colon,
    _indentation,
)
"""In this order: the more particular first."""
