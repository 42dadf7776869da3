"""Readings that are not numbers: over-range, open, short, swinging, drifting, no pulses."""

from __future__ import annotations

import re

from benchlore.quantity.glued import Asked
from benchlore.quantity.model import Quantity
from benchlore.quantity.units import unit_choices

_WORDS: dict[str, str] = {
    "open": "open", "open circuit": "open", "open-circuit": "open", "o/c": "open", "oc": "open", "∞": "open",
    "infinite": "open", "infinity": "open", "open line": "open",
    "short": "short", "shorted": "short", "short circuit": "short", "short-circuit": "short", "s/c": "short",
    "dead short": "short", "short-circuited": "short",
    "drifting": "drifting", "drifts": "drifting", "unstable": "drifting", "drifting up": "drifting",
    "drifting down": "drifting", "drifts up": "drifting", "drifts down": "drifting", "never settles": "drifting",
    "no pulses": "no-pulses", "no pulse": "no-pulses", "no signal": "no-pulses", "no waveform": "no-pulses",
    "no oscillation": "no-pulses", "no drive": "no-pulses",
    "no reading": "no-reading", "reads nothing": "no-reading", "does not read": "no-reading",
    "swings": "swings", "swinging": "swings", "pulsing": "swings", "pulses": "swings", "fluctuates": "swings",
    "fluctuating": "swings", "hunting": "swings",
}  # fmt: skip
_OVER = re.compile(
    r"(?:[o0]\.?l\.?|over[ -]?load|over[ -]?range|over[ -]?limit|out of range)(?: ([a-zA-Z%°]{1,10}))?", re.IGNORECASE
)
STATES = ("open", "short", "swings", "drifting", "no-pulses", "no-reading", "over-range")
"""Every word that ``Quantity.state`` can hold."""


def state_of(plain: str, text: str, asked: Asked) -> Quantity | None:
    """The state that a normalised text names, or None. ``0L`` is a meter's over-range, never nought."""
    if plain[0] in "123456789.+-<>~≤≥±":
        return None
    word = _WORDS.get(plain) or _WORDS.get(plain.lower())
    if word is not None:
        unit = "ohm" if plain[0] in "∞iI" else asked.unit
        return Quantity(text, "state", unit, state=word)
    match = _OVER.fullmatch(plain)
    if match:
        unit = asked.unit
        if match[1]:
            choices = unit_choices(match[1])
            if not choices:
                return None
            unit = choices[0].scale.unit
        return Quantity(text, "overload", unit, state="over-range")
    return None
