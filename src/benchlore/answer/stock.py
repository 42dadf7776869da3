"""What parts to keep: those that repairs used more than once and that are cheap, and how many of each."""

from __future__ import annotations

import datetime as dt
import statistics
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from benchlore.answer.poisson_stock import Service, least_stock, service
from benchlore.quantity.format import format_value
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.read.entry import FaultEntry, Part
from benchlore.terms.fold import compact
from benchlore.terms.model import ComponentClass, Rating
from benchlore.terms.vocabulary import Vocabulary

Plan = Literal["keep", "special-order"]
YEAR_DAYS = 365.25
LEAST_DAYS = 91
"""A base that covers less time is counted as if it covered a quarter of a year: too little to tell a rate from."""
_IDENTITY = frozenset({"equal", "within", "same-or-higher-class"})
"""Directions of ratings that make it another part; by the others, the best one used serves all."""


@dataclass(frozen=True, slots=True)
class Policy:
    """``lead_days`` until an order arrives; ``service`` is the least P(D ≤ S) wanted; a part is cheap up to ``dear``
    in the shop's currency (or without a known price), and common from ``common`` repairs on."""

    lead_days: float = 14
    service: float = 0.95
    dear: Decimal = Decimal(20)
    common: int = 2


@dataclass(frozen=True, slots=True)
class StockLine:
    """One part: its kind, what tells it from others of that kind, the best of its other ratings, and its use.

    ``per_year`` counts pieces; ``mean`` is the number of repairs expected to need it until an order arrives, ``batch``
    the most pieces that one repair took, ``keep`` the pieces to keep (0 for a special order) and ``because`` why.
    ``price`` is the median of the known ones.
    """

    component_class: str
    name: str
    identity: Mapping[str, str]
    best: Mapping[str, str]
    slugs: tuple[str, ...]
    pieces: int
    per_year: float
    price: Decimal | None
    plan: Plan
    keep: int
    batch: int
    mean: float
    service: Service | None
    because: str


@dataclass(frozen=True, slots=True)
class StockList:
    """The list, what to keep first; ``years`` is the time that the entries cover, ``left_out`` counts the parts fitted
    that cannot be told from others (no ratings and no type)."""

    lines: tuple[StockLine, ...]
    years: float
    policy: Policy
    left_out: int


def stock_list(
    entries: Iterable[tuple[str, FaultEntry]], vocabulary: Vocabulary, currency: str, policy: Policy | None = None
) -> StockList:
    """The stock list of a base's entries (slug, entry): Poisson demand at the rate seen, one order's lead time.

    Parts are the same when their kind and every rating that makes a difference in kind agree; tolerances do not tell
    them apart. Only parts that were fitted count.
    """
    policy = policy or Policy()
    used: dict[tuple[str, ...], list[tuple[str, Part]]] = {}
    days: list[dt.date] = []
    left_out = 0
    for slug, entry in entries:
        days.append(entry.date)
        for part in entry.parts:
            if part.use != "fitted":
                continue
            key = _key(part, vocabulary)
            if key is None:
                left_out += 1
            else:
                used.setdefault(key, []).append((slug, part))
    covered = max((max(days) - min(days)).days if days else 0, LEAST_DAYS)
    years = covered / YEAR_DAYS
    lines = [_line(uses, years, vocabulary, currency, policy) for uses in used.values()]
    lines.sort(key=lambda line: (line.plan != "keep", -len(line.slugs), -line.pieces, line.component_class, line.name))
    return StockList(tuple(lines), years, policy, left_out)


def _key(part: Part, vocabulary: Vocabulary) -> tuple[str, ...] | None:
    """What tells a part from others, folded; None when nothing does."""
    identity = _identity(part, vocabulary)
    if part.component_class and identity:
        return (part.component_class, *(f"{name}={value}" for name, (value, _) in sorted(identity.items())))
    return (part.component_class or "", compact(part.type)) if part.type and compact(part.type) else None


def _identity(part: Part, vocabulary: Vocabulary) -> dict[str, tuple[str, str]]:
    """Rating id to its value, folded for comparing and as it is shown."""
    kind = vocabulary.get_as(ComponentClass, part.component_class)
    found = {}
    for name, written in part.ratings.items():
        rule = kind.ratings.get(name) if kind else None
        if rule is not None and rule.compare in _IDENTITY:
            value = _value(name, written, vocabulary)
            shown = format_value(*value) if value else written
            found[name] = (compact(shown) if not value else shown, shown)
    return found


def _value(name: str, written: str, vocabulary: Vocabulary) -> tuple[float, str] | None:
    term = vocabulary.get_as(Rating, name)
    try:
        quantity = parse(written, unit=term.unit) if term and term.unit else None
    except QuantityError:
        return None
    if quantity is None or quantity.value is None or quantity.unit is None:
        return None
    return quantity.value, quantity.unit


def _line(
    uses: Sequence[tuple[str, Part]], years: float, vocabulary: Vocabulary, currency: str, policy: Policy
) -> StockLine:
    part = uses[0][1]
    kind = part.component_class or ""
    identity = _identity(part, vocabulary)
    slugs = tuple(dict.fromkeys(slug for slug, _ in uses))
    pieces = sum(p.quantity for _, p in uses)
    batch = max(sum(p.quantity for s, p in uses if s == slug) for slug in slugs)
    prices = [
        p.unit_price.amount for _, p in uses if p.unit_price and (p.unit_price.currency or currency) == currency
    ]
    price = statistics.median(prices) if prices else None
    mean = len(slugs) / years * policy.lead_days / YEAR_DAYS
    label = vocabulary.label("component", kind) if kind else "Part"
    told = [_told(name, shown, vocabulary) for name, (_, shown) in identity.items()]
    name = ", ".join([label, *told]) if told else f"{label}, {part.type}"
    plan: Plan = "keep"
    if len(slugs) < policy.common:
        plan, because = "special-order", "used once so far" if len(slugs) == 1 else "too rarely used"
    elif price is not None and price > policy.dear:
        plan, because = "special-order", "dear: order it with the repair"
    else:
        because = f"used in {len(slugs)} repairs"
    level = max(1, least_stock(mean, policy.service)) if plan == "keep" else 0
    return StockLine(
        component_class=kind,
        name=name,
        identity={rating: shown for rating, (_, shown) in identity.items()},
        best=_best([p for _, p in uses], vocabulary),
        slugs=slugs,
        pieces=pieces,
        per_year=pieces / years,
        price=price,
        plan=plan,
        keep=level * batch,
        batch=batch,
        mean=mean,
        service=service(mean, level) if level else None,
        because=because,
    )


def _told(rating: str, shown: str, vocabulary: Vocabulary) -> str:
    """A rating as part of a name: words that say little by themselves come with the rating's own name."""
    says_it = any(c.isdigit() for c in shown) and not shown.isdigit()
    if says_it or rating in {"polarity", "package", "size"}:
        return shown
    return f"{_small(vocabulary.label('rating', rating))} {shown}"


def demands(line: StockLine, vocabulary: Vocabulary) -> str:
    """The other ratings that the part has to have at least, in words; empty when none is known."""
    return ", ".join(f"{_small(vocabulary.label('rating', name))} {value}" for name, value in line.best.items())


def _small(label: str) -> str:
    return label[:1].lower() + label[1:] if label[1:2].islower() else label


def _best(parts: Sequence[Part], vocabulary: Vocabulary) -> dict[str, str]:
    """The other ratings as the most demanding of these repairs had them: one part of that kind serves them all."""
    kind = vocabulary.get_as(ComponentClass, parts[0].component_class)
    best: dict[str, tuple[float, str]] = {}
    for part in parts:
        for name, written in part.ratings.items():
            rule = kind.ratings.get(name) if kind else None
            value = _value(name, written, vocabulary)
            if rule is None or value is None or rule.compare not in {"at-least", "at-most"}:
                continue
            sign = 1 if rule.compare == "at-least" else -1
            if name not in best or sign * value[0] > sign * best[name][0]:
                best[name] = (value[0], written)
    return {name: written for name, (_, written) in best.items()}
