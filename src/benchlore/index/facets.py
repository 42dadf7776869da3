"""Facets: the few lists by which search results can be narrowed, and how many entries each choice would leave.

CONTRACT (mirrored in JavaScript). A facet value is a *key* with a *label*. Keys: the term's id; for maker and licence
the folded words joined by hyphens; for board the marking folded to letters and digits; outcome as in the entry; year
in four digits. An entry may have several values of a facet, or none.

Choosing: several values of one facet mean any of them, several facets mean all of them. The counts of a facet are taken
over the entries that match the query and the choices in all *other* facets, so a choice does not hide its
alternatives. Values stand by count downwards, then key upwards; values that are chosen are listed even when their
count is 0. :func:`facet_key` makes the key of what somebody wrote.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from benchlore.index.fields import causes, current
from benchlore.read.entry import FaultEntry
from benchlore.terms.fold import compact, words
from benchlore.terms.model import EquipmentClass
from benchlore.terms.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True)
class Facet:
    """A facet: the name used in queries and addresses, its heading, and where labels come from (a kind of term)."""

    name: str
    label: str
    kind: str | None = None
    key: Literal["words", "marking"] = "words"


FACETS: tuple[Facet, ...] = (
    Facet("class", "Equipment", "class"),
    Facet("symptom", "Symptom", "symptom"),
    Facet("block", "Block", "block"),
    Facet("component", "It was", "component"),
    Facet("failure", "How it failed", "failure-mode"),
    Facet("outcome", "Outcome"),
    Facet("maker", "Maker"),
    Facet("board", "Board", key="marking"),
    Facet("hazard", "Hazard", "hazard"),
    Facet("year", "Year"),
    Facet("licence", "Licence"),
)
FACET_NAMES: tuple[str, ...] = tuple(facet.name for facet in FACETS)
_BY_NAME = {facet.name: facet for facet in FACETS}

Choice = tuple[str, str]
"""A facet value: key and label."""


@dataclass(frozen=True, slots=True)
class FacetValue:
    """A value of a facet with the number of entries that choosing it would show."""

    key: str
    label: str
    count: int
    chosen: bool


@dataclass(frozen=True, slots=True)
class FacetCounts:
    """One facet of an answer."""

    name: str
    label: str
    values: tuple[FacetValue, ...]


def facet_key(name: str, written: str) -> str:
    """The key of a value as written: ``Wet and dry vacuum`` is ``wet-and-dry-vacuum``, ``BWC 02`` is ``bwc02``."""
    if _BY_NAME[name].key == "marking":
        return compact(written)
    return "-".join(word.text for word in words(written))


def facets_of(entry: FaultEntry, vocabulary: Vocabulary, licence: str | None = None) -> list[list[Choice]]:
    """The entry's values for each of ``FACETS``, in that order, without doubles; ``licence`` is the shop's default."""
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
    }
    return [_choices(facet, named[facet.name], vocabulary) for facet in FACETS]


def _choices(facet: Facet, written: Iterable[str | None], vocabulary: Vocabulary) -> list[Choice]:
    choices: dict[str, str] = {}
    for value in written:
        if not value:
            continue
        if facet.kind:
            value = current(vocabulary, facet.kind, value)
            choices.setdefault(value, vocabulary.label(facet.kind, value))
        else:
            label = value.replace("-", " ").capitalize() if facet.name == "outcome" else value
            choices.setdefault(facet_key(facet.name, value), label)
    return [(key, label) for key, label in choices.items() if key]


def chosen_keys(filters: Mapping[str, Sequence[str]]) -> dict[str, list[str]]:
    """Filters as written, as keys; facets without a value are left out. Unknown facet names raise KeyError."""
    keys = {name: list(dict.fromkeys(facet_key(name, v) for v in values)) for name, values in filters.items()}
    return {name: values for name, values in keys.items() if values}


class FacetIndex:
    """Facet values of all entries, by entry number."""

    def __init__(self, values: Sequence[Sequence[Sequence[Choice]]]) -> None:
        """``values[entry][facet]`` are the choices that the entry has."""
        self._having: list[dict[str, set[int]]] = [{} for _ in FACETS]
        self._labels: list[dict[str, Counter[str]]] = [{} for _ in FACETS]
        self._entries = len(values)
        for entry, facets in enumerate(values):
            for number, choices in enumerate(facets):
                for key, label in choices:
                    self._having[number].setdefault(key, set()).add(entry)
                    self._labels[number].setdefault(key, Counter())[label] += 1

    def label(self, facet: int, key: str) -> str:
        """How most entries write the value (of equals the first by code point)."""
        labels = self._labels[facet].get(key)
        return min(labels, key=lambda label: (-labels[label], label)) if labels else key

    def keys(self, facet: int) -> list[str]:
        """All values of a facet, sorted."""
        return sorted(self._having[facet])

    def allowed(self, chosen: Mapping[str, Sequence[str]], without: str = "") -> set[int] | None:
        """Entries that fit all choices, leaving one facet out; None when nothing is chosen."""
        found: set[int] | None = None
        for number, facet in enumerate(FACETS):
            keys = chosen.get(facet.name)
            if keys and facet.name != without:
                having = set().union(*(self._having[number].get(key, set()) for key in keys))
                found = having if found is None else found & having
        return found

    def count(self, matching: Collection[int], chosen: Mapping[str, Sequence[str]]) -> list[FacetCounts]:
        """The facets over the entries that match the query (before any choice), given what is chosen."""
        matches = matching if isinstance(matching, (set, frozenset)) else set(matching)
        result = []
        for number, facet in enumerate(FACETS):
            allowed = self.allowed(chosen, without=facet.name)
            within = matches if allowed is None else matches & allowed
            picked = chosen.get(facet.name, ())
            values = [
                FacetValue(key, self.label(number, key), len(having & within), key in picked)
                for key, having in self._having[number].items()
            ]
            values += [FacetValue(key, key, 0, True) for key in picked if key not in self._having[number]]
            shown = sorted((v for v in values if v.count or v.chosen), key=lambda v: (-v.count, v.key))
            result.append(FacetCounts(facet.name, facet.label, tuple(shown)))
        return result
