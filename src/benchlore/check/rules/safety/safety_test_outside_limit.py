"""Rule: a safety test called passed whose value is outside the shop's limit."""

from collections.abc import Iterator

from benchlore.answer.verdict import verdict
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.quantity.format import format_quantity


class SafetyTestOutsideLimit(EntryRule):
    """Passed, with a value outside the limit.

    What
        A safety test is called passed, and its value is outside the limit in site_config/shop.yaml.
    Why
        Either the value or the result is wrong; a unit may be in use that should not be.
    Bad
        verification:
          result: holding
          safety: [{test: earth-continuity-check, value: 25 Ω, result: pass}]
    Good
        verification:
          result: holding
          safety: [{test: earth-continuity-check, value: 0.06 Ω, result: pass}]
    How to mend
        Correct the value, or write fail and mend the unit. Limits are those of local codes: look at shop.yaml too.
    """

    code = "SAF007"
    name = "safety-test-outside-limit"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        verification = subject.entry.verification
        for index, made in enumerate(verification.safety if verification else ()):
            limits = subject.shop.safety_limits.get(made.test)
            limit = limits.for_protection(subject.entry.equipment.protection) if limits else None
            if limit is None or made.value is None or made.result != "pass" or limit.unit != made.value.unit:
                continue
            if verdict(limit, made.value).word == "outside":
                message = f"passed, but {made.value.text} is outside the shop's limit of {format_quantity(limit)}"
                hint = "Correct the value, or write result: fail and mend the unit."
                yield Observation(("verification", "safety", index, "value"), message, hint)
