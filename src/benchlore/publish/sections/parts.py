"""Parts fitted, tried, considered and rejected; ratings beside the original's, rating by rating."""

from __future__ import annotations

from dataclasses import dataclass

from benchlore.answer.fitted import judged
from benchlore.publish.sections.plate import Link
from benchlore.publish.sections.readings import shown
from benchlore.publish.site_data import SiteData
from benchlore.publish.wording import capital, inside, money, unbroken
from benchlore.quantity.model import Quantity, QuantityError
from benchlore.quantity.parse import parse
from benchlore.read.entry import FaultEntry, Part
from benchlore.terms.model import ComponentClass

USES = {
    "fitted": "fitted",
    "tried": "tried; it made no difference",
    "considered": "considered",
    "rejected": "rejected",
}
_ORDER = ("fitted", "tried", "considered", "rejected")
_SOURCES = {"new": "new", "donor": "from a donor unit", "pulled": "pulled from another board"}


@dataclass(frozen=True, slots=True)
class Rating:
    """One rating of a part and of the original; ``against`` says how they differ (``higher``, ``same``)."""

    name: str
    original: str
    value: str
    against: str


@dataclass(frozen=True, slots=True)
class PartRow:
    """One part as it is told."""

    use: str
    use_text: str
    name: str
    kind: Link | None
    details: tuple[str, ...]
    ratings: tuple[Rating, ...]
    compared: bool
    """Whether the original's ratings are known."""
    same_as_original: bool
    safety_critical: bool
    note: str
    stand_in: str
    """Whether it may stand in for the original by its ratings, with the reasons; empty where that is not known."""


def parts(entry: FaultEntry, site: SiteData) -> tuple[PartRow, ...]:
    """The parts of an entry, those fitted first."""
    ordered = sorted(entry.parts, key=lambda p: _ORDER.index(p.use))
    return tuple(_row(part, site) for part in ordered)


def _row(part: Part, site: SiteData) -> PartRow:
    term = site.vocabulary.get_as(ComponentClass, part.component_class)
    kind = None
    if part.component_class:
        label = site.label("component", part.component_class)
        kind = Link(label, site.addresses.component(part.component_class))
    details = [_SOURCES.get(part.source or "", "")]
    if part.quantity != 1:
        details.append(f"{part.quantity} of them")
    if part.unit_price:
        each = " each" if part.quantity > 1 else ""
        details.append(money(part.unit_price.amount, part.unit_price.currency or site.shop.currency) + each)
    name = ", ".join(p for p in (part.ref or "", part.type or "") if p) or (kind.text if kind else "Part not named")
    return PartRow(
        use=part.use,
        use_text=USES[part.use],
        name=unbroken(capital(name)),
        kind=kind,
        details=tuple(d for d in details if d),
        ratings=_ratings(part, site),
        compared=part.original is not None,
        same_as_original=part.original == "same",
        safety_critical=bool(term and term.safety_critical),
        note=unbroken(capital(part.note or "")),
        stand_in=stand_in_text(part, site),
    )


def stand_in_text(part: Part, site: SiteData) -> str:
    """Whether a part may stand in for its original, in a sentence; empty where the entry does not compare them."""
    found = judged(part, site.vocabulary)
    if found is None:
        return ""
    why = [f"{inside(reason.label)} {reason.text}" for reason in found.against]
    better = [f"{inside(reason.label)} {reason.text}" for reason in found.reasons if reason.judgement == "better"]
    told = {"may-stand-in": "may stand in for the original", "with-care": "may stand in with care", "no": "may not"}
    return unbroken(f"By these ratings it {told[found.word]}: {'; '.join(why or better or ['as the original'])}.")


def _ratings(part: Part, site: SiteData) -> tuple[Rating, ...]:
    original = part.original if part.original not in (None, "same") else None
    theirs = original.ratings if original and not isinstance(original, str) else {}
    rows = []
    for name in dict.fromkeys((*part.ratings, *theirs)):
        value = part.ratings.get(name, "")
        was = theirs.get(name, value if part.original is not None else "")
        rows.append(
            Rating(
                capital(site.label("rating", name)),
                unbroken(_tidy(was)),
                unbroken(_tidy(value)),
                _against(was, value) if part.original is not None else "",
            )
        )
    return tuple(rows)


def _tidy(text: str) -> str:
    quantity = _quantity(text)
    return shown(quantity) if quantity else text


def _quantity(text: str) -> Quantity | None:
    try:
        quantity = parse(text) if text else None
    except QuantityError:
        return None
    return quantity if quantity and quantity.unit else None


def _against(original: str, value: str) -> str:
    if not value:
        return "not known"
    if not original:
        return ""
    if original == value:
        return "same"
    one, other = _quantity(original), _quantity(value)
    if one and other and one.unit == other.unit and one.value is not None and other.value is not None:
        if other.value > one.value:
            return "higher"
        if other.value < one.value:
            return "lower"
        return "same value"
    return "differs"
