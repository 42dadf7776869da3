"""Rule: an instrument that the shop does not have."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.mends.likeness import surely
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import one_of
from benchlore.terms.nearest import nearest


class UnknownInstrument(EntryRule):
    """An instrument that the shop does not list.

    What
        The instrument is not among those in site_config/shop.yaml.
    Why
        Its accuracy is needed to say whether a reading is within its limits.
    Bad
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, after: 24.1 V, instrument: dnm}
    Good
        measurements:
          - {point: 24 V supply, quantity: dc-voltage, after: 24.1 V, instrument: dmm}
    How to mend
        Take the name from site_config/shop.yaml, or add the instrument there with its accuracy.
    """

    code = "MEA007"
    name = "unknown-instrument"
    severity = "warning"
    names_answer = True

    def check(self, subject: Subject) -> Iterator[Observation]:
        known = subject.shop.instruments
        for index, measurement in enumerate(subject.entry.measurements):
            name = measurement.instrument
            if name and name not in known:
                close = nearest(name, known)
                hint = f"Did you mean {one_of(close)}?" if close else "Add it to site_config/shop.yaml."
                message = f"the shop has no instrument named “{name}”"
                yield Observation(("measurements", index, "instrument"), message, hint, instead=surely(name, known))
