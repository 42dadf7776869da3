"""Rule: the root cause once more under also_found."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.fold import compact


class CauseNamedTwice(EntryRule):
    """The root cause once more under also found.

    What
        also_found repeats the component and failure mode of the root cause.
    Why
        The same failure would be counted twice.
    Bad
        also_found:
          - {component: C1, component_class: safety-film-capacitor, failure_mode: low-capacitance, role: same-event}
    Good
        also_found:
          - {component: D2, component_class: zener-diode, failure_mode: short, role: consequence, due_to: C1}
    How to mend
        Take it out of also_found.
    """

    code = "CAU010"
    name = "cause-named-twice"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        cause = subject.entry.root_cause
        if cause is None or not cause.component:
            return
        for index, found in enumerate(subject.entry.also_found):
            same = found.component and compact(found.component) == compact(cause.component)
            if same and found.failure_mode == cause.failure_mode:
                message = f"{found.component} is the root cause already"
                yield Observation(("also_found", index), message, "Take it out here.")
