"""Facets: the few lists by which search results can be narrowed, and how many entries each choice would leave.

CONTRACT (mirrored in JavaScript). A facet value is a *key* with a *label*. Keys: the term's id; for maker and licence
the folded words joined by hyphens; for board the marking folded to letters and digits; outcome as in the entry; for the
*numeric* facets year, minutes and cost a whole number (minutes and cost rounded up). An entry may have several values
of a facet, or none. A value's label is the one that most entries have (of equals the first by code point).

Choosing: several values of one facet mean any of them, several facets mean all of them. A key behind a hyphen
(``-dehumidifier``) *excludes*: entries that have it go. ``LOW..HIGH`` (either may be missing, both count as inside)
chooses a range of a numeric facet. The counts of a facet are taken over the entries that match the query and the
choices in all *other* facets, so a choice does not hide its alternatives. Facets with ``bands`` list those ranges in
place of their numbers. Values stand by count downwards, then key upwards (bands in their own order); values that are
chosen or excluded are listed even when their count is 0. :func:`facet_key` makes the key of what somebody wrote.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal, NamedTuple

from benchlore.terms.fold import compact, words

Band = tuple[int, int | None]
"""A range of whole numbers, both ends inside; None: without end."""


@dataclass(frozen=True, slots=True)
class Facet:
    """A facet: the name used in queries and addresses, its heading, and where labels come from (a kind of term)."""

    name: str
    label: str
    kind: str | None = None
    key: Literal["words", "marking", "number"] = "words"
    bands: tuple[Band, ...] = ()
    unit: str = ""


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
    Facet("year", "Year", key="number"),
    Facet("licence", "Licence"),
    Facet("minutes", "Bench time", None, "number", ((0, 15), (16, 30), (31, 60), (61, 120), (121, None)), "min"),
    Facet("cost", "Parts cost", None, "number", ((0, 5), (6, 20), (21, 50), (51, 100), (101, None))),
)
FACET_NAMES: tuple[str, ...] = tuple(facet.name for facet in FACETS)
_BY_NAME = {facet.name: facet for facet in FACETS}
NUMBER = r"(<|>)? *([0-9]{0,7}) *(\.\.|-)? *([0-9]{0,7})"
"""How a number or a range is written: ``2024``, ``..60``, ``30..60``, ``30-60``, ``<60``, ``>60``."""
_NUMBER = re.compile(NUMBER)
_RANGE = re.compile(r"([0-9]*)\.\.([0-9]*)")

Choice = tuple[str, str]
"""A facet value: key and label."""


@dataclass(frozen=True, slots=True)
class FacetValue:
    """A value of a facet with the number of entries that choosing it would show (excluding it: take away)."""

    key: str
    label: str
    count: int
    chosen: bool
    excluded: bool = False


@dataclass(frozen=True, slots=True)
class FacetCounts:
    """One facet of an answer."""

    name: str
    label: str
    values: tuple[FacetValue, ...]


def facet_key(name: str, written: str) -> str:
    """The key of a value as written: ``Wet and dry vacuum`` is ``wet-and-dry-vacuum``, ``BWC 02`` is ``bwc02``."""
    facet = _BY_NAME[name]
    written = written.strip(" \t\r\n\u00a0")
    if written[:1] == "-" and len(written) > 1:
        return f"-{facet_key(name, written[1:])}"
    if facet.key == "marking":
        return compact(written)
    if facet.key == "number":
        number = _number_key(written, bool(facet.bands))
        if number:
            return number
    return "-".join(word.text for word in words(written))


def _number_key(written: str, is_limit: bool) -> str | None:
    match = _NUMBER.fullmatch(written)
    if not match:
        return None
    sign, low, dots, high = match.groups()
    if sign:
        return None if dots or high or not low else f"..{int(low)}" if sign == "<" else f"{int(low)}.."
    if dots:
        return f"{int(low) if low else ''}..{int(high) if high else ''}" if low or high else None
    if not low or high:
        return None
    return f"..{int(low)}" if is_limit else str(int(low))


def range_of(key: str) -> Band | None:
    """The range that a key stands for; None for a plain key."""
    match = _RANGE.fullmatch(key)
    if not match or key == "..":
        return None
    return int(match[1] or 0), int(match[2]) if match[2] else None


def band_key(band: Band) -> str:
    """The key of a band: ``..15``, ``16..30``, ``121..``."""
    low, high = band
    return f"{low or ''}..{'' if high is None else high}"


def band_label(band: Band, unit: str) -> str:
    """A range in words: ``up to 15 min``, ``16 to 30 min``, ``121 min or more``."""
    low, high = band
    after = f"\u00a0{unit}" if unit else ""
    if high is None:
        return f"{low}{after} or more"
    return f"{low} to {high}{after}" if low else f"up to {high}{after}"


def chosen_keys(filters: Mapping[str, Sequence[str]]) -> dict[str, list[str]]:
    """Filters as written, as keys; facets without a value are left out. Unknown facet names raise KeyError."""
    keys = {name: list(dict.fromkeys(facet_key(name, v) for v in values)) for name, values in filters.items()}
    return {name: values for name, values in keys.items() if values}


class Column(NamedTuple):
    """A facet of all entries: the choices by key; the sets of choices that occur, commonest first; each entry's set."""

    choices: list[Choice]
    combos: list[tuple[int, ...]]
    values: Sequence[int]


def columns(values: Sequence[Sequence[Sequence[Choice]]]) -> list[Column]:
    """The columns of ``values[entry][facet]``, the choices that each entry has."""
    return [_column([facets[number] for facets in values]) for number in range(len(FACETS))]


def _column(of_entries: Sequence[Sequence[Choice]]) -> Column:
    labels: dict[str, Counter[str]] = {}
    for choices in of_entries:
        for key, label in choices:
            labels.setdefault(key, Counter())[label] += 1
    usual = {key: min(said, key=lambda label: (-said[label], label)) for key, said in labels.items()}
    place = {key: number for number, key in enumerate(sorted(usual))}
    combos = [tuple(sorted(place[key] for key, _ in choices)) for choices in of_entries]
    counted = Counter(combos)
    order = sorted(counted, key=lambda combo: (-counted[combo], combo))
    number_of = {combo: number for number, combo in enumerate(order)}
    return Column([(key, usual[key]) for key in sorted(usual)], order, [number_of[combo] for combo in combos])


class FacetIndex:
    """Facet values of all entries, by entry number."""

    def __init__(self, columns: Sequence[Column]) -> None:
        """``columns`` in the order of ``FACETS``."""
        self.columns = columns
        self._having = cache(self._entries_with)

    def choices(self, name: str) -> list[Choice]:
        """All values of a facet, sorted by key."""
        return self.columns[FACET_NAMES.index(name)].choices

    def numbers(self, name: str) -> list[int | None]:
        """Each entry's number in a numeric facet; None where it has none."""
        choices, combos, values = self.columns[FACET_NAMES.index(name)]
        of_combo = [int(choices[combo[0]][0]) if combo else None for combo in combos]
        return [of_combo[value] for value in values]

    def _entries_with(self, facet: int, key: str) -> frozenset[int]:
        choices, combos, values = self.columns[facet]
        band = range_of(key) if FACETS[facet].key == "number" else None
        ids = {n for n, (k, _) in enumerate(choices) if (_inside(k, band) if band else k == key)}
        wanted = {number for number, combo in enumerate(combos) if not ids.isdisjoint(combo)}
        return frozenset(entry for entry, value in enumerate(values) if value in wanted) if wanted else frozenset()

    def allowed(self, chosen: Mapping[str, Sequence[str]], without: str = "") -> Collection[int] | None:
        """Entries that fit all choices, leaving one facet out; None when nothing is chosen."""
        found: set[int] | frozenset[int] | None = None
        for number, facet in enumerate(FACETS):
            keys = chosen.get(facet.name)
            if not keys or facet.name == without:
                continue
            wanted = [key for key in keys if not key.startswith("-")]
            if wanted:
                having = frozenset().union(*(self._having(number, key) for key in wanted))
                found = having if found is None else found & having
            for key in keys:
                if key.startswith("-"):
                    found = set(range(len(self.columns[number].values))) if found is None else found
                    found = found - self._having(number, key[1:])
        return found

    def count(self, matching: Collection[int], chosen: Mapping[str, Sequence[str]]) -> list[FacetCounts]:
        """The facets over the entries that match the query (before any choice), given what is chosen."""
        matches = matching if isinstance(matching, (set, frozenset)) else set(matching)
        everything = self.allowed(chosen)
        fitting: Collection[int] = matches if everything is None else matches.intersection(everything)
        result = []
        for number, facet in enumerate(FACETS):
            within = fitting
            if facet.name in chosen:
                others = self.allowed(chosen, without=facet.name)
                within = matches if others is None else matches.intersection(others)
            result.append(FacetCounts(facet.name, facet.label, self._values(number, within, chosen)))
        return result

    def _values(
        self, number: int, within: Collection[int], chosen: Mapping[str, Sequence[str]]
    ) -> tuple[FacetValue, ...]:
        facet, (choices, combos, values) = FACETS[number], self.columns[number]
        picked = list(chosen.get(facet.name, ()))
        counts = [0] * len(choices)
        for combo, times in Counter(map(values.__getitem__, within)).items():
            for choice in combos[combo]:
                counts[choice] += times
        rows: list[tuple[str, str, int]]
        if facet.bands:
            rows = [(band_key(b), band_label(b, facet.unit), _sum(choices, counts, b)) for b in facet.bands]
        else:
            rows = [(key, label, count) for (key, label), count in zip(choices, counts, strict=True)]
            rows = sorted((row for row in rows if row[2] or row[0] in picked or f"-{row[0]}" in picked), key=_by_count)
        known = {row[0] for row in rows}
        for key in dict.fromkeys(key.removeprefix("-") for key in picked):
            if key not in known:
                band = range_of(key) if facet.key == "number" else None
                label = band_label(band, facet.unit) if band else key
                rows.append((key, label, _sum(choices, counts, band) if band else 0))
        listed = [FacetValue(key, label, count, key in picked, f"-{key}" in picked) for key, label, count in rows]
        return tuple(value for value in listed if value.count or value.chosen or value.excluded)


def _by_count(row: tuple[str, str, int]) -> tuple[int, str]:
    return -row[2], row[0]


def _inside(key: str, band: Band) -> bool:
    return band[0] <= int(key) and (band[1] is None or int(key) <= band[1])


def _sum(choices: Iterable[Choice], counts: Iterable[int], band: Band) -> int:
    return sum(count for (key, _), count in zip(choices, counts, strict=True) if _inside(key, band))
