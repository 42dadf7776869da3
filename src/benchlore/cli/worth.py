"""``benchlore worth``: whether a repair is worth starting, and what to pay for a dead unit."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import click

from benchlore.cli.base_option import base_option
from benchlore.errors import BenchloreError

if TYPE_CHECKING:
    from benchlore.answer.shop_figures import Figures
    from benchlore.read.base import Base


@click.command(
    epilog="""\b
Examples:
  benchlore worth --value 140 --class dehumidifier                 time, parts and success from the entries
  benchlore worth --value 140 --minutes 60 --parts 5 --success 0.8
  benchlore worth --value 140 --class dehumidifier --scrap 15 --json

Exit code: 0 worth starting, 1 not.
""",
)
@base_option
@click.option("--value", required=True, type=click.FloatRange(0), help="What the unit is worth working.")
@click.option("--class", "class_id", metavar="CLASS", help="Take time, parts, success and comebacks from its entries.")
@click.option("--minutes", type=click.FloatRange(0), help="Attended minutes if it works.")
@click.option("--parts", type=click.FloatRange(0), help="Cost of the parts.")
@click.option("--success", type=click.FloatRange(0, 1), help="Chance that the repair works, 0 to 1.")
@click.option("--minutes-if-not", type=click.FloatRange(0), help="Minutes lost if it does not; else half the others.")
@click.option("--scrap", default=0.0, show_default=True, type=float, help="What the unit is worth dead.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines; money in the shop's currency.")
def command(
    base: Base,
    value: float,
    class_id: str | None,
    minutes: float | None,
    parts: float | None,
    success: float | None,
    minutes_if_not: float | None,
    scrap: float,
    as_json: bool,
) -> None:
    """Say whether a repair is worth starting, on the average, and the most to pay for such a unit dead."""
    from benchlore.answer.money import Chance, worth_repairing

    known = _known(base, class_id) if class_id else None
    if known:
        minutes = known.minutes_median if minutes is None else minutes
        parts = float(known.parts_median or 0) if parts is None else parts
        success = known.success.value if success is None else success
    if minutes is None or success is None:
        raise BenchloreError(
            "minutes and the chance of success are needed", hint="Give --minutes and --success, or --class."
        )
    parts = parts or 0.0
    rate = float(base.shop.labour_rate) / 60
    lost = minutes / 2 if minutes_if_not is None else minutes_if_not
    back = known.comebacks.value or 0.0 if known else 0.0
    chance = Chance(value, minutes * rate + parts, success, lost * rate, scrap, back, minutes * rate)
    worth = worth_repairing(chance)
    currency = base.shop.currency
    if as_json:
        answer: dict[str, Any] = {
            "worth_it": worth.worth_it, "gain": worth.gain, "break_even_success": worth.break_even,
            "most_for_dead": worth.most_for_dead, "cost": chance.cost, "cost_if_not": chance.cost_if_not,
            "success": success, "comebacks": back, "minutes": minutes, "parts": parts, "value": value, "scrap": scrap,
            "currency": currency, "entries": known.entries if known else None,
        }  # fmt: skip
        click.echo(json.dumps(answer, indent=2))
    else:
        click.secho("Worth starting" if worth.worth_it else "Not worth starting", bold=True)
        click.echo(f"  it brings {worth.gain:.2f} {currency} on the average over leaving it dead")
        click.echo(f"  {minutes:g} min and {parts:.2f} {currency} of parts: {chance.cost:.2f} {currency} if it works,")
        click.echo(f"  {chance.cost_if_not:.2f} {currency} if not; it works in {success * 100:.0f} % of cases")
        if worth.break_even is None:
            click.echo("  at this value no chance of success is enough")
        else:
            click.echo(f"  worth it from a chance of {worth.break_even * 100:.0f} % on")
        click.echo(f"  the most to pay for such a unit dead: {worth.most_for_dead:.2f} {currency}, nothing earned")
        if known:
            click.echo(f"  from {known.entries} entries of that class; {_comebacks(known)}")
    ctx = click.get_current_context()
    ctx.exit(0 if worth.worth_it else 1)


def _known(base: Base, class_id: str) -> Figures:
    from benchlore.answer.shop_figures import figures

    if base.vocabulary.get("class", class_id) is None:
        close = base.vocabulary.suggest("class", class_id)
        raise BenchloreError(f"there is no class {class_id!r}", hint=f"Did you mean {', '.join(close)}?")
    entries = [r.entry for r in base.records() if r.entry.equipment.class_ == class_id]
    return figures(entries, base.shop.labour_rate, base.shop.currency)


def _comebacks(known: Figures) -> str:
    told = known.comebacks
    if not told.total:
        return "none is known to have come back"
    return f"{told.hits} of {told.total} with later word came back, and that is counted"
