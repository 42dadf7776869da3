"""``benchlore stock``: which parts to keep, and how many of each."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.answer.stock import StockLine, StockList
    from benchlore.read.base import Base


@click.command(
    epilog="""\b
Examples:
  benchlore stock
  benchlore stock --lead-time 30 --service 0.99
  benchlore stock --dear 50 --all
  benchlore stock --json

Demand is taken to come at random (Poisson), at the rate that the entries show.
""",
)
@base_option
@click.option("--lead-time", default=14.0, show_default=True, type=click.FloatRange(0, 3650), metavar="DAYS",
              help="How long an order takes to arrive.")  # fmt: skip
@click.option("--service", default=0.95, show_default=True, type=click.FloatRange(0, 0.9999), metavar="SHARE",
              help="The least chance that the stock lasts until new ones arrive.")  # fmt: skip
@click.option("--dear", default=20.0, show_default=True, type=click.FloatRange(0), metavar="PRICE",
              help="From this price on, a part is ordered when it is needed.")  # fmt: skip
@click.option("--all", "show_all", is_flag=True, help="List the parts to order when needed, too.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
def command(base: Base, lead_time: float, service: float, dear: float, show_all: bool, as_json: bool) -> None:
    """List the parts that repairs used more than once, and how many of each to keep.

    A part is told from others of its kind by the ratings that have to be the same; the other ratings are those of the
    most demanding repair, so that one part serves all.
    """
    from benchlore.answer.stock import Policy, stock_list

    policy = Policy(lead_time, service, Decimal(str(dear)))
    found = stock_list(((r.slug, r.entry) for r in base.records()), base.vocabulary, base.shop.currency, policy)
    if as_json:
        click.echo(json.dumps(_json(found, base.shop.currency), indent=2, ensure_ascii=False))
        return
    for text in _told(found, base, show_all):
        click.echo(text)


def _json(found: StockList, currency: str) -> dict[str, Any]:
    from benchlore.answer.poisson_stock import MEASURE

    return {
        "measure": MEASURE,
        "service": found.policy.service,
        "lead_time_days": found.policy.lead_days,
        "years": found.years,
        "currency": currency,
        "left_out": found.left_out,
        "parts": [_line_json(line) for line in found.lines],
    }


def _line_json(line: StockLine) -> dict[str, Any]:
    return {
        "name": line.name,
        "component_class": line.component_class or None,
        "ratings": {**line.identity, **line.best},
        "plan": line.plan,
        "keep": line.keep,
        "because": line.because,
        "pieces": line.pieces,
        "per_year": line.per_year,
        "mean_in_lead_time": line.mean,
        "no_stockout": line.service.no_stockout if line.service else None,
        "filled": line.service.filled if line.service else None,
        "price": float(line.price) if line.price is not None else None,
        "entries": list(line.slugs),
    }


def _told(found: StockList, base: Base, show_all: bool) -> list[str]:
    from benchlore.answer.poisson_stock import MEASURE
    from benchlore.answer.stock import demands

    keep = [line for line in found.lines if line.plan == "keep"]
    order = [line for line in found.lines if line.plan != "keep"]
    lines = []
    for line in keep:
        more = demands(line, base.vocabulary)
        lines.append(click.style(f"{line.keep:3}  {line.name}", bold=True) + (f"; {more}" if more else ""))
        chance = f", lasts with {line.service.no_stockout * 100:.1f} %" if line.service else ""
        lines.append(f"     {line.because}, {line.per_year:.1f} a year{_price(line, base)}{chance}")
    if not keep:
        lines.append("No part was used in more than one repair and is cheap: nothing to keep.")
    if show_all:
        lines.append(click.style("To order when needed:", bold=True))
        lines += [f"     {line.name}: {line.because}{_price(line, base)}" for line in order]
    elif order:
        lines.append(f"{len(order)} more parts are ordered when needed (--all lists them).")
    lines.append(
        f"From {found.years:.1f} years of entries; an order takes {found.policy.lead_days:g} days;"
        f" {MEASURE}, at least {found.policy.service * 100:g} %."
    )
    return lines


def _price(line: StockLine, base: Base) -> str:
    return f", {line.price:.2f} {base.shop.currency}" if line.price is not None else ""
