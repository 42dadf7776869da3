"""Rule: a part called open that read a short, or the other way round."""

from collections.abc import Iterator

from benchlore.check.causes import causes_of, designators_in
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.quantity.model import Quantity

_RESISTANCES = frozenset({"resistance", "winding-resistance", "contact-resistance"})
_OPEN = frozenset({"open", "disconnected", "premature-open"})
_SHORT = frozenset({"short", "contact-welded"})
_NEXT_TO_NOTHING = 1.0
_NEXT_TO_INFINITE = 1e6
"""Ohms: a dead short and an open circuit by any reckoning (common practice, no source)."""


class ReadingContradictsCause(EntryRule):
    """A reading that contradicts the cause.

    What
        The component is said to be open, and its resistance before the repair was next to nothing; or it is said to be
        shorted, and it read open.
    Why
        Readers test for what the entry says. One of the two is wrong.
    Bad
        root_cause: {component: F1, component_class: fuse, failure_mode: open, confidence: probable}
        measurements: [{point: F1, quantity: resistance, before: 0.2 Ω}]
    Good
        root_cause: {component: F1, component_class: fuse, failure_mode: open, confidence: probable}
        measurements: [{point: F1, quantity: resistance, before: OL}]
    How to mend
        Correct the reading or the failure mode; if something beside the part was measured with it, say so in point.
    """

    code = "CAU013"
    name = "reading-contradicts-cause"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for _, cause in causes_of(subject.entry):
            named = (cause.component or "").strip()
            for index, reading in enumerate(subject.entry.measurements):
                if reading.quantity not in _RESISTANCES or designators_in(reading.point) != {named}:
                    continue
                if reading.before is None or reading.in_circuit is True:
                    continue
                read = "a short" if _is_short(reading.before) else "open" if _is_open(reading.before) else ""
                wrong = (cause.failure_mode in _OPEN and read == "a short") or (
                    cause.failure_mode in _SHORT and read == "open"
                )
                if wrong:
                    message = f"{named} is said to be {str(cause.failure_mode).replace('-', ' ')}, and it read {read}"
                    yield Observation(("measurements", index, "before"), message, "Correct one of the two.")


def _is_short(reading: Quantity) -> bool:
    return reading.state == "short" or (reading.value is not None and 0 <= reading.value <= _NEXT_TO_NOTHING)


def _is_open(reading: Quantity) -> bool:
    if reading.kind == "overload" or reading.state in ("open", "over-range"):
        return True
    least = reading.value if reading.value is not None else reading.low
    return least is not None and least >= _NEXT_TO_INFINITE
