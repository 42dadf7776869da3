"""Rule: a protective device that is still bypassed."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class BypassLeft(EntryRule):
    """A protective device left bypassed.

    What
        A protective device was bypassed for a test, and the entry says that it was not restored.
    Why
        The unit went back without its protection, and readers would do the same.
    Bad
        bypassed: [{what: thermal cut-out, why: to keep it running for the test, restored: no}]
    Good
        bypassed: [{what: thermal cut-out, why: to keep it running for the test, restored: yes}]
    How to mend
        Restore the device, test it, and write restored: yes. If the unit is gone, call it back.
    """

    code = "SAF004"
    name = "bypass-left"
    severity = "error"
    ignorable = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, bypass in enumerate(subject.entry.bypassed):
            if not bypass.restored:
                message = f"{bypass.what} was bypassed and not restored"
                hint = "Restore it, test it, and write restored: yes; call the unit back if it is gone."
                yield Observation(("bypassed", index, "restored"), message, hint)
