"""The shop's figures: repairs, success, time, cost, comebacks, and the parts to keep."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.answer.poisson_stock import MEASURE
from benchlore.answer.shop_figures import Figures, Share, figures
from benchlore.answer.stock import StockLine, demands, stock_list
from benchlore.publish.page import Page
from benchlore.publish.sections.plate import Link
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import FIGURES
from benchlore.publish.wording import count, day, minutes, money, unbroken

MOST_PARTS = 40
NBSP = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class ClassRow:
    """One kind of equipment in the table."""

    kind: Link
    repairs: int
    success: str
    time: str
    cost: str
    comebacks: str


@dataclass(frozen=True, slots=True)
class KeepRow:
    """One part to keep."""

    kind: Link
    name: str
    demands: str
    keep: int
    used: str
    price: str


def pages(site: SiteData) -> Iterator[Page]:
    """The one page."""
    shop = site.shop
    whole = _figures(site, None)
    stock = stock_list(((r.slug, r.entry) for r in site.records), site.vocabulary, shop.currency)
    keep = [line for line in stock.lines if line.plan == "keep"]
    yield Page(
        url=FIGURES,
        title="Shop figures",
        template="figures.html",
        data={
            "span": f"{day(whole.first)} to {day(whole.last)}" if whole.first and whole.last else "",
            "repairs": count(whole.entries, "entry", "entries"),
            "facts": tuple(_facts(whole, site)),
            "rows": tuple(_class_row(c, site) for c in sorted(site.by_class, key=lambda c: _order(c, site))),
            "keep": tuple(_keep_row(line, site) for line in keep[:MOST_PARTS]),
            "more": max(0, len(keep) - MOST_PARTS),
            "ordered": sum(1 for line in stock.lines if line.plan != "keep"),
            "measure": f"{MEASURE}, at least {stock.policy.service * 100:g}{NBSP}%",
            "lead_time": f"{stock.policy.lead_days:g}{NBSP}days",
            "years": f"{stock.years:.1f}{NBSP}years",
        },
        description=f"What {shop.name}'s entries say: success, time, cost, comebacks, and parts to keep.",
        section=FIGURES,
        updated=site.newest,
    )


def _figures(site: SiteData, class_id: str | None) -> Figures:
    records = site.records if class_id is None else site.by_class[class_id]
    return figures((r.entry for r in records), site.shop.labour_rate, site.shop.currency)


def _order(class_id: str, site: SiteData) -> tuple[int, str]:
    return -len(site.by_class[class_id]), site.label("class", class_id).lower()


def _facts(found: Figures, site: SiteData) -> Iterator[tuple[str, str]]:
    currency = site.shop.currency
    yield "Repaired, of those with a fault", _share(found.success)
    yield "Came back, of those with later word", _share(found.comebacks)
    if found.minutes_median is not None and found.minutes_ninth_tenth is not None:
        ninth = minutes(round(found.minutes_ninth_tenth))
        yield "Time", f"half take up to {minutes(round(found.minutes_median))}, nine tenths up to {ninth}"
    yield "Labour", f"{money(found.labour_total, currency)}, {found.minutes_total / 60:.0f}{NBSP}h"
    unpriced = f", {found.unpriced} without a price not counted" if found.unpriced else ""
    yield "Parts", money(found.parts_total, currency) + unpriced
    if found.cost_median is not None:
        yield "A repair", f"half cost up to {money(found.cost_median, currency)} of labour and parts"


def _share(share: Share) -> str:
    if not share.total:
        return "none counted"
    low, high = (f"{100 * end:.0f}" for end in share.interval)
    percent = f"{100 * share.hits / share.total:.0f}{NBSP}%"
    return f"{share.hits} of {share.total}, {percent} ({low} to {high}{NBSP}%)"


def _class_row(class_id: str, site: SiteData) -> ClassRow:
    found = _figures(site, class_id)
    return ClassRow(
        Link(site.label("class", class_id), site.addresses.class_(class_id)),
        found.entries,
        f"{found.success.hits} of {found.success.total}",
        minutes(round(found.minutes_median)) if found.minutes_median is not None else "not known",
        money(found.cost_median, site.shop.currency) if found.cost_median is not None else "not known",
        f"{found.comebacks.hits} of {found.comebacks.total}" if found.comebacks.total else "no later word",
    )


def _keep_row(line: StockLine, site: SiteData) -> KeepRow:
    return KeepRow(
        Link(site.label("component", line.component_class), site.addresses.component(line.component_class)),
        unbroken(line.name),
        unbroken(demands(line, site.vocabulary)),
        line.keep,
        f"{count(len(line.slugs), 'repair')}, {line.per_year:.1f}{NBSP}a{NBSP}year",
        money(line.price, site.shop.currency) if line.price is not None else "not known",
    )
