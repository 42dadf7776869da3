"""What is seen on the bench, and what comes of it: lines of evidence and ranked causes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from benchlore.answer.hypotheses import Hypothesis

COMPLAINT_WEIGHT = 0.7
"""Weight of a complaint that the bench has not confirmed."""


class Line(NamedTuple):
    """One observation's share in the logarithm of a cause's likelihood, before the temperature."""

    kind: str
    """``seen``, ``absent``, ``silent`` or ``test``."""
    id: str
    value: float


@dataclass(frozen=True, slots=True)
class Observed:
    """What is seen on the bench.

    ``seen`` maps symptoms to weights (1 what the bench saw, ``COMPLAINT_WEIGHT`` a complaint); ``absent`` were looked
    for and are not there. ``tests`` maps what each test is called to its log-likelihood by cause, given by a mapping
    with a default for causes it does not hold.
    """

    seen: Mapping[str, float] = field(default_factory=dict)
    absent: frozenset[str] = frozenset()
    tests: Sequence[tuple[str, Mapping[Hypothesis, float]]] = ()


@dataclass(frozen=True, slots=True)
class Ranked:
    """A cause with its probability."""

    cause: Hypothesis
    probability: float
