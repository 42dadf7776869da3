"""What a quantity is once read: one frozen record for values, ranges, bounds and states."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["value", "tolerance", "range", "bound", "approx", "dual", "overload", "state"]
Qualifier = Literal["ac", "dc", "rms", "peak", "pp"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity in SI units.

    ``value`` is the nominal (None for a pure range, bound or state); ``low`` and ``high`` are the limits it states
    (None where open-ended; for ``dual`` they are the two rails; for a swinging reading, its extremes). ``unit`` is
    the unit symbol of :mod:`benchlore.quantity.units` (``V``, ``A``, ``ohm``, ``F``, ``H``, ``Hz``, ``s``, ``W``,
    ``m``, ``degC``, ``%`` ...), or None. ``state`` is the word of a state (``open``, ``short``, ``swings``,
    ``drifting``, ``no-pulses``, ``no-reading``, ``over-range``). ``text`` is what was written.
    """

    text: str
    kind: Kind
    unit: str | None = None
    value: float | None = None
    low: float | None = None
    high: float | None = None
    low_open: bool = False
    high_open: bool = False
    qualifier: Qualifier | None = None
    state: str | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """One way an ambiguous text could be read: the quantity, and why it could be that."""

    quantity: Quantity
    because: str


class QuantityError(ValueError):
    """A text that cannot be read as a quantity without guessing.

    ``readings`` holds what it could have meant (empty when nothing fits); ``message`` says what is wrong and
    ``hint`` how to write it instead.
    """

    def __init__(self, message: str, *, hint: str = "", readings: tuple[Reading, ...] = ()) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint
        self.readings = readings
