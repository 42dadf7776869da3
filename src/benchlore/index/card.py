"""What a hit shows of an entry, as plain values: kept in the index, so that no entry is read to show it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Card:
    """What a hit shows, as plain values. ``minutes`` is attended bench time; ``cause`` and ``failure`` are labels."""

    title: str
    equipment: str
    class_: str
    cause: str
    failure: str
    outcome: str
    stopped_because: str
    minutes: float | None
    cost: str
    holding: str
    date: str
