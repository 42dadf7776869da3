"""The causes an entry names, and the reference designators in its texts."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchlore.check.finding import Path
from benchlore.read.entry import Cause, FaultEntry
from benchlore.terms.model import ComponentClass
from benchlore.terms.vocabulary import Vocabulary

_DESIGNATOR = re.compile(r"\b([A-Z]{1,5})(\d{1,4})([A-Za-z]?)\b")


def causes_of(entry: FaultEntry) -> Iterator[tuple[Path, Cause]]:
    """The root cause, then everything also found, each with its place."""
    if entry.root_cause:
        yield ("root_cause",), entry.root_cause
    for index, found in enumerate(entry.also_found):
        yield ("also_found", index), found


def is_outside(cause: Cause, vocabulary: Vocabulary) -> bool:
    """Whether the cause lies outside the unit (how it was used, what it was connected to)."""
    kind = vocabulary.get_as(ComponentClass, cause.component_class)
    return cause.block == "outside-the-unit" or (kind is not None and kind.family == "outside")


def designator_letters(text: str | None) -> str | None:
    """The class letters of a text that is one reference designator (``C`` of ``C1``), else None."""
    match = _DESIGNATOR.fullmatch((text or "").strip())
    return match[1] if match else None


def designators_in(text: str) -> set[str]:
    """All reference designators that stand in a running text."""
    return {match[0] for match in _DESIGNATOR.finditer(text)}
