"""Rule: a soak that is no length of time."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import unit_word


class SoakIsNoTime(EntryRule):
    """A soak that is no length of time.

    What
        soak is given in something else than time.
    Why
        How long a unit ran before it was called good is compared between repairs.
    Bad
        verification:
          result: holding
          soak: 48 V
          safety: [{test: insulation-check, applied: 500 V dc, value: over 200 MΩ, result: pass}]
    Good
        verification:
          result: holding
          soak: 48 h
          safety: [{test: insulation-check, applied: 500 V dc, value: over 200 MΩ, result: pass}]
    How to mend
        Write hours or minutes with their unit. Cycles go under checks.
    """

    code = "PRF003"
    name = "soak-is-no-time"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        soak = subject.entry.verification.soak if subject.entry.verification else None
        if soak is not None and soak.unit not in ("s", "cycle"):
            message = f"a soak is a length of time, and this has {unit_word(soak.unit)}"
            yield Observation(("verification", "soak"), message, "Write hours or minutes with their unit: 8 h.")
