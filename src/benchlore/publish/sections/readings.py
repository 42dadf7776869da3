"""Readings: what it should be, before and after, the drawn limits, and the computed verdict in words."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

from benchlore.answer.verdict import verdict
from benchlore.publish.drawings.scale import limit_scale
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import inside, unbroken
from benchlore.quantity.format import format_quantity
from benchlore.quantity.model import Quantity
from benchlore.read.entry import FaultEntry, Measurement

SOURCES = {
    "document": "from a document",
    "good-unit": "from a good unit",
    "good-channel": "from the good channel",
    "calculated": "calculated",
    "new-part": "from a new part",
    "marking": "as marked",
    "guess": "a guess",
}


_PLAIN = re.compile(r"\d+(?:\.\d+)? [pnµkM]?(?:V|A|Ω|F|H|Hz|W)(?: ±\d+(?:\.\d+)? %)?")


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One row of the table; ``verdict`` is computed, ``scale`` is None where nothing can be drawn."""

    where: str
    detail: str
    expected: str
    source: str
    before: str
    after: str
    scale: Markup | None
    verdict: str
    good: bool | None
    """Whether the last reading is within limits; None where that cannot be told."""


def readings(entry: FaultEntry, site: SiteData) -> tuple[ReadingRow, ...]:
    """The readings of an entry in the order written."""
    return tuple(_row(m, site) for m in entry.measurements)


def _row(m: Measurement, site: SiteData) -> ReadingRow:
    expected = shown(m.expected)
    before, after = shown(m.before), shown(m.after)
    words, good = _verdict(m)
    label = "; ".join(
        part
        for part in (
            f"Limits {expected}" if expected else "",
            f"before {before}" if before else "",
            f"after {after}" if after else "",
            words,
        )
        if part
    )
    return ReadingRow(
        where=unbroken(m.point),
        detail=_detail(m, site),
        expected=expected,
        source=SOURCES.get(m.expected_from or "", ""),
        before=before,
        after=after,
        scale=limit_scale(m.expected, m.before, m.after, label=label),
        verdict=words,
        good=good,
    )


def shown(quantity: Quantity | None) -> str:
    """A quantity as the site writes it; empty for none. What is already a number with its unit stays as written."""
    if quantity is None:
        return ""
    return unbroken(quantity.text) if _PLAIN.fullmatch(quantity.text) else format_quantity(quantity)


def _detail(m: Measurement, site: SiteData) -> str:
    parts = [inside(site.label("quantity", m.quantity))]
    if m.to:
        parts.append(f"against {m.to}")
    if m.condition:
        parts.append(m.condition)
    if m.in_circuit is not None:
        parts.append("in circuit" if m.in_circuit else "out of circuit")
    if m.note:
        parts.append(m.note)
    return unbroken("; ".join(parts))


def _verdict(m: Measurement) -> tuple[str, bool | None]:
    """``was low; now within limits``, and whether the last reading is within."""
    if m.expected is None:
        return "", None
    was = _words(m.expected, m.before)
    now = _words(m.expected, m.after)
    last = verdict(m.expected, m.after or m.before).word if m.after or m.before else ""
    good = {"within": True, "outside": False}.get(last)
    if was and now:
        return (f"{was} before and after" if was == now else f"was {was}, now {now}"), good
    return was or now, good


def _words(expected: Quantity, reading: Quantity | None) -> str:
    if reading is None:
        return ""
    judged = verdict(expected, reading)
    if judged.word == "within":
        return "within limits"
    if judged.word == "outside":
        return {"low": "too low", "high": "too high"}.get(judged.side or "", "outside the limits")
    return "not to be told"
