"""Did-you-mean: the candidates closest to what was written."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(text: str, candidates: Iterable[str], *, limit: int = 3, cutoff: float = 0.65) -> list[str]:
    """Up to ``limit`` candidates that resemble ``text``, best first (ratio of matching characters ≥ ``cutoff``)."""
    return get_close_matches(text[:80], list(candidates), n=limit, cutoff=cutoff)
