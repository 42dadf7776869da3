"""Rule: something replaced, and not by what."""

from collections.abc import Iterator

from benchlore.check.causes import designator_letters
from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.fold import compact


class ReplacedWithoutPart(EntryRule):
    """Replaced, and not by what.

    What
        An action replaced a component, and no part was listed for it.
    Why
        The reader has to know what to order; the estimate needs its price.
    Bad
        fix: {actions: [{do: replace, on: C1}]}
        parts: []
    Good
        fix: {actions: [{do: replace, on: C1}]}
        parts: [{ref: C1, component_class: safety-film-capacitor, type: X2 film capacitor 1 µF, original: same}]
    How to mend
        Add the part, with ref as it is named in the action.
    """

    code = "PRT005"
    name = "replaced-without-part"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        refs = [compact(part.ref) for part in entry.parts if part.ref]
        for index, action in enumerate(entry.fix.actions if entry.fix else ()):
            on = action.on or ""
            if action.do != "replace" or not designator_letters(on):
                continue
            if not any(compact(on) in ref for ref in refs):
                message = f"{on} was replaced, but no part is listed for it"
                yield Observation(("fix", "actions", index), message, f"Add to parts: {{ref: {on}, type: ...}}.")
