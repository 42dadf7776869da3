"""Rule: a failure mode that this kind of component is not known for."""

from collections.abc import Iterator

from benchlore.check.causes import causes_of
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence, one_of
from benchlore.terms.model import ComponentClass


class FailureModeNotOfComponent(EntryRule):
    """A failure mode that this component does not have.

    What
        The vocabulary lists the ways in which each kind of component fails; this one is not among them.
    Why
        Usually the wrong component class or the wrong mode was taken, and the cause would be counted apart.
    Bad
        root_cause: {component: C1, component_class: safety-film-capacitor, failure_mode: worn}
    Good
        root_cause: {component: C1, component_class: safety-film-capacitor, failure_mode: open}
    How to mend
        Take a mode of the component class, or add the mode to it in schema/vocabulary/components/.
    """

    code = "TRM004"
    name = "failure-mode-not-of-component"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for path, cause in causes_of(subject.entry):
            kind = subject.vocabulary.get_as(ComponentClass, cause.component_class)
            mode = cause.failure_mode
            if kind is None or mode is None or mode in kind.failure_modes:
                continue
            if subject.vocabulary.get("failure-mode", mode):
                message = f"{in_sentence(kind.label)} is not known to fail as {mode}"
                yield Observation((*path, "failure_mode"), message, f"Known: {one_of(list(kind.failure_modes))}.")
