"""Fuse markings and breaking-capacity letters (IEC 60127, seen at second hand), for comparing fuses."""

from __future__ import annotations

import re
from collections.abc import Mapping

from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse

SPEEDS = {"FF": "very fast", "F": "fast", "M": "medium", "T": "time-lag", "TT": "very slow"}
"""Speed letters. IEC 60127 and an OPC companion specification that quotes it, at second hand."""
_LETTERS = {"E": 150.0, "H": 1500.0}
"""Amperes of the letters E and H; L is 35 A or ten times the rated current, whichever is more. Second hand."""
_MARKING = re.compile(
    r"\s*(FF|F|M|TT|T)\s*(\d+(?:[.,]\d+)?)\s*(m?)A?\s*([LEH])?\s*(?:(\d{2,4})\s*V\s*(?:ac|~)?)?\s*", re.IGNORECASE
)


def read_marking(text: str) -> dict[str, str] | None:
    """The ratings that a marking such as ``T2AL250V`` states; None when it is no fuse marking."""
    match = _MARKING.fullmatch(text)
    if match is None:
        return None
    ratings = {"speed-class": match[1].upper(), "current": f"{match[2].replace(',', '.')} {match[3].lower()}A"}
    if match[4]:
        ratings["breaking-capacity"] = match[4].upper()
    if match[5]:
        ratings["ac-voltage"] = f"{match[5]} V ac"
    return ratings


def breaking_capacity(ratings: Mapping[str, str]) -> float | None:
    """The breaking capacity in amperes that a fuse's ratings state, a letter or a current; None when not known."""
    written = ratings.get("breaking-capacity", "").strip()
    if written.upper() in _LETTERS:
        return _LETTERS[written.upper()]
    if written.upper() == "L":
        current = _amperes(ratings.get("current", ""))
        return max(35.0, 10 * current) if current else None
    return _amperes(written)


def _amperes(text: str) -> float | None:
    try:
        found = parse(text, unit="A") if text else None
    except QuantityError:
        return None
    return found.value if found and found.unit == "A" else None
