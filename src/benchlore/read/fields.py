"""The field types of an entry: how the text of a YAML scalar becomes a term id, a quantity, a date, minutes, money."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainSerializer, WithJsonSchema
from pydantic_core import PydanticCustomError

from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse


@dataclass(frozen=True, slots=True)
class TermRef:
    """Marks a field as holding the id of a term of ``kind``; read by lint, the JSON Schema and the index."""

    kind: str

    def __get_pydantic_json_schema__(self, core_schema: Any, handler: Any) -> dict[str, Any]:
        """A mark for :mod:`benchlore.read.json_schema`, which puts the terms of the kind in its place."""
        return {"type": "string", "x-term-kind": self.kind}


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in a currency (ISO 4217 letters), or a bare amount in the shop's own currency (``currency`` None)."""

    amount: Decimal
    currency: str | None = None

    def __str__(self) -> str:
        return f"{self.amount} {self.currency}" if self.currency else str(self.amount)


def read_quantity(raw: Any, *, unit: str | None = None) -> Quantity:
    """The text of a field as a quantity, ``unit`` being understood; raises what pydantic collects as an error."""
    if isinstance(raw, Quantity):
        return raw
    try:
        return parse(str(raw), unit=unit)
    except QuantityError as error:
        raise PydanticCustomError(
            "quantity",
            "{message}",
            {"message": error.message, "hint": error.hint},
        ) from None


def _read_flag(raw: Any) -> bool:
    if isinstance(raw, bool):
        return raw
    word = str(raw).strip().lower()
    if word in {"yes", "true", "y"}:
        return True
    if word in {"no", "false", "n"}:
        return False
    raise PydanticCustomError("flag", "expected yes or no")


def _read_date(raw: Any) -> dt.date:
    if isinstance(raw, dt.date):
        return raw
    text = str(raw).strip()
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        raise PydanticCustomError("date", "expected a date as YYYY-MM-DD")
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise PydanticCustomError("date", "there is no such day") from None


def _read_number(raw: Any) -> float:
    if isinstance(raw, (int, float)) and not isinstance(raw, bool):
        return float(raw)
    text = str(raw).strip()
    if not re.fullmatch(r"\d{1,6}(\.\d{1,3})?", text):
        raise PydanticCustomError("number", "expected a plain number")
    return float(text)


def _read_count(raw: Any) -> int:
    number = _read_number(raw)
    if number != int(number):
        raise PydanticCustomError("count", "expected a whole number")
    return int(number)


def _read_money(raw: Any) -> Money:
    if isinstance(raw, Money):
        return raw
    match = re.fullmatch(r"(\d{1,7}(?:\.\d{1,2})?)(?:\s*([A-Z]{3}))?", str(raw).strip())
    if not match:
        raise PydanticCustomError("money", "expected an amount such as 1.10 EUR")
    return Money(Decimal(match[1]), match[2])


def _as_text(value: Any) -> str:
    return value.text if isinstance(value, Quantity) else str(value)


SLUG_FORM = r"^[a-z0-9]+(-[a-z0-9]+)*$"
CURRENCY_FORM = r"^[A-Z]{3}$"
LANGUAGE_FORM = r"^[a-z]{2,3}(-[A-Z]{2})?$"
ADDRESS_FORM = r"^https?://[^\s<>\"']+$"
FORMS: dict[str, str] = {
    SLUG_FORM: "Lower-case letters, digits and single hyphens.",
    CURRENCY_FORM: "Three capital letters, as in ISO 4217: EUR.",
    LANGUAGE_FORM: "A language, and a country if it matters: en, or en-GB.",
    ADDRESS_FORM: "An address that starts with https:// or http://",
}
"""The forms that a text may have to have, and how to tell somebody."""

Text = Annotated[str, Field(min_length=1, max_length=2_000, pattern=r"\S")]
"""A line or a few of plain words."""
ShortText = Annotated[str, Field(min_length=1, max_length=200, pattern=r"^[^\n]*\S[^\n]*$")]
"""One line of plain words."""
LongText = Annotated[str, Field(max_length=40_000)]
"""Markdown notes."""
Slug = Annotated[str, Field(pattern=SLUG_FORM, min_length=3, max_length=100)]
"""The name of an entry: its file's name and its page's address."""
QuantityText = Annotated[
    Quantity,
    BeforeValidator(read_quantity),
    PlainSerializer(_as_text, return_type=str),
    WithJsonSchema({"type": ["string", "number"], "minLength": 1}),
]
"""A quantity as technicians write it, such as 4k7, <50 mV p-p or 24 V ±10 %."""
Flag = Annotated[bool, BeforeValidator(_read_flag), WithJsonSchema({"enum": [True, False, "yes", "no"]})]
"""Yes or no."""
Date = Annotated[
    dt.date,
    BeforeValidator(_read_date),
    WithJsonSchema({"type": "string", "format": "date", "pattern": r"^\d{4}-\d{2}-\d{2}$"}),
]
"""A day, as YYYY-MM-DD."""
MinutesField = Annotated[
    float,
    BeforeValidator(_read_number),
    WithJsonSchema({"type": ["number", "string"], "minimum": 0, "pattern": r"^\d{1,6}(\.\d{1,3})?$"}),
]
"""Minutes."""
Count = Annotated[
    int,
    BeforeValidator(_read_count),
    Field(ge=0),
    WithJsonSchema({"type": ["integer", "string"], "minimum": 0, "pattern": r"^\d{1,6}$"}),
]
"""A whole number."""
Year = Annotated[
    int,
    BeforeValidator(_read_count),
    Field(ge=1900, le=2100),
    WithJsonSchema({"type": ["integer", "string"], "minimum": 1900, "maximum": 2100, "pattern": r"^(19|20|21)\d\d$"}),
]
"""A year."""
MoneyField = Annotated[
    Money,
    BeforeValidator(_read_money),
    PlainSerializer(str, return_type=str),
    WithJsonSchema({"type": ["string", "number"], "minimum": 0, "pattern": r"^\d{1,7}(\.\d{1,2})?(\s*[A-Z]{3})?$"}),
]
"""An amount with its currency, such as 1.10 EUR."""

_TermId = Annotated[str, Field(min_length=1, max_length=100)]
ClassId = Annotated[_TermId, TermRef("class")]
SymptomId = Annotated[_TermId, TermRef("symptom")]
BlockId = Annotated[_TermId, TermRef("block")]
ComponentId = Annotated[_TermId, TermRef("component")]
FailureModeId = Annotated[_TermId, TermRef("failure-mode")]
MechanismId = Annotated[_TermId, TermRef("mechanism")]
TestId = Annotated[_TermId, TermRef("test")]
HazardId = Annotated[_TermId, TermRef("hazard")]
ActionId = Annotated[_TermId, TermRef("action")]
QuantityId = Annotated[_TermId, TermRef("quantity")]
RatingId = Annotated[_TermId, TermRef("rating")]
ConditionId = Annotated[_TermId, TermRef("condition")]
ToolId = Annotated[_TermId, TermRef("tool")]
