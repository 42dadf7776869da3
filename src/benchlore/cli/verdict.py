"""``benchlore verdict``: whether a reading is within what was expected, given the meter it was read with."""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from benchlore.errors import BenchloreError

if TYPE_CHECKING:
    from benchlore.quantity.model import Quantity
    from benchlore.read.base import Base
    from benchlore.read.shop import Instrument


@dataclass(frozen=True, slots=True)
class _Meter:
    """The instrument a reading was taken with, the quantity it measured, and ± what it could have been (SI units)."""

    name: str
    label: str
    quantity: str
    half_width: float


@click.command(
    context_settings={"ignore_unknown_options": True},
    epilog="""\b
Examples:
  benchlore verdict "24 V ±5 %" 22.9V
  benchlore verdict "5 V ±5 %" 5.24V --instrument dmm --explain
  benchlore verdict ">1 MΩ" "40 kΩ"
  benchlore verdict "230 V ac ±10 %" "252 V ac" --instrument dmm --json

Exit code: 0 within, 1 outside or not to be told.
""",
)
@click.argument("expected")
@click.argument("reading")
@click.option("--instrument", metavar="NAME", help="An instrument of the base's site_config/shop.yaml, such as dmm.")
@click.option("--quantity", metavar="ID", help="What was measured, such as dc-voltage; guessed from the unit.")
@click.option("--explain", is_flag=True, help="Show limits, meter uncertainty and the probability of conformity.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
@click.option(
    "--base",
    "base_folder",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    metavar="DIR",
    help="The knowledge base whose instruments are meant; found from the current folder upwards.",
)
def command(
    expected: str,
    reading: str,
    instrument: str | None,
    quantity: str | None,
    explain: bool,
    as_json: bool,
    base_folder: Path | None,
) -> None:
    """Judge READING by EXPECTED, a value with its tolerance, a range or a limit.

    With an instrument, a reading nearer to a limit than the meter can tell is "cannot tell".
    """
    from benchlore.answer.verdict import verdict

    limits, read = _parsed(expected, "EXPECTED"), _parsed(reading, "READING")
    meter = _meter(read, instrument, quantity, base_folder) if instrument else None
    judged = verdict(limits, read, uncertainty=meter.half_width if meter else 0.0)
    if as_json:
        answer: dict[str, Any] = {"verdict": judged.word, "side": judged.side, "text": judged.text}
        click.echo(json.dumps({**answer, **_figures(limits, read, meter)}, indent=2, ensure_ascii=False))
    else:
        words = {"within": "within limits", "outside": f"outside, too {judged.side}", "cannot-tell": "cannot tell"}
        word = words[judged.word] if judged.side or judged.word != "outside" else "outside"
        click.echo(f"{word}: {judged.text}")
        if explain:
            _explain(limits, read, meter)
    sys.exit(0 if judged.word == "within" else 1)


def _parsed(text: str, where: str) -> Quantity:
    from benchlore.quantity.model import QuantityError
    from benchlore.quantity.parse import parse

    try:
        return parse(text)
    except QuantityError as error:
        raise BenchloreError(f"{where}: {error.message}", hint=error.hint) from None


def _meter(reading: Quantity, name: str, quantity: str | None, folder: Path | None) -> _Meter:
    from benchlore.read.base import Base

    base = Base(folder) if folder else Base.find(Path.cwd())
    known = base.shop.instruments
    if name not in known:
        raise BenchloreError(f"the shop has no instrument {name!r}", hint=f"It has: {', '.join(sorted(known))}.")
    instrument = known[name]
    chosen = quantity or _quantity_of(reading, instrument, base)
    value = reading.value if reading.value is not None else None
    half_width = instrument.uncertainty(chosen, value) if chosen and value is not None else None
    if chosen is None or half_width is None:
        told = f"for {chosen}" if chosen else f"in {reading.unit or 'that unit'}"
        raise BenchloreError(
            f"{name} has no accuracy {told}", hint=f"It has: {', '.join(sorted(instrument.accuracy))}; see --quantity."
        )
    return _Meter(name, instrument.label, chosen, half_width)


def _quantity_of(reading: Quantity, instrument: Instrument, base: Base) -> str | None:
    """The first quantity of the instrument, in the order of shop.yaml, that fits the reading's unit and kind."""
    from benchlore.terms.model import QuantityKind

    wanted = "ac" if reading.qualifier in {"ac", "rms"} else "dc"
    for candidate in instrument.accuracy:
        kind = base.vocabulary.get_as(QuantityKind, candidate)
        if kind and kind.unit == reading.unit and kind.current_kind in {wanted, None}:
            return candidate
    return None


def _figures(expected: Quantity, reading: Quantity, meter: _Meter | None) -> dict[str, Any]:
    """Limits, uncertainty, probability and the decisions of the usual rules, in SI units; None where there is none."""
    from benchlore.answer import conformity

    limits = conformity.limits_of(expected)
    figures: dict[str, Any] = {
        "low": limits.low if limits else None,
        "high": limits.high if limits else None,
        "reading": reading.value,
        "unit": reading.unit,
        "instrument": meter.name if meter else None,
        "quantity": meter.quantity if meter else None,
        "half_width": meter.half_width if meter else None,
        "standard_uncertainty": None,
        "probability_of_conformity": None,
        "decisions": {},
    }
    if limits and meter and reading.value is not None:
        u = conformity.standard_uncertainty(meter.half_width)
        figures["standard_uncertainty"] = u
        figures["probability_of_conformity"] = conformity.probability_of_conformity(reading.value, u, limits)
        rules: tuple[conformity.Rule, ...] = ("simple", "ilac-g8", "iso-14253-1")
        for rule in rules:
            guard = conformity.guard_band(rule, 2 * u)
            figures["decisions"][rule] = {
                "decision": conformity.decide(reading.value, limits, guard),
                "worst_risk": conformity.worst_risk(rule),
            }
    return figures


def _explain(expected: Quantity, reading: Quantity, meter: _Meter | None) -> None:
    from benchlore.quantity.format import format_value

    figures = _figures(expected, reading, meter)
    unit = reading.unit
    ends = [
        f"{word} {format_value(figures[key], unit, 4)}"
        for key, word in (("low", "from"), ("high", "to"))
        if figures[key] is not None
    ]
    click.echo(f"  limits       {' '.join(ends) or 'none stated'}")
    if meter is None:
        click.echo("  meter        not named; --instrument takes its accuracy from site_config/shop.yaml")
        return
    click.echo(f"  meter        {meter.label}, {meter.quantity}: ±{format_value(meter.half_width, unit, 3)} here")
    if figures["probability_of_conformity"] is None:
        return
    click.echo(f"  uncertainty  u = Δ/√3 = {format_value(figures['standard_uncertainty'], unit, 3)}, rectangular")
    click.echo(f"  probability  {figures['probability_of_conformity']:.4f} that the true value is within the limits")
    names = {"simple": "simple acceptance", "ilac-g8": "guard band U = 2u", "iso-14253-1": "guard band 0.83 U"}
    for rule, decision in figures["decisions"].items():
        told = decision["decision"].replace("-", " ")
        click.echo(f"  {names[rule]:18} {told} (a value just accepted is wrong at most {decision['worst_risk']:.1%})")
