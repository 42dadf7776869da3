"""Rule: mains equipment repaired, and no safety test."""

from collections.abc import Iterator

from benchlore.check.causes import causes_of
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.model import ComponentClass, EquipmentClass

_NOT_ELECTRICAL = frozenset({"mechanical", "seal", "setting", "firmware", "outside"})


class NoSafetyTest(EntryRule):
    """Mains equipment without a safety test.

    What
        Mains equipment was repaired on its electrical side, and no safety test stands under verification.
    Why
        After such work, local codes commonly ask for tests of the protective earth and the insulation before the unit
        is used again. Readers should see that they were made, and what they read.
    Bad
        verification: {result: holding}
    Good
        verification:
          result: holding
          safety: [{test: insulation-check, applied: 500 V dc, value: over 200 MΩ, result: pass}]
    How to mend
        Add the tests that were made, with their values. If none was made, make them: local codes say
        which, and who may.
    """

    code = "SAF005"
    name = "no-safety-test"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        kind = subject.vocabulary.get_as(EquipmentClass, entry.equipment.class_)
        if kind is None or not kind.mains or entry.outcome not in ("repaired", "partly-repaired"):
            return
        if entry.verification and entry.verification.safety:
            return
        parts = [subject.vocabulary.get_as(ComponentClass, c.component_class) for _, c in causes_of(entry)]
        if parts and all(part is not None and part.family in _NOT_ELECTRICAL for part in parts):
            return
        path, on_key = (("verification",), True) if entry.verification else (("outcome",), False)
        message = "mains equipment was repaired, and no safety test is recorded"
        hint = "Add verification: {safety: [{test: insulation-check, applied: ..., value: ..., result: ...}]}."
        yield Observation(path, message, hint, on_key)
