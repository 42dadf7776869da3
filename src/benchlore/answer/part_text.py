"""Reads a part as somebody types it (``220 µF, 400 V, 105 °C`` or ``VDSS 500 V, channel N``) into ratings by id."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from benchlore.answer.fuses import SPEEDS, read_marking
from benchlore.errors import BenchloreError
from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse
from benchlore.terms.fold import compact
from benchlore.terms.model import ComponentClass, Rating
from benchlore.terms.vocabulary import Vocabulary

_PIECES = re.compile(r"\s*(?:[;\n]|(?<!\d),|,(?!\d))\s*")
_NAMED = re.compile(r"([^:=]+?)\s*[:=]\s*(.+)", re.DOTALL)


class PartTextError(BenchloreError):
    """A piece of a part's text that names no rating of its kind."""


def read_part(text: str, component_class: str, vocabulary: Vocabulary) -> dict[str, str]:
    """The ratings, by id, that ``text`` states for a part of ``component_class``.

    Pieces stand between commas. Each is ``name value`` (``name: value``, ``name = value``; the name may be an id, a
    label or a phrase of the trade such as VDSS), or a bare value that its unit, or its class, gives away. Raises
    :class:`PartTextError` with the ratings of that kind of part, and for a rating that is given twice.
    """
    kind = vocabulary.get_as(ComponentClass, component_class)
    if kind is None:
        raise PartTextError(f"there is no component class {component_class!r}")
    names = _names(kind, vocabulary)
    ratings: dict[str, str] = {}
    for piece in _PIECES.split(text.strip()):
        if not piece:
            continue
        marked = read_marking(piece) if component_class == "fuse" and piece.upper() not in SPEEDS else None
        for rating, value in (marked or _piece(piece, kind, names, ratings, vocabulary)).items():
            if rating in ratings:
                raise PartTextError(f"{piece!r}: {rating} is given twice")
            ratings[rating] = value
    return ratings


@dataclass(frozen=True, slots=True)
class _Names:
    """Folded name to rating id: ids, labels and their unambiguous beginnings; and what the trade says besides."""

    own: Mapping[str, str]
    said: Mapping[str, str]


def _names(kind: ComponentClass, vocabulary: Vocabulary) -> _Names:
    own: dict[str, str] = {}
    said: dict[str, str] = {}
    first: dict[str, set[str]] = {}
    for rating in kind.ratings:
        term = vocabulary.get_as(Rating, rating)
        own[compact(rating)] = rating
        first.setdefault(compact(rating.split("-")[0]), set()).add(rating)
        if term:
            own.setdefault(compact(term.label), rating)
            for phrase in term.phrases:
                said.setdefault(compact(phrase), rating)
    for name, ratings in first.items():
        if len(ratings) == 1 and len(name) > 2:
            said.setdefault(name, min(ratings))
    return _Names(own, said)


def _piece(
    piece: str, kind: ComponentClass, names: _Names, taken: Mapping[str, str], vocabulary: Vocabulary
) -> dict[str, str]:
    named = _NAMED.fullmatch(piece)
    if named and (rating := names.own.get(compact(named[1])) or names.said.get(compact(named[1]))):
        return {rating: named[2].strip()}
    words = piece.split()
    for known in (names.own, names.said):
        for cut in range(len(words) - 1, 0, -1):
            if rating := known.get(compact("".join(words[:cut]))):
                return {rating: " ".join(words[cut:])}
        for cut in range(1, len(words)):
            if rating := known.get(compact("".join(words[cut:]))):
                return {rating: " ".join(words[:cut])}
    bare = _by_class(piece, kind) or _by_unit(piece, kind, taken, vocabulary) or names.said.get(compact(piece))
    if bare is None:
        raise PartTextError(
            f"{piece!r} names no rating of this kind of part ({kind.label})",
            hint=f"Write it as NAME VALUE. It has: {', '.join(kind.ratings)}.",
        )
    return {bare: piece}


def _by_class(piece: str, kind: ComponentClass) -> str | None:
    if "speed-class" in kind.ratings and piece.strip().upper() in SPEEDS:
        return "speed-class"
    wanted = compact(piece)
    for rating, rule in kind.ratings.items():
        if wanted in {compact(name) for name in (*rule.order, *(n for more in rule.also.values() for n in more))}:
            return rating
    return None


def _by_unit(piece: str, kind: ComponentClass, taken: Mapping[str, str], vocabulary: Vocabulary) -> str | None:
    try:
        quantity = parse(piece)
    except QuantityError:
        return None
    if quantity.unit is None:
        return None
    fitting = [
        rating
        for rating in kind.ratings
        if (term := vocabulary.get_as(Rating, rating)) and term.unit == quantity.unit and _suits(rating, quantity)
    ]
    free = [rating for rating in fitting if rating not in taken]
    return min(free, key=lambda rating: not kind.ratings[rating].required, default=None)


def _suits(rating: str, quantity: Quantity) -> bool:
    if rating == "ac-voltage":
        return quantity.qualifier != "dc"
    if rating == "dc-voltage":
        return quantity.qualifier not in {"ac", "rms"}
    return True
