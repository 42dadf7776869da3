"""An entry as the index sees it: term counts by field, facet values, and the card that a hit shows."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING, NamedTuple

from benchlore.index.card import Card
from benchlore.index.entry_facets import facets_of
from benchlore.index.facets import Choice
from benchlore.index.fields import FIELDS, LENGTH_FIELDS, NUMBERS, alike, current
from benchlore.index.rank import Where, rounded_length
from benchlore.index.tokens import STOP_STEMS, analyse, has_digit, items_of, mark_term, pairs_of, terms_of
from benchlore.read.entry import FaultEntry
from benchlore.read.fields import Money
from benchlore.terms.recogniser import Recogniser
from benchlore.terms.vocabulary import Vocabulary

if TYPE_CHECKING:
    from benchlore.read.base import Record

MOST_TERMS = 50_000
"""Terms of one field of one entry that are indexed: bounds what a hostile entry can do."""


_LATER = {
    "holding": "holding",
    "same-fault": "came back",
    "other-fault": "another fault later",
    "our-work": "came back through our work",
}


@dataclass(frozen=True, slots=True)
class Document:
    """An entry ready for the index.

    ``fields[n]`` counts the terms of field n, save ``pairs``, for which ``items`` stands: all texts and labels as their
    items, each between two spaces, a line for each text. ``unsaid`` are the items that are neither terms nor stop words
    (denied words). ``words`` are the unstemmed words, sorted. ``lengths`` are the rounded sums for the fields of
    ``LENGTH_FIELDS``; ``plain_marks`` the folded model and board markings that hold no digit.
    """

    slug: str
    rel: str
    digest: str
    fields: tuple[dict[str, int], ...]
    items: str
    unsaid: tuple[str, ...]
    words: tuple[str, ...]
    lengths: tuple[int, ...]
    facets: list[list[Choice]]
    plain_marks: tuple[str, ...]
    card: Card


class Taken(NamedTuple):
    """What a piece of text gives: terms, unstemmed words (without ``raw:``), and its items for phrases."""

    terms: tuple[str, ...]
    words: tuple[str, ...]
    items: str


def _take_apart(text: str, recogniser: Recogniser | None) -> Taken:
    analysis = analyse(text, recogniser)
    terms = terms_of(analysis)
    return Taken(
        tuple(t for t in terms if not t.startswith("raw:")),
        tuple(t.removeprefix("raw:") for t in terms if t.startswith("raw:")),
        "".join(f" {item} " for item in items_of(analysis)),
    )


@lru_cache(maxsize=20_000)
def _label(text: str) -> Taken:
    return _take_apart(text, None)


def occurrences_of(document: Document) -> dict[str, Where]:
    """Where the entry has each of its terms, pairs aside."""
    length = dict(zip(LENGTH_FIELDS, document.lengths, strict=True))
    found: dict[str, list[tuple[int, int, int]]] = {}
    for number, counts in enumerate(document.fields):
        for term, tf in counts.items():
            found.setdefault(term, []).append((number, tf, length.get(number, 0)))
    return {term: tuple(where) for term, where in found.items()}


def pairs_in(document: Document) -> Counter[str]:
    """The ``pair:`` terms of the entry's running text, with how often each occurs."""
    return Counter(chain.from_iterable(pairs_of(line.split()) for line in document.items.splitlines()))


def document(
    record: Record, vocabulary: Vocabulary, *, licence: str | None = None, currency: str | None = None
) -> Document:
    """The document of a record; ``licence`` and ``currency`` are the shop's, where the entry names none."""
    counts: list[Counter[str]] = [Counter() for _ in FIELDS]
    pieces: list[str] = []
    words: set[str] = set()
    for number, field in enumerate(FIELDS):
        budget = MOST_TERMS
        for piece in field.read(record.entry, vocabulary):
            if piece.kind in ("term", "mark"):
                term = piece.text if piece.kind == "term" else mark_term(piece.text)
                taken = Taken((term,) if term else (), (), "")
            elif piece.kind == "label":
                taken = _label(piece.text)
            else:
                taken = _take_apart(piece.text, vocabulary.recogniser)
            budget -= len(taken.terms)
            if budget < 0:
                break
            counts[number].update(taken.terms)
            words.update(taken.words)
            pieces.append(taken.items)
    marks = {term for of_field in counts for term in of_field if term.startswith("mark:")}
    counts[NUMBERS["links"]].update(filter(None, map(alike, sorted(marks))))
    items = "\n".join(filter(None, pieces))
    return Document(
        slug=record.slug,
        rel=record.rel,
        digest=record.digest,
        fields=tuple(dict(c) for c in counts),
        items=items,
        unsaid=tuple(sorted(set(items.split()).difference(STOP_STEMS, *counts))),
        words=tuple(sorted(words)),
        lengths=tuple(rounded_length(sum(counts[number].values())) for number in LENGTH_FIELDS),
        facets=facets_of(record.entry, vocabulary, licence, currency),
        plain_marks=tuple(
            term.removeprefix("mark:") for term in counts[NUMBERS["identity"]] if not has_digit(term)
        ),
        card=card(record.entry, vocabulary, currency),
    )


def card(entry: FaultEntry, vocabulary: Vocabulary, currency: str | None = None) -> Card:
    """The card of an entry; ``currency`` is the shop's, for prices that name none."""
    cause, equipment = entry.root_cause, entry.equipment
    named = [n for n in (equipment.maker, equipment.model) if n and n.strip().lower() != "unknown"]
    boards = ", ".join(board.marking for board in equipment.boards)
    cause_label = failure = ""
    if cause:
        if cause.component_class:
            cause_label = vocabulary.label("component", current(vocabulary, "component", cause.component_class))
        elif cause.block:
            cause_label = vocabulary.label("block", current(vocabulary, "block", cause.block))
        if cause.failure_mode:
            failure = vocabulary.label("failure-mode", current(vocabulary, "failure-mode", cause.failure_mode))
    class_label = vocabulary.label("class", current(vocabulary, "class", equipment.class_))
    return Card(
        title=entry.title,
        equipment=" ".join(named) or (f"board {boards}" if boards else class_label),
        class_=class_label,
        cause=cause_label,
        failure=failure,
        outcome=entry.outcome,
        stopped_because=entry.stopped_because or "",
        minutes=entry.minutes_spent,
        cost=_cost(entry, currency),
        holding=_holding(entry),
        date=entry.date.isoformat(),
    )


def _cost(entry: FaultEntry, shop_currency: str | None) -> str:
    """What the fitted parts cost together, when all prices are in one currency; else empty."""
    prices = [(p.unit_price, p.quantity) for p in entry.parts if p.use == "fitted" and p.unit_price]
    currencies = {price.currency or shop_currency for price, _ in prices}
    if len(currencies) != 1:
        return ""
    return str(Money(sum((price.amount * count for price, count in prices), Decimal(0)), currencies.pop()))


def _holding(entry: FaultEntry) -> str:
    """The last word on whether the repair held, in plain words; empty when nobody looked."""
    if entry.follow_up:
        last = max(entry.follow_up, key=lambda later: later.date)
        return f"{_LATER[last.result]} on {last.date.isoformat()}"
    if entry.verification and entry.verification.result == "came-back":
        return "came back"
    return ""
