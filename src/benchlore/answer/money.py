"""What a repair cost, whether one is worth starting, and what to pay for a dead unit."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from benchlore.read.entry import FaultEntry, Part

_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class RepairCost:
    """What one repair cost, in the shop's currency.

    ``labour`` is None without minutes; ``parts`` counts what was fitted, and ``unpriced`` the fitted parts whose price
    is not written down or in another currency: the cost is at least this.
    """

    minutes: float | None
    labour: Decimal | None
    parts: Decimal
    unpriced: int

    @property
    def total(self) -> Decimal | None:
        """Labour and parts; None without minutes."""
        return None if self.labour is None else self.labour + self.parts


def repair_cost(entry: FaultEntry, labour_rate: Decimal, currency: str) -> RepairCost:
    """The cost of a repair: attended minutes at ``labour_rate`` an hour, and the parts that were fitted."""
    minutes = entry.minutes_spent
    labour = None if minutes is None else _cents(labour_rate * Decimal(str(minutes)) / 60)
    prices = [price_of(part, currency) for part in entry.parts if part.use == "fitted"]
    priced = [price for price in prices if price is not None]
    return RepairCost(minutes, labour, sum(priced, Decimal(0)), len(prices) - len(priced))


def price_of(part: Part, currency: str) -> Decimal | None:
    """Price times number of a part, in the shop's currency; None when not known in it."""
    price = part.unit_price
    if price is None or (price.currency or currency) != currency:
        return None
    return price.amount * part.quantity


@dataclass(frozen=True, slots=True)
class Chance:
    """What is to be decided on, in money of one currency.

    ``value`` is what the unit is worth working, ``scrap`` what it is worth dead (0 when it costs nothing to be rid of);
    ``success`` the chance that the repair works, ``cost`` what it costs when it does and ``cost_if_not`` when it does
    not (mostly the time for looking). ``comebacks`` is the chance that a mended one returns, at ``comeback_cost``.
    """

    value: float
    cost: float
    success: float
    cost_if_not: float
    scrap: float = 0.0
    comebacks: float = 0.0
    comeback_cost: float = 0.0

    def __post_init__(self) -> None:
        if not (0 <= self.success <= 1 and 0 <= self.comebacks <= 1):
            raise ValueError("a chance lies between 0 and 1")
        if min(self.value, self.cost, self.cost_if_not, self.comeback_cost) < 0:
            raise ValueError("values and costs are not negative")


@dataclass(frozen=True, slots=True)
class Worth:
    """``gain`` is what starting the repair brings on the average over leaving it; ``break_even`` the least chance of
    success at which it is worth starting (None when no chance is enough); ``most_for_dead`` the most to pay for such a
    unit dead, nothing earned and nothing lost on the average."""

    gain: float
    worth_it: bool
    break_even: float | None
    most_for_dead: float


def worth_repairing(chance: Chance) -> Worth:
    """Whether a repair is worth starting: expected value against leaving the unit dead.

    Gain = p·(value - cost - r·comeback cost) + (1 - p)·(scrap - cost if not) - scrap. The most to pay for a dead unit
    is the same without the last term, and never below nothing.
    """
    mended = chance.value - chance.cost - chance.comebacks * chance.comeback_cost
    lost = chance.scrap - chance.cost_if_not
    expected = chance.success * mended + (1 - chance.success) * lost
    gain = expected - chance.scrap
    break_even = None
    if mended > chance.scrap:
        break_even = max(0.0, (chance.scrap - lost) / (mended - lost))
    return Worth(gain, gain > 0, break_even, max(0.0, expected))


def _cents(amount: Decimal) -> Decimal:
    return amount.quantize(_CENT, ROUND_HALF_UP)
