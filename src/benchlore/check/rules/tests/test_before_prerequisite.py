"""Rule: a test made before the one that must come first."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.model import Test


class TestBeforePrerequisite(EntryRule):
    """A measurement under power before the cold one that comes first.

    What
        Something was measured under power although a cold check that the vocabulary puts before it was made only
        afterwards, on the same block.
    Why
        Tests stand in the order they were made, and readers follow it: looking and measuring cold comes before the
        first power-up.
    Bad
        tests:
          - {test: voltage-check, target: low-voltage-supply, power: limited, outcome: abnormal}
          - {test: visual-inspection, target: low-voltage-supply, power: "off", outcome: normal}
    Good
        tests:
          - {test: visual-inspection, target: low-voltage-supply, power: "off", outcome: normal}
          - {test: voltage-check, target: low-voltage-supply, power: limited, outcome: abnormal}
    How to mend
        Put the tests in the order they were made. If they really were made so, ignore this rule and say why.
    """

    __test__ = False

    code = "TST004"
    name = "test-before-prerequisite"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        vocabulary, tests = subject.vocabulary, subject.entry.tests
        first: dict[tuple[str, str | None], int] = {}
        for index, made in enumerate(tests):
            first.setdefault((made.test, made.target), index)
        for (test_id, target), index in first.items():
            term = vocabulary.get_as(Test, test_id)
            if term is None or not term.quantity or tests[index].power not in ("on", "limited"):
                continue
            for before in term.after:
                cold = vocabulary.get_as(Test, before)
                if cold and cold.power == "off" and first.get((before, target), -1) > index:
                    message = f"{test_id} was made with power before {before}, which comes first"
                    yield Observation(("tests", index, "test"), message, "Put the tests in the order they were made.")
                    break
