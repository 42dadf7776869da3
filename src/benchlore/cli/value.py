"""``benchlore value``: what a value text, a marking or a row of colour bands means."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from benchlore.quantity.meaning import Meaning
    from benchlore.quantity.model import Quantity

COMPONENTS = ("resistor", "capacitor", "inductor")


@click.command(
    context_settings={"ignore_unknown_options": True},
    epilog="""\b
Examples:
  benchlore value 4k7                              4.7 kΩ
  benchlore value 24 V ±10 %                       24 V, 21.6 V to 26.4 V
  benchlore value "swings 9..23 V"
  benchlore value 104                              a chip resistor or a ceramic capacitor?
  benchlore value 104K --component capacitor       100 nF ±10 %
  benchlore value 68X                              EIA-96: 49.9 Ω
  benchlore value brown black red gold             1 kΩ ±5 %
  benchlore value 10 mF                            ambiguous: shows both readings
  benchlore value -12 V ±5 %                       −12 V, −12.6 V to −11.4 V
  benchlore value 3.3 V +5/-10 % --json            numbers in SI units

Exit code: 0 when it is clear, 1 when it is ambiguous or cannot be read.
""",
)
@click.argument("text", nargs=-1, required=True)
@click.option("--component", type=click.Choice(COMPONENTS), help="What it is printed on; settles marking letters.")
@click.option("--unit", metavar="UNIT", help="The unit expected, such as V, ohm or Hz; completes a bare number.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
def command(text: tuple[str, ...], component: str | None, unit: str | None, as_json: bool) -> None:
    """Say what TEXT means: a value with its unit, a tolerance, a range, a marking code, or colour bands."""
    from benchlore.quantity.meaning import meaning_of

    try:
        meaning = meaning_of(" ".join(text), unit=unit, component=component)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint="--unit") from None
    if as_json:
        click.echo(json.dumps(meaning_json(" ".join(text), meaning), indent=2, ensure_ascii=False))
    else:
        show(meaning)
    if meaning.quantity is None:
        sys.exit(1)


def meaning_json(text: str, meaning: Meaning) -> dict[str, Any]:
    """The answer for machines: numbers in SI units, None where there is none."""
    from benchlore.quantity.meaning import colour_bands, preferred_note

    answer: dict[str, Any] = {"text": text, **_quantity_json(meaning.quantity), "kind": meaning.kind}
    if meaning.quantity is not None:
        answer["series"], answer["nearest"] = preferred_note(meaning.quantity)
        answer["bands"] = list(colour_bands(meaning.quantity))
    answer["readings"] = [
        {**_quantity_json(reading.quantity), "because": reading.because} for reading in meaning.readings
    ]
    answer["dates"] = [f"{year}-{month:02}" for year, month in meaning.dates]
    answer["message"], answer["hint"] = meaning.message or None, meaning.hint or None
    return answer


def _quantity_json(quantity: Quantity | None) -> dict[str, Any]:
    from benchlore.quantity.format import format_quantity

    names = ("kind", "value", "low", "high", "unit", "low_open", "high_open", "qualifier", "state")
    shown: dict[str, Any] = {name: getattr(quantity, name, None) for name in names}
    shown["formatted"] = format_quantity(quantity) if quantity else None
    return shown


def show(meaning: Meaning) -> None:
    """Print the answer for somebody at the bench."""
    from benchlore.quantity.format import format_quantity

    if meaning.quantity is not None:
        click.secho(format_quantity(meaning.quantity), bold=True)
        why = next((reading.because for reading in meaning.readings if reading.quantity is meaning.quantity), "")
        if why:
            click.echo(f"  {why}")
        for note in _notes(meaning.quantity):
            click.echo(f"  {note}")
    elif meaning.message:
        click.secho(meaning.message, bold=True)
    others = [reading for reading in meaning.readings if reading.quantity is not meaning.quantity]
    if meaning.quantity is not None and others:
        click.echo("  or:")
    for reading in others:
        click.echo(f"  {format_quantity(reading.quantity)}   {reading.because}")
    if meaning.dates:
        dates = ", ".join(f"{year}-{month:02}" for year, month in meaning.dates)
        click.echo(f"  as a date code: {dates} (letters repeat every 20 years; compare with the equipment)")
    if meaning.hint:
        click.echo(f"  {meaning.hint}")


def _notes(quantity: Quantity) -> list[str]:
    from benchlore.quantity.format import format_value
    from benchlore.quantity.meaning import colour_bands, preferred_note

    notes = []
    if quantity.kind == "tolerance" and quantity.low is not None and quantity.high is not None:
        low, high = (format_value(limit, quantity.unit, 4) for limit in (quantity.low, quantity.high))
        notes.append(f"from {low} to {high}")
    series, near = preferred_note(quantity)
    if series:
        notes.append(f"preferred number ({series})")
    elif near:
        found = ", ".join(f"{name} {format_value(value, quantity.unit)}" for name, value in near.items())
        notes.append(f"not a preferred number; nearest: {found}")
    if bands := colour_bands(quantity):
        notes.append(f"bands: {' '.join(bands)}")
    return notes
