"""``benchlore bench``: the small sums of the bench. Markings, bands and preferred values are in ``benchlore value``."""

from __future__ import annotations

import json
from dataclasses import asdict, is_dataclass
from typing import Any

import click

from benchlore.errors import BenchloreError

_EXAMPLES = """\b
Examples:
  benchlore bench divider 12V 10k 4k7
  benchlore bench divider 12V 10k 4k7 --load 10k
  benchlore bench led 12V 2.1V 10mA
  benchlore bench rc 100k 220uF --from 400V --to 60V
  benchlore bench ripple 1A 100Hz 4700uF
  benchlore bench rectifier bridge 253V --current 2A
  benchlore bench life 2000 --rated 105 --at 65
  benchlore bench soak --gap 2h
  benchlore bench soak --ran 24h
  benchlore bench trials 0.1

Markings, colour bands and preferred values: benchlore value. A reading with the meter's uncertainty: benchlore verdict.
"""
_JSON = click.option("--json", "as_json", is_flag=True, help="One JSON object for machines, in SI units.")


@click.group(epilog=_EXAMPLES)
def command() -> None:
    """Work out a divider, an LED's resistor, RC times, ripple, a rectifier, an electrolytic's life, a soak."""


def _si(text: str, unit: str) -> float:
    from benchlore.quantity.model import QuantityError
    from benchlore.quantity.parse import parse

    try:
        found = parse(text, unit=unit)
    except QuantityError as error:
        raise BenchloreError(error.message, hint=error.hint) from None
    if found.value is None or found.unit != unit:
        raise BenchloreError(f"{text} is not one value in {unit}")
    return found.value


def _answer(figures: Any, as_json: bool, lines: list[str]) -> None:
    data = asdict(figures) if is_dataclass(figures) and not isinstance(figures, type) else figures
    click.echo(json.dumps(data, indent=2) if as_json else "\n".join(lines))


def _worked(function: Any, *values: Any, **named: Any) -> Any:
    try:
        return function(*values, **named)
    except ValueError as error:
        raise BenchloreError(str(error)) from None


@command.command("divider")
@click.argument("supply")
@click.argument("upper")
@click.argument("lower")
@click.option("--load", metavar="OHMS", help="What hangs on the tap.")
@_JSON
def divider_command(supply: str, upper: str, lower: str, load: str | None, as_json: bool) -> None:
    """Output of a divider from SUPPLY through UPPER and LOWER."""
    from benchlore.answer.bench import divider
    from benchlore.quantity.format import format_value as told

    values = _si(supply, "V"), _si(upper, "ohm"), _si(lower, "ohm"), _si(load, "ohm") if load else None
    found = _worked(divider, *values)
    lines = [
        told(found.output, "V", 4),
        f"  current {told(found.current, 'A')}; heat {told(found.upper_power, 'W')} above and"
        f" {told(found.lower_power, 'W')} below",
        f"  source resistance of the tap {told(found.source, 'ohm')}",
    ]
    _answer(found, as_json, lines)


@command.command("led")
@click.argument("supply")
@click.argument("forward")
@click.argument("current")
@_JSON
def led_command(supply: str, forward: str, current: str, as_json: bool) -> None:
    """Series resistor of an LED (or a string of them, FORWARD being that of all)."""
    from benchlore.answer.bench import led_resistor
    from benchlore.quantity.format import format_value as told

    found = _worked(led_resistor, _si(supply, "V"), _si(forward, "V"), _si(current, "A"))
    rated = f"{told(found.rated, 'W')} or more" if found.rated else "more than usual resistors are made for"
    lines = [
        f"{told(found.resistor, 'ohm')} (E24; exactly {told(found.exact, 'ohm')})",
        f"  current {told(found.current, 'A')}, heat {told(found.power, 'W')}: rated {rated}",
    ]
    _answer(found, as_json, lines)


@command.command("rc")
@click.argument("resistance")
@click.argument("capacitance")
@click.option("--from", "start", metavar="VOLTS", help="With --to: how long it takes to fall.")
@click.option("--to", "end", metavar="VOLTS")
@_JSON
def rc_command(resistance: str, capacitance: str, start: str | None, end: str | None, as_json: bool) -> None:
    """Time constant, corner frequency and times of RESISTANCE and CAPACITANCE."""
    from benchlore.answer.bench import rc_fall, rc_times
    from benchlore.quantity.format import format_value as told

    ohms, farads = _si(resistance, "ohm"), _si(capacitance, "F")
    if (start is None) != (end is None):
        raise BenchloreError("--from and --to go together")
    found = _worked(rc_times, ohms, farads)
    fall = _worked(rc_fall, ohms, farads, _si(start, "V"), _si(end, "V")) if start and end else None
    lines = [
        f"time constant {told(found.tau, 's')}, corner {told(found.corner, 'Hz')}",
        f"  90 % after {told(found.to_90, 's')}, 95 % after {told(found.to_95, 's')},"
        f" 99 % after {told(found.to_99, 's')}",
    ]
    if fall is not None:
        lines.append(f"  from {start} to {end} in {told(fall, 's')}, if nothing else discharges or feeds it")
    _answer({**asdict(found), "fall": fall}, as_json, lines)


@command.command("ripple")
@click.argument("load")
@click.argument("frequency")
@click.argument("capacitance")
@_JSON
def ripple_command(load: str, frequency: str, capacitance: str, as_json: bool) -> None:
    """Ripple of a reservoir capacitor; FREQUENCY is that of the charging pulses (100 Hz after a bridge on 50 Hz)."""
    from benchlore.answer.rectifier import ripple
    from benchlore.quantity.format import format_value as told

    volts = _worked(ripple, _si(load, "A"), _si(frequency, "Hz"), _si(capacitance, "F"))
    _answer({"ripple": volts}, as_json, [f"about {told(volts, 'V', 4)} peak to peak, at most"])


@command.command("rectifier")
@click.argument("topology")
@click.argument("rms")
@click.option("--current", default="0 A", show_default=True, metavar="AMPERES", help="Output current.")
@click.option("--margin", default=1.5, show_default=True, type=click.FloatRange(1, 10), help="On the inverse voltage.")
@_JSON
def rectifier_command(topology: str, rms: str, current: str, margin: float, as_json: bool) -> None:
    """What each diode bears; TOPOLOGY: half-wave, half-wave-capacitor, centre-tap, bridge, doubler, three-phase-bridge.

    RMS is the highest voltage of the phase, or of one half of a tapped winding.
    """
    from benchlore.answer.rectifier import stress
    from benchlore.quantity.format import format_value as told

    found = _worked(stress, topology, _si(rms, "V"), _si(current, "A"), margin=margin)
    buy = f"{told(found.rated_V, 'V')} or more" if found.rated_V else "more than usual diodes are made for"
    lines = [
        f"each diode: {told(found.inverse_V, 'V')} inverse, {told(found.mean_A, 'A')} on the average",
        f"  with a margin of {margin:g}: {told(found.with_margin_V, 'V')}, so {buy}",
    ]
    _answer(found, as_json, lines)


@command.command("life")
@click.argument("hours", type=click.FloatRange(0, min_open=True))
@click.option("--rated", required=True, type=float, metavar="DEGC", help="Rated temperature, such as 105.")
@click.option("--at", "degc", required=True, type=float, metavar="DEGC", help="Temperature it works at.")
@click.option("--ripple-rise", default=0.0, show_default=True, type=float, metavar="K", help="Rise of the core.")
@_JSON
def life_command(hours: float, rated: float, degc: float, ripple_rise: float, as_json: bool) -> None:
    """Life of an electrolytic of HOURS rated: twice for every ten degrees below its rated temperature."""
    from benchlore.answer.electrolytic_life import life

    found = _worked(life, hours, rated, degc, ripple_rise=ripple_rise)
    lines = [f"{found.hours:.0f} h ({found.hours / 8766:.1f} years of continuous work) by the ten-degree rule"]
    if found.claimed_hours < found.hours:
        lines.append("  count on fifteen years at most: seals age as well")
    if not found.within_rule:
        lines.append("  the rule is said to hold from 60 °C to 105 °C: outside it is a guess")
    _answer(found, as_json, lines)


@command.command("soak")
@click.option("--gap", metavar="TIME", help="How often the fault came on the average: how long to soak?")
@click.option("--ran", metavar="TIME", help="How long it ran clean: what does that show?")
@click.option("--failures", default=0, show_default=True, type=click.IntRange(0, 1000), help="Failures in that time.")
@click.option("--confidence", default=0.9, show_default=True, type=click.FloatRange(0, 1, min_open=True, max_open=True))
@_JSON
def soak_command(gap: str | None, ran: str | None, failures: int, confidence: float, as_json: bool) -> None:
    """How long to soak after an intermittent fault, or what a soak has shown."""
    from benchlore.answer.verification import gap_shown, soak_for
    from benchlore.quantity.format import format_value as told

    if (gap is None) == (ran is None):
        raise BenchloreError("give either --gap or --ran")
    sure = f"{confidence * 100:g} %"
    if gap is not None:
        time = _worked(soak_for, _si(gap, "s"), confidence)
        said = f"{told(time, 's')} without the fault shows with {sure} confidence that it is gone"
        _answer({"soak": time, "confidence": confidence}, as_json, [said])
        return
    shown = _worked(gap_shown, _si(ran or "", "s"), confidence, failures)
    said = f"with {sure} confidence the fault does not come oftener than once in {told(shown, 's')}"
    _answer({"gap": shown, "confidence": confidence, "failures": failures}, as_json, [said])


@command.command("trials")
@click.argument("chance", type=click.FloatRange(0, 1, min_open=True, max_open=True))
@click.option("--confidence", default=0.9, show_default=True, type=click.FloatRange(0, 1, min_open=True, max_open=True))
@click.option("--prior", type=click.FloatRange(0, 1, min_open=True, max_open=True),
              help="How sure you were, before one clean test, that the fault is gone.")  # fmt: skip
@_JSON
def trials_command(chance: float, confidence: float, prior: float | None, as_json: bool) -> None:
    """How many tries it takes to see a fault that shows with CHANCE (0 to 1) in each."""
    from benchlore.answer.verification import gone_after_clean_test, trials_to_see

    trials = _worked(trials_to_see, chance, confidence)
    gone = gone_after_clean_test(prior, chance) if prior else None
    lines = [f"{trials} tries to see it with {confidence * 100:g} % confidence"]
    if gone is not None:
        lines.append(f"  after one clean try it is gone with a chance of {gone * 100:.1f} %")
    _answer({"trials": trials, "confidence": confidence, "gone_after_one_clean": gone}, as_json, lines)
