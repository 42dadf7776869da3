"""The shop's figures from its entries: repairs, success, time, cost and comebacks, with intervals."""

from __future__ import annotations

import datetime as dt
import statistics
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchlore.answer.intervals import Interval, wilson
from benchlore.answer.money import repair_cost
from benchlore.read.entry import FaultEntry

_BACK = frozenset({"same-fault", "our-work"})
_WORKED_ON = frozenset({"repaired", "partly-repaired", "not-repaired"})


@dataclass(frozen=True, slots=True)
class Share:
    """``hits`` out of ``total``, with the 95 % Wilson interval."""

    hits: int
    total: int

    @property
    def interval(self) -> Interval:
        """The 95 % interval of the share; 0 to 1 when nothing was counted."""
        return wilson(self.hits, self.total)

    @property
    def value(self) -> float | None:
        """The share itself; None when nothing was counted."""
        return self.hits / self.total if self.total else None


@dataclass(frozen=True, slots=True)
class Figures:
    """Figures of some entries. Money is in the shop's currency; medians are None where nothing is known.

    ``success`` is of the units that had a fault; ``comebacks`` of the repairs of which there is later word (a
    follow-up, or a verification that says it came back): those back with the same fault or through our own work.
    ``parts_median`` is over repairs that fitted parts with known prices; ``unpriced`` counts fitted parts without one.
    """

    entries: int
    first: dt.date | None
    last: dt.date | None
    outcomes: dict[str, int]
    success: Share
    comebacks: Share
    minutes_known: int
    minutes_total: float
    minutes_median: float | None
    minutes_ninth_tenth: float | None
    labour_total: Decimal
    parts_total: Decimal
    parts_median: Decimal | None
    cost_median: Decimal | None
    unpriced: int


def figures(entries: Iterable[FaultEntry], labour_rate: Decimal, currency: str) -> Figures:
    """The figures of the entries given; ``labour_rate`` is money for an hour."""
    found = list(entries)
    costs = [repair_cost(entry, labour_rate, currency) for entry in found]
    minutes = sorted(cost.minutes for cost in costs if cost.minutes is not None)
    outcomes = Counter(entry.outcome for entry in found)
    faulty = [entry for entry in found if entry.outcome in _WORKED_ON]
    dates = [entry.date for entry in found]
    with_parts = [cost.parts for cost in costs if cost.parts]
    totals = [total for cost in costs if (total := cost.total) is not None]
    return Figures(
        entries=len(found),
        first=min(dates, default=None),
        last=max(dates, default=None),
        outcomes=dict(sorted(outcomes.items())),
        success=Share(outcomes["repaired"], len(faulty)),
        comebacks=_comebacks(found),
        minutes_known=len(minutes),
        minutes_total=sum(minutes),
        minutes_median=statistics.median(minutes) if minutes else None,
        minutes_ninth_tenth=ninth_tenth(minutes),
        labour_total=_sum([cost.labour for cost in costs]),
        parts_total=_sum([cost.parts for cost in costs]),
        parts_median=statistics.median(with_parts) if with_parts else None,
        cost_median=statistics.median(totals) if totals else None,
        unpriced=sum(cost.unpriced for cost in costs),
    )


def came_back(entry: FaultEntry) -> bool | None:
    """Whether a repair came back, through the same fault or our own work; None without later word of it."""
    told_back = entry.verification is not None and entry.verification.result == "came-back"
    if told_back or any(later.result in _BACK for later in entry.follow_up):
        return True
    return False if entry.follow_up else None


def ninth_tenth(ordered: Sequence[float]) -> float | None:
    """The value that nine tenths stay within, between neighbours in proportion (linear interpolation, type 7)."""
    if not ordered:
        return None
    place = 0.9 * (len(ordered) - 1)
    low = int(place)
    high = min(low + 1, len(ordered) - 1)
    return ordered[low] + (place - low) * (ordered[high] - ordered[low])


def _comebacks(entries: Iterable[FaultEntry]) -> Share:
    told = [came_back(e) for e in entries if e.outcome in {"repaired", "partly-repaired"}]
    known = [back for back in told if back is not None]
    return Share(sum(known), len(known))


def _sum(amounts: Iterable[Decimal | None]) -> Decimal:
    return sum((amount for amount in amounts if amount is not None), Decimal(0))


