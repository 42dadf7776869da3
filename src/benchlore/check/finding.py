"""What lint found: a finding as it is reported, and the observation of a rule before it is stamped and located."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "note"]
Scope = Literal["entry", "collection"]
Path = tuple[str | int, ...]
"""A place in an entry: keys as they are written in the file, and list positions from 0."""

SEVERITIES: tuple[Severity, ...] = ("error", "warning", "note")
"""Worst first. Error: wrong or unsafe for the reader. Warning: probably wrong, or incomplete. Note: style."""


@dataclass(frozen=True, slots=True)
class Observation:
    """What a rule saw, and where: ``path`` in the entry, or a range of characters (``offset``..``end``) in its text.

    ``on_key`` points at the key instead of its value; ``excerpt`` is the part of a long text that is meant. ``file``
    names another file than the one looked at (for collection rules, relative to the base, with ``/``). The runner adds
    code, severity and position. ``instead`` is what has to stand there, where only one thing can.
    """

    path: Path
    message: str
    hint: str = ""
    on_key: bool = False
    file: str | None = None
    excerpt: str = ""
    offset: int | None = None
    end: int | None = None
    instead: str | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding. Lines and columns count from 1; ``end_column`` is one past the last character.

    ``text`` is the whole first line of the place, as it stands in the file (empty when there is no such line).
    ``file`` is relative to the base, with ``/``. ``path`` is the place in the entry, for ignores and for editors.
    ``instead`` is what has to stand there, where only one thing can.
    """

    code: str
    name: str
    severity: Severity
    file: str
    line: int
    column: int
    end_line: int
    end_column: int
    message: str
    hint: str
    text: str
    path: Path = ()
    instead: str | None = None
