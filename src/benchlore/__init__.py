"""The public names of Benchlore, re-exported; each is imported from its stage when it is first asked for."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from benchlore.check.finding import Finding
    from benchlore.check.runner import Report, lint
    from benchlore.errors import BenchloreError
    from benchlore.index.search import Answer, search
    from benchlore.publish.writer import PublishResult, publish
    from benchlore.quantity.format import format_quantity
    from benchlore.quantity.model import Quantity, QuantityError
    from benchlore.quantity.parse import parse as parse_quantity
    from benchlore.read.base import Base, Record
    from benchlore.read.entry import FaultEntry
    from benchlore.read.parse import ParsedEntry, parse_entry
    from benchlore.terms.vocabulary import Vocabulary

__all__ = [
    "Answer",
    "Base",
    "BenchloreError",
    "FaultEntry",
    "Finding",
    "ParsedEntry",
    "PublishResult",
    "Quantity",
    "QuantityError",
    "Record",
    "Report",
    "Vocabulary",
    "format_quantity",
    "lint",
    "parse_entry",
    "parse_quantity",
    "publish",
    "search",
]

_HOMES = {
    "Answer": "index.search",
    "Base": "read.base",
    "BenchloreError": "errors",
    "FaultEntry": "read.entry",
    "Finding": "check.finding",
    "ParsedEntry": "read.parse",
    "PublishResult": "publish.writer",
    "Quantity": "quantity.model",
    "QuantityError": "quantity.model",
    "Record": "read.base",
    "Report": "check.runner",
    "Vocabulary": "terms.vocabulary",
    "format_quantity": "quantity.format",
    "lint": "check.runner",
    "parse_entry": "read.parse",
    "parse_quantity": "quantity.parse:parse",
    "publish": "publish.writer",
    "search": "index.search",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'benchlore' has no attribute {name!r}")
    module, _, inner = _HOMES[name].partition(":")
    found = getattr(importlib.import_module(f"benchlore.{module}"), inner or name)
    globals()[name] = found
    return found
