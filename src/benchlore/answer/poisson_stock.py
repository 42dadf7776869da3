"""How many of a part to keep when demand comes at random: Poisson demand over the time until new ones arrive."""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchlore.answer.verification import poisson_at_most

MEASURE = "chance that the stock lasts until new ones arrive, P(D ≤ S)"
"""The measure of service that the stock list uses. There are others, and their figures differ."""


@dataclass(frozen=True, slots=True)
class Service:
    """Four measures of the service that ``stock`` gives at ``mean`` demand over the time of supply.

    ``no_stockout`` P(D ≤ S); ``filled`` the share of demand met in one such time, E[min(D, S)]/λ; ``base_stock_fill``
    P(D ≤ S - 1), met from the shelf when every use is ordered anew at once; ``backorders`` expected, λ - E[min(D, S)].
    """

    mean: float
    stock: int
    no_stockout: float
    filled: float
    base_stock_fill: float
    backorders: float


def service(mean: float, stock: int) -> Service:
    """The service that ``stock`` pieces give; ``mean`` is the demand expected in the time of supply."""
    if not (mean >= 0 and math.isfinite(mean)) or stock < 0:
        raise ValueError("mean demand and stock are not negative")
    met = sum(1 - poisson_at_most(k, mean) for k in range(stock))
    return Service(
        mean, stock, poisson_at_most(stock, mean), met / mean if mean else 1.0, poisson_at_most(stock - 1, mean),
        max(0.0, mean - met),
    )  # fmt: skip


def least_stock(mean: float, wanted: float) -> int:
    """The least S with P(D ≤ S) ≥ ``wanted`` (0 to under 1) for Poisson demand of that mean."""
    if not 0 <= wanted < 1:
        raise ValueError("a service level lies between 0 and 1")
    if not (0 <= mean <= 1e6):
        raise ValueError("a mean demand is not negative, and a million at most")
    stock = 0
    while poisson_at_most(stock, mean) < wanted - 1e-12:
        stock += 1
    return stock
