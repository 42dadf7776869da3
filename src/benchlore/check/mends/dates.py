"""Days written in another way than ISO 8601, where only one day can be meant."""

from __future__ import annotations

import datetime as dt
import re

_BETWEEN = r"\s*[-/.\u2010-\u2015 ]\s*"
_YEAR_FIRST = re.compile(rf"(\d{{4}}){_BETWEEN}(\d{{1,2}}){_BETWEEN}(\d{{1,2}})(?:[t ]\d\d:\d\d.*)?")
_TOGETHER = re.compile(r"(\d{4})(\d\d)(\d\d)")
_DOTTED = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})")
"""With full stops the day comes first, wherever that is written (EN 28601, DIN 5008)."""
_EITHER = re.compile(r"(\d{1,2})\s*[/-]\s*(\d{1,2})\s*[/-]\s*(\d{4})")
_DAY_WORD = re.compile(r"(\d{1,2})(?:st|nd|rd|th|\.)?[\s-]+([a-z]{3,9})\.?,?[\s-]+(\d{4})")
_WORD_DAY = re.compile(r"([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")


def day_meant(text: str) -> dt.date | None:
    """The one day that ``text`` can mean; None when it is none, or could be several (03/05/2026)."""
    text = text.strip().lower()
    if match := _YEAR_FIRST.fullmatch(text) or _TOGETHER.fullmatch(text):
        return _day(int(match[1]), int(match[2]), int(match[3]))
    if match := _DOTTED.fullmatch(text):
        return _day(int(match[3]), int(match[2]), int(match[1]))
    if match := _EITHER.fullmatch(text):
        days = {_day(int(match[3]), int(match[2]), int(match[1])), _day(int(match[3]), int(match[1]), int(match[2]))}
        days.discard(None)
        return days.pop() if len(days) == 1 else None
    if match := _DAY_WORD.fullmatch(text):
        return _in_words(match[3], match[2], match[1])
    if match := _WORD_DAY.fullmatch(text):
        return _in_words(match[3], match[1], match[2])
    return None


_FULL = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
         "december")  # fmt: skip


def _in_words(year: str, month: str, day: str) -> dt.date | None:
    found = [n for n, full in enumerate(_FULL, start=1) if full.startswith(month) or (month == "sept" and n == 9)]
    return _day(int(year), found[0], int(day)) if len(found) == 1 else None


def _day(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None
