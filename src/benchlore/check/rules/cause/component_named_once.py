"""Rule: a component blamed in the cause that stands nowhere else in the entry."""

from collections.abc import Iterator

from benchlore.check.causes import designator_letters, designators_in
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import one_of


class ComponentNamedOnce(EntryRule):
    """A component named in the cause alone.

    What
        The cause names a component that no test, reading, part or step mentions, while others are mentioned there.
    Why
        Mostly a slip of the pen: the reader would change C11 where C1 had failed.
    Bad
        root_cause: {component: C11, component_class: safety-film-capacitor, failure_mode: low-capacitance}
    Good
        root_cause: {component: C1, component_class: safety-film-capacitor, failure_mode: low-capacitance}
    How to mend
        Correct the designator; or say how the component was found, and what was done to it.
    """

    code = "CAU008"
    name = "component-named-once"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        cause = subject.entry.root_cause
        named = (cause.component or "").strip() if cause else ""
        if not designator_letters(named):
            return
        elsewhere: set[str] = set()
        for leaf in subject.leaves:
            if leaf.free and leaf.path != ("root_cause", "component"):
                elsewhere |= designators_in(leaf.value)
        if named not in elsewhere and elsewhere:
            same = sorted(other for other in elsewhere if designator_letters(other) == designator_letters(named))
            hint = f"Was {one_of(same[:3])} meant?" if same else "Say how it was found and what was done to it."
            yield Observation(("root_cause", "component"), f"{named} stands nowhere else in this entry", hint)
