"""Mends that several rules share: another value in a place, a value put in quotes."""

from __future__ import annotations

from yaml.nodes import MappingNode, ScalarNode

from benchlore.check.finding import Observation, Path
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page, quoted


def replacement(page: Page, seen: Observation, value: str, *, sure: bool = True) -> Mend | None:
    """``value`` in the place of what was seen; None where no scalar on one line stands there."""
    edits = page.replaced(seen.path, value, on_key=seen.on_key)
    if not edits:
        return None
    return Mend(f"{page.text[edits[0].start : edits[0].end]} → {edits[0].text}", edits, sure)


def in_quotes(page: Page, seen: Observation, *, sure: bool = True) -> Mend | None:
    """The stretch of text that was seen, which must be one bare value on one line, put in quotes."""
    if seen.offset is None or seen.end is None:
        return None
    value = page.text[seen.offset : seen.end]
    if not value.strip() or "\n" in value or "\r" in value:
        return None
    return Mend("in quotes", (Edit(seen.offset, seen.end, quoted(value)),), sure)


def whole_value(page: Page, path: Path) -> Mend | None:
    """Inside { }: the value that a comma cut off, put in quotes together with the pieces read as keys after it."""
    way = page.way(path[:-1])
    holder = way[-1][1]
    if len(way) != len(path) or not isinstance(holder, MappingNode) or not holder.flow_style:
        return None
    names = [key.value for key, _ in holder.value]
    if names.count(path[-1]) != 1:
        return None
    first = last = names.index(path[-1])
    while first >= 0 and _is_bare_word(holder, first):
        first -= 1
    while last + 1 < len(names) and _is_bare_word(holder, last + 1):
        last += 1
    value = holder.value[first][1] if first >= 0 else None
    if not isinstance(value, ScalarNode) or value.style in ("|", ">"):
        return None
    start, end = value.start_mark.index, holder.value[last][0].end_mark.index
    text = page.text[start:end]
    if "\n" in text or "\r" in text:
        return None
    if value.style:
        stop = value.end_mark.index - start
        text = value.value + text[stop:]
    return Mend("the whole value in quotes", (Edit(start, end, quoted(text)),))


def _is_bare_word(holder: MappingNode, index: int) -> bool:
    """Whether the pair is a key without colon and value."""
    key, value = holder.value[index]
    return not key.style and value.start_mark.index == value.end_mark.index
