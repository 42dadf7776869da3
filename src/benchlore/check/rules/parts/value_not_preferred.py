"""Rule: a resistance or capacitance that no part is made with."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.ratings import ratings_of
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import one_of
from benchlore.quantity.format import format_value
from benchlore.quantity.model import QuantityError
from benchlore.quantity.parse import parse
from benchlore.quantity.preferred import is_preferred, nearest

_SERIES = {
    "resistor": ("E24", "E96", "E192"),
    "fusible-resistor": ("E24", "E96"),
    "film-capacitor": ("E24",),
    "safety-film-capacitor": ("E24",),
    "ceramic-capacitor": ("E24",),
}
"""The series in which such parts are usually sold (IEC 60063; which part in which series is common practice)."""
_RATING = {"resistor": "resistance", "fusible-resistor": "resistance"}


class ValueNotPreferred(EntryRule):
    """A value that no such part is made with.

    What
        Resistors and capacitors are sold in the preferred numbers of IEC 60063. This value is none of them.
    Why
        Mostly a misread band or a slip: 4.8 kΩ where 4.7 kΩ was fitted.
    Bad
        parts: [{ref: R4, component_class: resistor, ratings: {resistance: 4.8 kΩ}}]
        fix: {steps: [Replace R4 and C1.]}
    Good
        parts: [{ref: R4, component_class: resistor, ratings: {resistance: 4.7 kΩ}}]
        fix: {steps: [Replace R4 and C1.]}
    How to mend
        Look at the marking again. What was measured goes under measurements. A special value stays; ignore the rule.
    """

    code = "PRT007"
    name = "value-not-preferred"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for path, rating, written in ratings_of(subject.entry):
            kind = subject.entry.parts[int(path[1])].component_class or ""
            if kind not in _SERIES or rating != _RATING.get(kind, "capacitance"):
                continue
            try:
                value = parse(written).value
            except QuantityError:
                continue
            if not value or value <= 0:
                continue
            if not any(is_preferred(value, series) for series in _SERIES[kind]):
                unit = "ohm" if rating == "resistance" else "F"
                close = format_value(nearest(value, _SERIES[kind][0]), unit)
                message = f"{written} is no preferred value of {one_of(_SERIES[kind])}"
                yield Observation(path, message, f"Nearest in {_SERIES[kind][0]}: {close}. Look at the marking again.")
