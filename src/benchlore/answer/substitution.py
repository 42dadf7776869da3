"""Whether one part may stand in for another: every rating compared in its direction, with every reason."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from benchlore.answer.fuses import breaking_capacity
from benchlore.answer.rating_compare import Compared, Judgement, compare_rating
from benchlore.quantity.format import format_value
from benchlore.terms.model import ComponentClass, Rating, RatingRule
from benchlore.terms.vocabulary import Vocabulary

Word = Literal["may-stand-in", "with-care", "no"]
WORDS: dict[Word, str] = {"may-stand-in": "May stand in", "with-care": "With care", "no": "No"}
"""The answer in words."""
ORDER: tuple[Judgement, ...] = ("worse", "loss", "unknown", "check", "better", "same")
"""Judgements, those that decide most first."""


@dataclass(frozen=True, slots=True)
class PartRatings:
    """A part as far as it is known: the id of its component class, and its ratings by rating id, as written."""

    component_class: str
    ratings: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason. ``rating`` is the rating's id (empty when it is about the part as a whole), ``label`` its name."""

    rating: str
    label: str
    judgement: Judgement
    text: str


@dataclass(frozen=True, slots=True)
class StandIn:
    """The answer: ``word``, and the reasons, those that decide it first."""

    word: Word
    reasons: tuple[Reason, ...]
    safety_critical: bool

    @property
    def against(self) -> tuple[Reason, ...]:
        """The reasons that stand against it or ask for care."""
        return tuple(r for r in self.reasons if r.judgement in {"worse", "loss", "unknown", "check"})


def stand_in(
    original: PartRatings, replacement: PartRatings, vocabulary: Vocabulary, *, only_stated: bool = False
) -> StandIn:
    """Whether ``replacement`` may stand in for ``original``.

    ``no`` when a rating falls short or the parts are of another kind; ``with-care`` when something is lost, not known
    or to be looked at; ``may-stand-in`` otherwise. A safety-critical part goes like for like: it bears no loss, and a
    rating it needs and does not state rules it out. ``only_stated`` leaves out what neither side states, for entries,
    which name only what differs. Directions, windows and losses come from the vocabulary; an unknown class is
    ``with-care``, with that as its reason.
    """
    kind = vocabulary.get_as(ComponentClass, original.component_class)
    reasons = list(_kinds(original, replacement, kind, vocabulary))
    if kind is not None:
        for rating, rule in kind.ratings.items():
            found = _one(rating, rule, original, replacement, kind, vocabulary, only_stated)
            if found is not None:
                label = vocabulary.label("rating", rating)
                judgement = "worse" if kind.safety_critical and found.judgement == "loss" else found.judgement
                reasons.append(Reason(rating, label, judgement, found.text))
    reasons.sort(key=lambda reason: ORDER.index(reason.judgement))
    judged = {reason.judgement for reason in reasons}
    word: Word = "no" if "worse" in judged else "with-care" if judged & {"loss", "unknown", "check"} else "may-stand-in"
    return StandIn(word, tuple(reasons), bool(kind and kind.safety_critical))


def _kinds(
    original: PartRatings, replacement: PartRatings, kind: ComponentClass | None, vocabulary: Vocabulary
) -> Iterator[Reason]:
    if kind is None:
        yield Reason("", "Kind of part", "unknown", f"{original.component_class} has no rules to compare by")
    if replacement.component_class == original.component_class:
        return
    ours, theirs = (vocabulary.label("component", p.component_class) for p in (replacement, original))
    care = kind.stand_ins.get(replacement.component_class) if kind else None
    if care:
        yield Reason("", "Kind of part", "check", f"{ours} in place of {theirs}: {care}")
    else:
        yield Reason("", "Kind of part", "worse", f"{ours} never stands in for {theirs}")


def _one(
    rating: str,
    rule: RatingRule,
    original: PartRatings,
    replacement: PartRatings,
    kind: ComponentClass,
    vocabulary: Vocabulary,
    only_stated: bool,
) -> Compared | None:
    old, new = original.ratings.get(rating), replacement.ratings.get(rating)
    if old and new:
        if rating == "breaking-capacity" and rule.order:
            capacities = breaking_capacity(original.ratings), breaking_capacity(replacement.ratings)
            if capacities[0] is not None and capacities[1] is not None:
                return _breaking(old, new, capacities[0], capacities[1])
        term = vocabulary.get_as(Rating, rating)
        return compare_rating(rule, old, new, unit=term.unit if term else None)
    if old:
        if kind.safety_critical and rule.required and rule.compare != "check":
            return Compared("worse", f"not stated, and it has to be known against {old}: like for like only")
        asked = f"; {rule.check}" if rule.check else ""
        return Compared("unknown", f"not stated, the original has {old}{asked}")
    if only_stated or not rule.required:
        return None
    if rule.compare == "check":
        return Compared("check", rule.check or "compare them")
    return Compared("unknown", f"the original's is not stated{f'; this part has {new}' if new else ''}")


def _breaking(old: str, new: str, needed: float, given: float) -> Compared:
    shown = f"{new} in place of {old} ({format_value(given, 'A')} against {format_value(needed, 'A')})"
    if given < needed:
        return Compared("worse", f"{shown}, which is less")
    return Compared("same" if given == needed else "better", f"{shown}, at least as much")
