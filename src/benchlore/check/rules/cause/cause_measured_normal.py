"""Rule: the very thing that failed was measured, and was as it should be."""

from collections.abc import Iterator

from benchlore.answer.verdict import verdict
from benchlore.check.causes import designator_letters, designators_in
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.read.entry import Cause
from benchlore.terms.fold import compact
from benchlore.terms.model import Test


class CauseMeasuredNormal(EntryRule):
    """The cause was measured, and was normal.

    What
        The root cause says that a value of the component had changed, and that same value was within its limits, or
        tested normal, before the repair.
    Why
        One of the two is wrong, and readers would replace a good part.
    Bad
        measurements:
          - {point: C1, quantity: capacitance, expected: 1 µF ±10 %, expected_from: marking, before: 0.98 µF}
    Good
        measurements:
          - {point: C1, quantity: capacitance, expected: 1 µF ±10 %, expected_from: marking, before: 0.41 µF}
    How to mend
        Correct the reading, or the cause. If it was normal cold and failed hot, say so in condition.
    """

    code = "CAU012"
    name = "cause-measured-normal"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        cause = subject.entry.root_cause
        if cause is None or not designator_letters(cause.component) or not cause.failure_mode:
            return
        named = str(cause.component).strip()
        for index, reading in enumerate(subject.entry.measurements):
            about = designators_in(reading.point) == {named} and _speaks_of(reading.quantity, cause)
            if not about or reading.condition or not reading.expected or not reading.before:
                continue
            if reading.expected.unit == reading.before.unit and reading.expected_from != "guess":
                found = verdict(reading.expected, reading.before)
                if found.word == "within":
                    message = f"{named} was within its limits before the repair, and is said to be the cause"
                    yield Observation(("measurements", index, "before"), message, "Correct the reading or the cause.")
        of_it = [test for test in subject.entry.tests if compact(test.component or "") == compact(named)]
        made = [test for test in of_it if test.in_circuit is not True]
        if any(test.outcome == "abnormal" for test in made):
            return
        for index, test in enumerate(subject.entry.tests):
            term = subject.vocabulary.get_as(Test, test.test)
            if test in made and test.outcome == "normal" and term and _speaks_of(term.quantity, cause):
                message = f"{named} tested normal in the very value that is said to have failed"
                yield Observation(("tests", index, "outcome"), message, "Correct the outcome or the cause.")


def _speaks_of(quantity: str | None, cause: Cause) -> bool:
    """Whether the failure mode is named for the quantity: low-capacitance, high-esr, high-resistance."""
    return bool(quantity) and f"-{quantity}" in f"-{cause.failure_mode}"
