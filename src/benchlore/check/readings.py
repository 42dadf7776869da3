"""The values of a measurement, and the verdict on the one made after the repair."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.answer.verdict import verdict
from benchlore.check.rule import Subject
from benchlore.quantity.model import Quantity
from benchlore.read.entry import Measurement


def values_of(measurement: Measurement) -> Iterator[tuple[str, Quantity]]:
    """The quantities of a measurement, each with its key."""
    for key in ("expected", "before", "after"):
        value = getattr(measurement, key)
        if value is not None:
            yield key, value


def after_is_outside(subject: Subject) -> Iterator[tuple[int, Measurement, str]]:
    """Measurements whose ``after`` is outside ``expected``, with their position and the verdict in words."""
    for index, measurement in enumerate(subject.entry.measurements):
        expected, after = measurement.expected, measurement.after
        if expected is None or after is None or expected.unit != after.unit:
            continue
        found = verdict(expected, after, uncertainty=_uncertainty(subject, measurement))
        if found.word == "outside":
            yield index, measurement, found.text


def _uncertainty(subject: Subject, measurement: Measurement) -> float:
    """Half-width of what the meter may err in the reading after the repair; 0 when it is not known."""
    instrument = subject.shop.instruments.get(measurement.instrument or "")
    value = measurement.after.value if measurement.after else None
    if instrument is None or value is None:
        return 0.0
    return instrument.uncertainty(measurement.quantity, value) or 0.0
