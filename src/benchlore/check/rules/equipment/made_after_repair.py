"""Rule: equipment made after it was repaired."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class MadeAfterRepair(EntryRule):
    """Made after it was repaired.

    What
        The year of manufacture is later than the repair.
    Why
        One of the two is wrong; age decides which faults are likely.
    Bad
        equipment: {class: dehumidifier, model: BW-12, made: 2031}
    Good
        equipment: {class: dehumidifier, model: BW-12, made: 2019}
    How to mend
        Correct the year, or leave it out when it is not known.
    """

    code = "EQP003"
    name = "made-after-repair"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        made, repaired = subject.entry.equipment.made, subject.entry.date.year
        if made is not None and made > repaired:
            yield Observation(
                ("equipment", "made"), f"made in {made}, but repaired in {repaired}", "Correct one of the two years."
            )
