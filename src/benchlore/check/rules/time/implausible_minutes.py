"""Rule: minutes that are hardly minutes."""

from collections.abc import Iterator

from benchlore.check.finding import Observation, Path
from benchlore.check.rule import EntryRule, Subject

_MOST = 1440.0
"""Attended minutes of one repair that are still believed: three working days."""


class ImplausibleMinutes(EntryRule):
    """Minutes that are hardly minutes.

    What
        More than 1440 attended minutes, or none at all for a finished repair.
    Why
        Mostly waiting or soaking was counted; or hours or seconds were written. It would spoil every estimate.
    Bad
        minutes: 4320
    Good
        minutes: 43
    How to mend
        Count the minutes somebody worked on it. A soak goes under verification: {soak: 48 h}.
    """

    code = "TIM003"
    name = "implausible-minutes"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry, spent = subject.entry, subject.entry.minutes_spent
        path: Path = ("minutes",) if entry.minutes is not None else ("time",)
        if spent is not None and (spent > _MOST or spent == 0):
            message = f"{spent:g} attended minutes for one repair"
            yield Observation(path, message, "Count attended minutes only; a soak goes under verification.")
