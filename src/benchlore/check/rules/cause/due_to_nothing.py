"""Rule: a consequence of something the entry does not name."""

from collections.abc import Iterator

from benchlore.check.causes import causes_of
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import one_of
from benchlore.terms.fold import compact


class DueToNothing(EntryRule):
    """A consequence of nothing.

    What
        due_to names a component that is neither the root cause nor another one found.
    Why
        What took what with it shows where to look next; it must lead somewhere.
    Bad
        also_found:
          - {component: D2, component_class: zener-diode, failure_mode: short, role: consequence, due_to: C9}
    Good
        also_found:
          - {component: D2, component_class: zener-diode, failure_mode: short, role: consequence, due_to: C1}
    How to mend
        Name the component as it is named in root_cause or also_found.
    """

    code = "CAU009"
    name = "due-to-nothing"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        named = [cause.component for _, cause in causes_of(subject.entry) if cause.component]
        blocks = [cause.block for _, cause in causes_of(subject.entry) if cause.block]
        known = {compact(name) for name in (*named, *blocks)}
        for index, found in enumerate(subject.entry.also_found):
            if found.due_to and compact(found.due_to) not in known:
                message = f"nothing that was found is called “{found.due_to}”"
                hint = f"Found here: {one_of(named[:4])}." if named else ""
                yield Observation(("also_found", index, "due_to"), message, hint)
