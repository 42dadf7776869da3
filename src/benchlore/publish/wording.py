"""How dates, minutes, money and counts are worded on pages, and which spaces must not break."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence
from decimal import Decimal

from benchlore.read.fields import Money

NBSP = "\N{NO-BREAK SPACE}"
_JOINER = "\N{WORD JOINER}"
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
_QUALIFIED = re.compile(r"(?<=[VAW]) (?=(?:ac|dc|p-p|pk|rms)\b)")
_SYMBOLS = {"EUR": "€", "GBP": "£", "USD": "$"}
_NUMBER_UNIT = re.compile(
    r"(?<=\d) (?=(?:%|°C|[pnµukMGm]?(?:V|A|Ω|ohm|F|H|Hz|W|VA|Wh|Ah|J|C|s|m|g|l|bar)"
    r"|mm|cm|min(?:utes?)?|h|hours?|dB|ppm|rpm)(?![A-Za-z]))"
)


def unbroken(text: str) -> str:
    """``text`` with no line break between a number and its unit, nor inside ``9…23`` and ``p-p``."""
    joined = _QUALIFIED.sub(NBSP, _NUMBER_UNIT.sub(NBSP, text))
    return joined.replace("…", f"…{_JOINER}").replace("p-p", f"p-{_JOINER}p")


def day(date: dt.date) -> str:
    """``3 May 2026``."""
    return f"{date.day}{NBSP}{_MONTHS[date.month - 1]}{NBSP}{date.year}"


def count(number: int, one: str, many: str | None = None) -> str:
    """``1 repair``, ``12 repairs``."""
    return f"{number:,}{NBSP}{one if number == 1 else many or one + 's'}".replace(",", "\N{NARROW NO-BREAK SPACE}")


def plain_number(number: float) -> str:
    """A number without a needless decimal point."""
    return f"{number:g}"


def minutes(number: float) -> str:
    """``60 minutes``; from two hours on ``2 h 30 min``."""
    if number < 120:
        return f"{plain_number(number)}{NBSP}{'minute' if number == 1 else 'minutes'}"
    hours, rest = divmod(round(number), 60)
    return f"{hours}{NBSP}h" + (f"{NBSP}{rest}{NBSP}min" if rest else "")


def minutes_short(number: float) -> str:
    """``60 min``."""
    return f"{plain_number(number)}{NBSP}min"


def money(amount: Decimal, currency: str) -> str:
    """``1.10 €``; currencies without a common sign keep their letters."""
    return f"{amount:.2f}{NBSP}{_SYMBOLS.get(currency, currency)}"


def totals(amounts: Iterable[tuple[Money, int]], shop_currency: str) -> str | None:
    """The sum of price times quantity, one figure for each currency; None when there are no prices."""
    sums: dict[str, Decimal] = {}
    for price, quantity in amounts:
        currency = price.currency or shop_currency
        sums[currency] = sums.get(currency, Decimal(0)) + price.amount * quantity
    return " + ".join(money(total, currency) for currency, total in sorted(sums.items())) or None


def listed(items: Sequence[str], joint: str = "and") -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {joint} {items[-1]}"


def capital(text: str) -> str:
    """``text`` with its first letter as a capital; units and signs (``mA``, ``µF``, ``i2c``) stay as they are."""
    first, second = text[:1], text[1:2]
    plain = first.isascii() and not (second.isupper() or second.isdigit())
    return first.upper() + text[1:] if plain else text


def inside(label: str) -> str:
    """A label inside a sentence: its first letter small, unless it is a sign or short form (``X``, ``LED``, ``R1``)."""
    return label[:1].lower() + label[1:] if label[1:2].islower() else label
