"""Rule: something other than yes or no."""

from benchlore.check.rule import ReadingRule


class NotYesOrNo(ReadingRule):
    """Something other than yes or no.

    What
        The field takes yes or no, and this is neither.
    Why
        A test made while the fault was away clears nothing, so the answer must be plain.
    Bad
        bypassed: [{what: thermal cut-out, restored: later}]
    Good
        bypassed: [{what: thermal cut-out, restored: yes}]
    How to mend
        Write yes or no. Leave the key out when it is not known.
    """

    code = "RDG021"
    name = "not-yes-or-no"
    severity = "error"
    kinds = frozenset({"bad-flag"})
