"""Rule: a test that needs power, recorded with power off."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence
from benchlore.terms.model import Test


class TestNeedsPower(EntryRule):
    """A powered test recorded with power off.

    What
        The vocabulary has this test as a measurement under power, and the entry says that power was off.
    Why
        A voltage of nothing on a dead circuit says nothing about the fault.
    Bad
        tests:
          - {test: voltage-check, target: low-voltage-supply, power: "off", outcome: abnormal}
    Good
        tests:
          - {test: voltage-check, target: low-voltage-supply, power: limited, outcome: abnormal}
    How to mend
        Correct power, or name the test that was made.
    """

    __test__ = False

    code = "TST003"
    name = "test-needs-power"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, made in enumerate(subject.entry.tests):
            term = subject.vocabulary.get_as(Test, made.test)
            if term and term.quantity and term.power != "off" and made.power == "off":
                message = f"{in_sentence(term.label)} needs power, but power was off"
                yield Observation(("tests", index, "power"), message, "Correct power, or name another test.")
