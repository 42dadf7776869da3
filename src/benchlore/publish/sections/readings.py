"""Readings: what it should be, before and after, the drawn limits, and the computed verdict in words."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

from benchlore.answer.conformity import limits_of
from benchlore.answer.verdict import Verdict, verdict
from benchlore.publish.drawings.scale import limit_scale
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import capital, inside, unbroken
from benchlore.quantity.format import format_quantity
from benchlore.quantity.model import Quantity
from benchlore.read.entry import FaultEntry, Measurement
from benchlore.read.shop import Instrument

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
    words, good = _verdict(m, site.shop.instruments.get(m.instrument or ""))
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
        where=unbroken(capital(m.point)),
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
    return unbroken(quantity.text if _PLAIN.fullmatch(quantity.text) else format_quantity(quantity))


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


def _verdict(m: Measurement, instrument: Instrument | None) -> tuple[str, bool | None]:
    """``was too low, now within limits``, and whether the last reading is within."""
    if m.expected is None:
        return "", None
    judged = [_judge(m.expected, reading, m.quantity, instrument) for reading in (m.before, m.after) if reading]
    if not judged:
        return "", None
    good = {"within": True, "outside": False}.get(judged[-1].word)
    told = [_words(m.expected, one) for one in judged]
    if len(told) == 1:
        return told[0], good
    return (f"{told[0]} before and after" if told[0] == told[1] else f"was {told[0]}, now {told[1]}"), good


def _judge(expected: Quantity, reading: Quantity, kind: str, instrument: Instrument | None) -> Verdict:
    """The verdict, with the meter's own uncertainty where the shop's configuration gives it."""
    spread = instrument.uncertainty(kind, reading.value) if instrument and reading.value is not None else None
    return verdict(expected, reading, uncertainty=spread or 0.0)


def _words(expected: Quantity, judged: Verdict) -> str:
    if judged.word == "within":
        return "within limits"
    if judged.word == "outside":
        return {"low": "too low", "high": "too high"}.get(judged.side or "", "outside the limits")
    return "too near a limit to tell" if limits_of(expected) else "not to be told without limits"
