"""Rule: an alternating value under a direct quantity, or the other way round."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.readings import values_of
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import QuantityKind

_SAYS = {"ac": "ac", "rms": "ac", "pp": "ac", "dc": "dc"}


class AcDcMismatch(EntryRule):
    """Alternating under direct, or the other way round.

    What
        The quantity is a direct one and the value says a.c. (or r.m.s., or peak to peak), or the other way round.
    Why
        Meters read one of the two; whoever repeats the reading on the other range finds something else, and may take
        a live part for a dead one.
    Bad
        measurements:
          - {point: across C1, quantity: dc-voltage, before: 230 V ac}
    Good
        measurements:
          - {point: across C1, quantity: ac-voltage, before: 230 V ac}
    How to mend
        Take dc-voltage, ac-voltage or ripple-voltage according to what the meter was set to.
    """

    code = "MEA002"
    name = "ac-dc-mismatch"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, measurement in enumerate(subject.entry.measurements):
            kind = subject.vocabulary.get_as(QuantityKind, measurement.quantity)
            for key, value in values_of(measurement):
                said = _SAYS.get(value.qualifier or "")
                if kind and kind.current_kind and said and said != kind.current_kind:
                    message = f"{in_sentence(kind.label)} with a value that says {value.qualifier}"
                    yield Observation(("measurements", index, key), message, "Take the quantity the meter was set to.")
