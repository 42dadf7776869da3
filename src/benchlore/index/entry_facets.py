"""The facet values of an entry, read from its fields and the vocabulary."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from benchlore.index.facets import FACETS, Choice, Facet, facet_key
from benchlore.index.fields import causes, current
from benchlore.read.entry import FaultEntry
from benchlore.terms.model import EquipmentClass
from benchlore.terms.vocabulary import Vocabulary

_MOST = 9_999_999
"""Numbers of seven digits are the largest that a facet knows."""


def facets_of(
    entry: FaultEntry, vocabulary: Vocabulary, licence: str | None = None, currency: str | None = None
) -> list[list[Choice]]:
    """The entry's values for each of ``FACETS``, in that order, without doubles.

    ``licence`` and ``currency`` are the shop's: for entries and prices that name none. Costs in any other currency are
    left out, since they cannot be compared.
    """
    equipment = entry.equipment
    class_id = current(vocabulary, "class", equipment.class_)
    class_term = vocabulary.get_as(EquipmentClass, class_id)
    found = causes(entry)
    named: dict[str, Iterable[str | None]] = {
        "class": [class_id],
        "symptom": [seen.term for seen in entry.symptoms],
        "block": [cause.block for cause in found],
        "component": [cause.component_class for cause in found],
        "failure": [cause.failure_mode for cause in found],
        "outcome": [entry.outcome],
        "maker": [equipment.maker if equipment.maker and equipment.maker.lower() != "unknown" else None],
        "board": [board.marking for board in equipment.boards],
        "hazard": [*entry.hazards, *(class_term.hazards if class_term else ())],
        "year": [str(entry.date.year)],
        "licence": [entry.licence or licence],
        "minutes": [_whole(entry.minutes_spent)],
        "cost": [_whole(_cost(entry, currency))],
    }
    return [_choices(facet, named[facet.name], vocabulary) for facet in FACETS]


def _whole(number: float | None) -> str | None:
    return None if number is None else str(min(_MOST, max(0, ceil(number))))


def _cost(entry: FaultEntry, currency: str | None) -> float | None:
    """What the fitted parts cost together; None without a price, or with one in another currency."""
    prices = [(p.unit_price, p.quantity) for p in entry.parts if p.use == "fitted" and p.unit_price]
    if not prices or any(price.currency not in (None, currency) for price, _ in prices):
        return None
    return float(sum(price.amount * count for price, count in prices))


def _choices(facet: Facet, written: Iterable[str | None], vocabulary: Vocabulary) -> list[Choice]:
    choices: dict[str, str] = {}
    for value in written:
        if not value:
            continue
        if facet.key == "number":
            choices.setdefault(value, value)
        elif facet.kind:
            value = current(vocabulary, facet.kind, value)
            choices.setdefault(value, vocabulary.label(facet.kind, value))
        else:
            label = value.replace("-", " ").capitalize() if facet.name == "outcome" else value
            choices.setdefault(facet_key(facet.name, value), label)
    return [(key, label) for key, label in choices.items() if key]
