"""``benchlore figures``: what the shop's entries say of its work: repairs, success, time, cost, comebacks."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import click

from benchlore.cli.base_option import base_option
from benchlore.errors import BenchloreError

if TYPE_CHECKING:
    from benchlore.answer.shop_figures import Figures, Share
    from benchlore.read.base import Base


@click.command(
    epilog="""\b
Examples:
  benchlore figures
  benchlore figures --class dehumidifier
  benchlore figures --json

Entries are what somebody wrote up: shares are of those, with 95 % intervals.
""",
)
@base_option
@click.option("--class", "class_id", metavar="CLASS", help="Only this kind of equipment, such as dehumidifier.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines; money in the shop's currency.")
def command(base: Base, class_id: str | None, as_json: bool) -> None:
    """Count the shop's repairs: how many worked, how long they took, what they cost, how many came back."""
    from benchlore.answer.shop_figures import figures

    records = base.records()
    if class_id is not None:
        if base.vocabulary.get("class", class_id) is None:
            close = base.vocabulary.suggest("class", class_id)
            raise BenchloreError(f"there is no class {class_id!r}", hint=f"Did you mean {', '.join(close)}?")
        records = [record for record in records if record.entry.equipment.class_ == class_id]
    found = figures((record.entry for record in records), base.shop.labour_rate, base.shop.currency)
    if as_json:
        click.echo(json.dumps({"class": class_id, "currency": base.shop.currency, **_json(found)}, indent=2))
        return
    for text in _told(found, base):
        click.echo(text)


def _json(found: Figures) -> dict[str, Any]:
    def share(part: Share) -> dict[str, Any]:
        return {"hits": part.hits, "total": part.total, "share": part.value, "low": part.interval.low,
                "high": part.interval.high}  # fmt: skip

    def money(amount: Decimal | None) -> float | None:
        return None if amount is None else float(amount)

    return {
        "entries": found.entries,
        "first": found.first.isoformat() if found.first else None,
        "last": found.last.isoformat() if found.last else None,
        "outcomes": found.outcomes,
        "success": share(found.success),
        "comebacks": share(found.comebacks),
        "minutes_total": found.minutes_total,
        "minutes_median": found.minutes_median,
        "minutes_ninth_tenth": found.minutes_ninth_tenth,
        "labour_total": money(found.labour_total),
        "parts_total": money(found.parts_total),
        "parts_median": money(found.parts_median),
        "cost_median": money(found.cost_median),
        "unpriced_parts": found.unpriced,
    }


def _told(found: Figures, base: Base) -> list[str]:
    if not found.entries:
        return ["No entries yet."]
    currency = base.shop.currency
    outcomes = ", ".join(f"{n} {outcome.replace('-', ' ')}" for outcome, n in found.outcomes.items())
    lines = [f"{found.entries} entries, {found.first} to {found.last}: {outcomes}"]
    lines.append(f"  repaired, of those with a fault: {_share(found.success)}")
    lines.append(f"  came back, of those with later word: {_share(found.comebacks)}")
    if found.minutes_median is not None and found.minutes_ninth_tenth is not None:
        lines.append(
            f"  time: half take up to {found.minutes_median:g} min, nine tenths up to {found.minutes_ninth_tenth:.0f}"
            f" min; {found.minutes_total / 60:.1f} h in all"
        )
    lines.append(
        f"  cost: {found.labour_total:.2f} {currency} of labour and {found.parts_total:.2f} {currency} of parts"
        + (f"; half of the repairs cost up to {found.cost_median:.2f} {currency}" if found.cost_median else "")
    )
    if found.unpriced:
        lines.append(f"  {found.unpriced} parts without a price are not counted")
    return lines


def _share(share: Share) -> str:
    if not share.total:
        return "none counted"
    low, high = share.interval
    percent = f"{100 * share.hits / share.total:.0f} %"
    return f"{share.hits} of {share.total} ({percent}; {100 * low:.0f} to {100 * high:.0f} % with 95 % confidence)"
