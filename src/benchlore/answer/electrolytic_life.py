"""How long an aluminium electrolytic lasts at a temperature, by the ten-degree rule of its makers."""

from __future__ import annotations

from dataclasses import dataclass

CAP_HOURS = 15 * 8766.0
"""Fifteen years: makers do not stand for more, whatever the rule gives (seals age as well)."""
BEST_DEGC = (60.0, 105.0)
"""The rule deviates below and above these (Rubycon and Chemi-con technical notes)."""


@dataclass(frozen=True, slots=True)
class Life:
    """``hours`` as the rule gives them; ``claimed_hours`` no more than fifteen years; ``within_rule`` is False where
    the temperature is outside the range in which the rule is taken to hold."""

    hours: float
    claimed_hours: float
    within_rule: bool


def life(rated_hours: float, rated_degc: float, degc: float, *, ripple_rise: float = 0.0) -> Life:
    """Life at ``degc``: L = L0·2^((T0 - T)/10), times 2^(-ΔT/5) for a rise of the core by ripple of ``ripple_rise`` K.

    Sources: technical notes of two makers for the first, one maker's data sheet for the second (other makers count
    ripple otherwise). Raises ValueError unless the rated hours are positive, and above the rated temperature.
    """
    if rated_hours <= 0 or ripple_rise < 0:
        raise ValueError("rated hours are positive, and the rise is not negative")
    if degc > rated_degc:
        raise ValueError("above its rated temperature no life is to be counted on")
    hours = rated_hours * 2 ** ((rated_degc - degc) / 10) * 2 ** (-ripple_rise / 5)
    return Life(hours, min(hours, CAP_HOURS), BEST_DEGC[0] <= degc <= BEST_DEGC[1])
