"""The peak that a capacitor can be charged to, from a voltage as it is written and the highest mains."""
# ruff: noqa: N803 - unit symbols keep their case in names

from __future__ import annotations

from dataclasses import dataclass

from benchlore.answer.stored_energy import peak_of_rms
from benchlore.quantity.model import Quantity

_NEAR = 0.85
"""From this share of the nominal mains voltage on, an a.c. voltage is taken for the mains."""


@dataclass(frozen=True, slots=True)
class Peak:
    """``volts`` is the peak or d.c. voltage; ``rms`` the a.c. voltage it comes from; ``at_highest`` says that the
    highest mains was taken in place of a lower one that was written."""

    volts: float
    rms: float | None = None
    at_highest: bool = False


def highest_peak(voltage: Quantity, *, nominal_V: float, highest_V: float) -> Peak | None:
    """The highest voltage that ``voltage`` states, as a peak; None when it states none.

    An a.c. (rms) voltage is multiplied by √2. One that is the mains (between 85 % of the nominal and the highest rms
    voltage) is taken at its highest: capacitors charge to the peak of what the supply may reach.
    """
    stated = [abs(v) for v in (voltage.value, voltage.low, voltage.high) if v is not None]
    if not stated:
        return None
    is_range = voltage.kind == "range" and voltage.high is not None
    highest = abs(voltage.high or 0.0) if is_range else abs(voltage.value) if voltage.value else max(stated)
    if voltage.qualifier not in {"ac", "rms"}:
        return Peak(highest)
    at_highest = _NEAR * nominal_V <= highest < highest_V
    rms = highest_V if at_highest else highest
    return Peak(peak_of_rms(rms), rms, at_highest)
