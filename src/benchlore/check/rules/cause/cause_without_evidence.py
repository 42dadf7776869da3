"""Rule: a confirmed cause with nothing that confirms it."""

from collections.abc import Iterator

from benchlore.check.causes import is_outside
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class CauseWithoutEvidence(EntryRule):
    """A confirmed cause without evidence.

    What
        The cause is called confirmed, but no test was abnormal, nothing was measured before the repair, no photo
        shows the fault, and no note says how it was proved.
    Why
        A confirmed cause weighs more in advice. Readers should see on what it rests.
    Bad
        root_cause: {component: C1, component_class: safety-film-capacitor, failure_mode: open, confidence: confirmed}
        tests: []
        measurements: []
    Good
        root_cause: {component: C1, component_class: safety-film-capacitor, failure_mode: open, confidence: probable}
        tests: []
        measurements: []
    How to mend
        Add the test or reading that proved it; or call it probable.
    """

    code = "CAU004"
    name = "cause-without-evidence"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        if entry.root_cause is None or entry.root_cause.confidence != "confirmed" or entry.root_cause.note:
            return
        if is_outside(entry.root_cause, subject.vocabulary):
            return
        if (
            any(test.outcome == "abnormal" for test in entry.tests)
            or any(measurement.before is not None for measurement in entry.measurements)
            or any(photo.shows == "fault" for photo in entry.photos)
        ):
            return
        message = "the cause is called confirmed, but no abnormal test, reading or photo shows it"
        hint = "Add what proved it, or write confidence: probable."
        yield Observation(("root_cause", "confidence"), message, hint)
