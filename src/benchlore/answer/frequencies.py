"""The counting formulas of diagnosis: back-off, the share of what is new, shrunk rates and how hard to shrink."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

BACK_OFF = 10.0
"""Entries that a broader level counts for, when a narrower one is set against it."""
CONCENTRATION = 2.0
"""How many entries the background of a symptom counts for, where data do not say."""
CONCENTRATIONS = (0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0)
_SPREAD = 1.5
"""Standard deviation of ln(concentration) about ``CONCENTRATION``, so that few data leave it there."""


def backed_off(levels: Iterable[tuple[float, float]], base: float, strength: float = BACK_OFF) -> float:
    """A share by levels from broad to narrow, each ``(hits, entries)``, over a ``base`` share.

    p_l = (n_l,c + k·p_(l-1)) / (n_l + k): additive smoothing towards the broader level, repeated (Dirichlet prior
    with the mean of the level above).
    """
    share = base
    for hits, entries in levels:
        share = (hits + strength * share) / (entries + strength)
    return share


def unseen_share(seen_once: float, entries: float) -> float:
    """The chance that the next cause is one that nobody has written up: (causes seen once + 0.5) / (entries + 1).

    I. J. Good, "The population frequencies of species and the estimation of population parameters", Biometrika 40
    (1953), with half an entry added so that it is neither 0 nor 1.
    """
    return (seen_once + 0.5) / (entries + 1)


def shrunk(hits: float, entries: float, background: float, concentration: float) -> float:
    """A rate drawn towards a background: (n_s + M·π) / (n + M), the mean of a beta posterior."""
    return (hits + concentration * background) / (entries + concentration)


def concentration(groups: Sequence[tuple[float, float]], background: float) -> float:
    """How alike the groups are: the M under which their ``(hits, entries)`` are likeliest about ``background``.

    Maximises the beta-binomial marginal likelihood (the two-outcome Dirichlet-multinomial) over ``CONCENTRATIONS``,
    with a log-normal prior about ``CONCENTRATION``. Groups of one entry say nothing about M and are passed over.
    """
    telling = [(hits, entries) for hits, entries in groups if entries > 1]
    if not telling or not 0 < background < 1:
        return CONCENTRATION
    return max(CONCENTRATIONS, key=lambda m: _marginal(telling, background, m))


def _marginal(groups: Sequence[tuple[float, float]], background: float, m: float) -> float:
    yes, no = m * background, m * (1 - background)
    total = -0.5 * (math.log(m / CONCENTRATION) / _SPREAD) ** 2
    constant = math.lgamma(m) - math.lgamma(yes) - math.lgamma(no)
    for hits, entries in groups:
        total += constant + math.lgamma(yes + hits) + math.lgamma(no + entries - hits) - math.lgamma(m + entries)
    return total
