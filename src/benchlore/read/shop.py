"""``site_config/shop.yaml``: the shop's name, money, supply, instruments and their accuracy, safety limits."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from benchlore.errors import BenchloreError
from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse
from benchlore.read.build import build
from benchlore.read.fields import (
    ADDRESS_FORM,
    CURRENCY_FORM,
    LANGUAGE_FORM,
    QuantityId,
    QuantityText,
    ShortText,
    TestId,
    Text,
    read_quantity,
)
from benchlore.read.files import read_text
from benchlore.read.problem import Problem, shown
from benchlore.read.span import locate
from benchlore.read.yaml_nodes import read_yaml

SHOP_FILE = Path("site_config") / "shop.yaml"
"""Where it lies in a knowledge base; the file that marks a folder as one."""


class ShopError(BenchloreError):
    """A ``shop.yaml`` that cannot be read. ``file``, ``line``, ``column`` say where the first of ``problems`` is."""

    def __init__(self, file: str, line: int, column: int, problems: tuple[Problem, ...]) -> None:
        first = problems[0]
        more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
        super().__init__(f"{file}:{line}:{column}: {first.message}{more}", hint=first.hint)
        self.file = file
        self.line = line
        self.column = column
        self.problems = problems


def _quantity_in(unit: str) -> BeforeValidator:
    """A quantity that must have ``unit``; kept as its SI value."""

    def read(raw: Any) -> float:
        if isinstance(raw, (int, float)):
            return float(raw)
        quantity = read_quantity(raw, unit=unit)
        if quantity.value is None or quantity.unit != unit:
            raise PydanticCustomError(
                "quantity",
                "{message}",
                {"message": f"expected one value in {unit}, found {shown(raw)}", "hint": ""},
            )
        return quantity.value

    return BeforeValidator(read)


Volts = Annotated[float, _quantity_in("V"), Field(gt=0, le=1000)]
Hertz = Annotated[float, _quantity_in("Hz"), Field(gt=0, le=1000)]


@dataclass(frozen=True, slots=True)
class Accuracy:
    """A meter's accuracy: ±(``percent`` % of the reading + ``counts`` of the last digit + ``fixed`` in SI units)."""

    percent: float = 0.0
    counts: float = 0.0
    fixed: float = 0.0


def _read_accuracy(raw: Any) -> Accuracy:
    if isinstance(raw, Accuracy):
        return raw
    percent = counts = fixed = 0.0
    for part in str(raw).strip().lstrip("±").strip("() ").split("+"):
        if match := re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(%|counts?|digits?)?\s*", part):
            if match[2] == "%":
                percent += float(match[1])
            else:
                counts += float(match[1])
            continue
        try:
            value = parse(part.strip()).value
        except QuantityError:
            value = None
        if value is None:
            raise PydanticCustomError("accuracy", "an accuracy reads like 0.5 % + 2, or 1 % + 2 °C")
        fixed += abs(value)
    return Accuracy(percent, counts, fixed)


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class Supply(_Part):
    """The mains supply of the place. Voltages are rms values in volts, the frequency is in hertz."""

    voltage: Volts
    highest: Volts
    """The highest rms voltage to reckon with, as EN 50160 or the local code has it."""
    frequency: Hertz


class Instrument(_Part):
    """A measuring instrument of the shop."""

    label: ShortText
    counts: Annotated[int, Field(ge=100, le=100_000_000)] | None = None
    """What its display counts to, such as 4000 or 6000; gives the size of the last digit for a reading."""
    accuracy: dict[QuantityId, Annotated[Accuracy, BeforeValidator(_read_accuracy)]] = {}
    """Accuracy by quantity: ``0.5 % + 2`` is half a per cent of the reading and two counts of the last digit."""

    def uncertainty(self, quantity: str, value: float) -> float | None:
        """Half-width of the interval around a reading of ``value``, both in SI units; None when not given.

        The last digit is that of the lowest decade range that shows ``value`` within ``counts``.
        """
        accuracy = self.accuracy.get(quantity)
        if accuracy is None:
            return None
        spread = abs(value) * accuracy.percent / 100 + accuracy.fixed
        if accuracy.counts and self.counts and value:
            spread += accuracy.counts * last_digit(value, self.counts)
        return spread


def last_digit(value: float, counts: int) -> float:
    """The step of a display that counts to ``counts``, in the lowest decade range that shows ``value`` (not 0)."""
    digit = Decimal(1)
    size = abs(Decimal(repr(value)))
    while size / digit > counts:
        digit *= 10
    while size / (digit / 10) <= counts:
        digit /= 10
    return float(digit)


class SafetyLimit(_Part):
    """What a safety test after repair must read, for every unit or by class of protection."""

    any: QuantityText | None = None
    I: QuantityText | None = None  # noqa: E741 - the trade's own name
    II: QuantityText | None = None
    III: QuantityText | None = None
    source: ShortText | None = None
    """The code or practice the limits come from."""

    def for_protection(self, protection: str | None) -> Quantity | None:
        """The limit for a class of protection, else the one for every unit."""
        own = {"I": self.I, "II": self.II, "III": self.III}.get(protection or "")
        return own or self.any


class Shop(_Part):
    """The shop's configuration."""

    name: ShortText
    language: Annotated[str, Field(pattern=LANGUAGE_FORM)] = "en"
    currency: Annotated[str, Field(pattern=CURRENCY_FORM)] = "EUR"
    """ISO 4217 letters."""
    labour_rate: Annotated[Decimal, Field(ge=0, le=100_000)] = Decimal(0)
    """Money for an hour of work."""
    supply: Supply = Supply(voltage=230.0, highest=253.0, frequency=50.0)
    instruments: dict[ShortText, Instrument] = {}
    safety_limits: dict[TestId, SafetyLimit] = {}
    licence: ShortText = "CC-BY-SA-4.0"
    """SPDX expression of the licence of entries that name none."""
    site_url: Annotated[str, Field(pattern=ADDRESS_FORM, max_length=200)] | None = None
    """Where the site will be served, if anywhere."""
    about: Text | None = None
    """A line or two about the shop, for the home page."""


def read_shop(path: Path, file: str) -> Shop:
    """Read ``path``, called ``file`` in messages. Raises :class:`ShopError`; the file is taken as hostile input."""
    text, _, problems = read_text(path)
    if text is None:
        raise ShopError(file, 1, 1, problems)
    read = read_yaml(text)
    shop, found = build(Shop, read) if not read.problems else (None, read.problems)
    if shop is None:
        where = locate(text, found[:1], file)[0]
        raise ShopError(file, where.line, where.column, found)
    return shop
