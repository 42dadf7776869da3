"""Confidence intervals of counted shares."""

from __future__ import annotations

import math
from typing import NamedTuple

Z_95 = 1.959963984540054
"""Two-sided 95 % point of the standard normal distribution."""


class Interval(NamedTuple):
    """Lower and upper end of a share, 0..1."""

    low: float
    high: float


def wilson(hits: int, total: int, z: float = Z_95) -> Interval:
    """The Wilson score interval of ``hits`` out of ``total``, without continuity correction.

    Formula: (p + z²/2n ± z·√(p(1-p)/n + z²/4n²)) / (1 + z²/n); E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212.
    With ``total`` 0 nothing is known: (0, 1). Raises ValueError unless 0 <= hits <= total.
    """
    if not 0 <= hits <= total:
        raise ValueError(f"{hits} of {total} is no share")
    if total == 0:
        return Interval(0.0, 1.0)
    share = hits / total
    square = z * z
    middle = share + square / (2 * total)
    reach = z * math.sqrt(share * (1 - share) / total + square / (4 * total * total))
    scale = 1 + square / total
    return Interval(
        0.0 if hits == 0 else (middle - reach) / scale,
        1.0 if hits == total else (middle + reach) / scale,
    )
