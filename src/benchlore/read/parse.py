"""Entry text to :class:`ParsedEntry`: the typed model, or what is wrong with it. Problems are values."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.read.build import build
from benchlore.read.entry import FaultEntry
from benchlore.read.problem import Problem
from benchlore.read.yaml_nodes import LIMITS, Limits, read_yaml


@dataclass(frozen=True, slots=True)
class ParsedEntry:
    """An entry as read. Either ``model`` is there, or there are problems, in the order of the text."""

    model: FaultEntry | None
    problems: tuple[Problem, ...] = ()


def parse_entry(text: str, limits: Limits = LIMITS) -> ParsedEntry:
    """Read one fault entry. Never raises for any text; bounded in time and memory by ``limits``."""
    read = read_yaml(text, limits)
    if read.problems:
        return ParsedEntry(None, read.problems)
    model, problems = build(FaultEntry, read, limits)
    return ParsedEntry(model, problems)
