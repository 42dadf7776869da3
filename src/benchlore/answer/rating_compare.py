"""Compares one rating of a replacement with the original's, by the direction that the vocabulary gives it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from benchlore.quantity.format import format_quantity, format_value
from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse
from benchlore.terms.fold import compact
from benchlore.terms.model import RatingRule

Judgement = Literal["same", "better", "loss", "check", "unknown", "worse"]
"""As the original; better in its direction; somewhat worse, which costs something; to be looked at; not to be told from
what is written; ruled out."""

MOST_LOSS = 1.5
"""How many times worse a figure may be and still count as a loss that can be borne (common practice, no source)."""
_ROOM = 0.005
"""Relative room in which two nominal values count as equal (rounding of what is printed on a part)."""
_TINY = 1e-9
_WORDS = {"one": "1", "two": "2", "three": "3", "four": "4", "channel": "", "type": ""}
_WINDOW = re.compile(r"\s*([-−+]?\d+(?:\.\d+)?)\s*%\s*\.\.\s*([-−+]?\d+(?:\.\d+)?)\s*%\s*")
_AC = frozenset({"ac", "rms"})


@dataclass(frozen=True, slots=True)
class Compared:
    """The judgement on one rating, and why, in a few words with both figures."""

    judgement: Judgement
    text: str


def compare_rating(rule: RatingRule, original: str, replacement: str, *, unit: str | None = None) -> Compared:
    """Whether ``replacement`` will do for ``original`` under ``rule``.

    Both are texts as written on a part; ``unit`` is the rating's unit, None for ratings in words. Never raises: what
    cannot be compared is ``unknown``, or ``check`` with what to look at.
    """
    if rule.order:
        return _classes(rule, original, replacement, unit)
    old, new = _read(original, unit), _read(replacement, unit)
    if old is None or new is None:
        return _words(rule, original, replacement)
    if old.unit != new.unit:
        return Compared("unknown", f"{replacement} cannot be compared with {original}")
    shown = f"{format_quantity(new)} in place of {format_quantity(old)}"
    if _kinds_differ(old, new) and rule.compare != "check":
        return Compared("worse", f"{shown}: alternating and direct are rated apart")
    if _same_figures(old, new):
        return _tolerance(old, new, Compared("same", f"{format_quantity(new)}, as the original"))
    match rule.compare:
        case "equal":
            return _equal(old, new, shown)
        case "at-least":
            return _at_least(rule, old, new, shown)
        case "at-most":
            return _at_most(rule, old, new, shown)
        case "within":
            return _within(rule, old, new, shown)
        case "check" | "same-or-higher-class":
            return Compared("check", f"{shown}; {rule.check or 'compare them'}")


def _read(text: str, unit: str | None) -> Quantity | None:
    """The quantity, where it is numbers in a unit; a state or a word is none."""
    if unit is None:
        return None
    try:
        found = parse(text, unit=unit)
    except QuantityError:
        return None
    return found if found.unit == unit and found.kind not in {"state", "overload"} else None


def _words(rule: RatingRule, original: str, replacement: str) -> Compared:
    if _plain(original) == _plain(replacement):
        return Compared("same", f"{replacement}, as the original")
    shown = f"{replacement} in place of {original}"
    if rule.compare == "equal":
        return Compared("worse", f"{shown}: it has to be the same")
    return Compared("check", f"{shown}; {rule.check or rule.note or 'compare them'}")


def _plain(text: str) -> str:
    """A text for comparing words: case, signs, spaces, a times sign and number words made alike."""
    spaced = re.sub(r"(?<=\d)\s*[x×]\s*(?=\d)", " x ", text.lower()).replace("mm", " ")
    return compact(" ".join(_WORDS.get(word.strip(".,"), word) for word in re.sub(r"[-_/]", " ", spaced).split()))


def _classes(rule: RatingRule, original: str, replacement: str, unit: str | None) -> Compared:
    order = [compact(name) for name in rule.order]
    old, new = compact(original), compact(replacement)
    shown = f"{replacement} in place of {original}"
    if old == new:
        return Compared("same", f"{replacement}, as the original")
    if old in order and new in order:
        higher = order.index(new) > order.index(old)
        return Compared("better" if higher else "worse", f"{shown}, a {'higher' if higher else 'lower'} class")
    also = {compact(name): [compact(other) for other in others] for name, others in rule.also.items()}
    if new in also.get(old, []):
        return Compared("check", f"{shown}: {rule.note or 'another kind of class'}")
    one, other = _read(original, unit), _read(replacement, unit)
    if one and other:
        return _at_least(rule, one, other, f"{format_quantity(other)} in place of {format_quantity(one)}")
    if old in order:
        return Compared("worse", f"{shown}, which is none of {', '.join(rule.order)}")
    return Compared("unknown", f"{replacement} cannot be compared with {original}")


def _kinds_differ(old: Quantity, new: Quantity) -> bool:
    if not old.qualifier or not new.qualifier or old.unit not in {"V", "A"}:
        return False
    return (old.qualifier in _AC) != (new.qualifier in _AC) and "dc" in {old.qualifier, new.qualifier}


def _same_figures(old: Quantity, new: Quantity) -> bool:
    if old.value is not None and new.value is not None:
        return abs(new.value - old.value) <= _TINY * abs(old.value)
    return (old.kind, old.low, old.high) == (new.kind, new.low, new.high)


def _equal(old: Quantity, new: Quantity, shown: str) -> Compared:
    if old.value is None or new.value is None:
        return Compared("worse", f"{shown}: it has to be the same")
    if abs(new.value - old.value) <= _ROOM * abs(old.value):
        return _tolerance(old, new, Compared("same", f"{format_quantity(new)}, as the original"))
    return Compared("worse", f"{shown}: it has to be the same")


def _at_least(rule: RatingRule, old: Quantity, new: Quantity, shown: str) -> Compared:
    if old.kind == "range" and new.kind == "range":
        covers = _floor(new) <= _floor(old) and _ceiling(new) >= _ceiling(old)
        return Compared("better" if covers else "worse", f"{shown}, {'which covers it' if covers else 'not all of it'}")
    needed, given = old.value, new.value
    needed = _ceiling(old) if needed is None else needed
    given = (new.high if new.kind == "range" else new.low) if given is None else given
    if given is None or needed in {float("inf"), float("-inf")}:
        return Compared("unknown", f"{shown}: cannot be compared")
    if given < needed - _TINY * abs(needed):
        if rule.loss and needed > 0 and given * MOST_LOSS >= needed:
            return Compared("loss", f"{shown}, which is less: {rule.loss}")
        return Compared("worse", f"{shown}, which is less")
    if rule.care_above and given > needed * rule.care_above:
        return Compared("check", f"{shown}: {rule.note or 'far more than the original'}")
    return Compared("better" if given > needed else "same", f"{shown}, at least as much")


def _at_most(rule: RatingRule, old: Quantity, new: Quantity, shown: str) -> Compared:
    allowed = old.value if old.value is not None else _ceiling(old)
    given = new.value if new.value is not None else _ceiling(new)
    if float("inf") in {allowed, given}:
        return Compared("unknown", f"{shown}: cannot be compared")
    if given > allowed + _TINY * abs(allowed):
        if rule.loss and allowed > 0 and given <= allowed * MOST_LOSS:
            return Compared("loss", f"{shown}, which is more: {rule.loss}")
        return Compared("worse", f"{shown}, which is more")
    return Compared("better" if given < allowed else "same", f"{shown}, no more than that")


def _within(rule: RatingRule, old: Quantity, new: Quantity, shown: str) -> Compared:
    window = _WINDOW.fullmatch(rule.within or "")
    if window is None or old.value is None or new.value is None:
        return Compared("check", f"{shown}; compare them")
    low, high = (float(end.replace("−", "-")) / 100 for end in window.groups())
    least, most = sorted((old.value * (1 + low), old.value * (1 + high)))
    room = _ROOM * abs(old.value)
    if least - room <= new.value <= most + room:
        return _tolerance(old, new, Compared("same", f"{shown}, within {rule.within}"))
    ends = f"{format_value(least, old.unit)} to {format_value(most, old.unit)}"
    return Compared("worse", f"{shown}: it may be {ends}")


def _tolerance(old: Quantity, new: Quantity, fits: Compared) -> Compared:
    """``fits``, unless the value's own tolerance is wider than the original's."""
    theirs, ours = _spread(old), _spread(new)
    if theirs is None or ours is None or ours <= theirs * (1 + 1e-6):
        return fits
    return Compared("loss", f"{format_quantity(new)} in place of {format_quantity(old)}: a wider tolerance")


def _spread(quantity: Quantity) -> float | None:
    if quantity.kind != "tolerance" or not quantity.value or quantity.low is None or quantity.high is None:
        return None
    return max(quantity.high - quantity.value, quantity.value - quantity.low) / abs(quantity.value)


def _floor(quantity: Quantity) -> float:
    return float("-inf") if quantity.low is None else quantity.low


def _ceiling(quantity: Quantity) -> float:
    return float("inf") if quantity.high is None else quantity.high
