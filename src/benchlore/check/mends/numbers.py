"""Numbers, minutes and money written with words or signs, where only one figure can be meant."""

from __future__ import annotations

import re

_NUMBER = r"(\d{1,6}(?:[.,]\d{1,3})?)"
_MINUTES = re.compile(rf"{_NUMBER}\s*(?:m|min|mins|minutes?|')\.?")
_HOURS = re.compile(rf"{_NUMBER}\s*(?:h|hrs?|hours?)\.?")
_BOTH = re.compile(r"(\d{1,3})\s*(?:h|hrs?|hours?|:)\s*(\d{1,2})\s*(?:m|min|mins|minutes?)?\.?")
_COUNT = re.compile(r"(\d{1,6})\s*(?:x|×|pcs?|pieces?|off)\.?|(?:x|×)\s*(\d{1,6})")
_SIGNS = {"€": "EUR", "£": "GBP"}
"""Signs that stand for one currency alone; $ and kr do not."""
_MONEY = re.compile(r"(€|£|[A-Za-z]{3})?\s*(\d{1,7})(?:[.,](\d{1,2}))?\s*(€|£|[A-Za-z]{3})?")


def minutes_meant(text: str) -> str | None:
    """``1 h 30``, ``90 min`` or ``1.5 h`` as plain minutes; None when it is none of these."""
    text = text.strip().lower()
    if match := _MINUTES.fullmatch(text) or re.fullmatch(r"(\d{1,6},\d{1,2})", text):
        return _plain(float(match[1].replace(",", ".")))
    if match := _HOURS.fullmatch(text):
        return _plain(float(match[1].replace(",", ".")) * 60)
    if (match := _BOTH.fullmatch(text)) and int(match[2]) < 60:
        return _plain(int(match[1]) * 60 + int(match[2]))
    return None


def count_meant(text: str) -> str | None:
    """``2 pcs``, ``2x`` or ``2.0`` as a plain number; None when it is none of these."""
    text = text.strip().lower()
    if match := _COUNT.fullmatch(text):
        return match[1] or match[2]
    return None


def money_meant(text: str) -> str | None:
    """``1,10 €`` or ``EUR 1.1`` as ``1.10 EUR``; None when amount or currency are not certain."""
    match = _MONEY.fullmatch(text.strip())
    if not match or (match[1] and match[4]):
        return None
    sign = match[1] or match[4]
    currency = _SIGNS.get(sign, sign.upper()) if sign else ""
    amount = match[2] + (f".{match[3]:0<2}" if match[3] else "")
    return f"{amount} {currency}".strip()


def _plain(number: float) -> str | None:
    return f"{number:.3f}".rstrip("0").rstrip(".") if 0 <= number < 1_000_000 else None
