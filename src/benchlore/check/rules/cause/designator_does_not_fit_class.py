"""Rule: a reference designator whose letters belong to another kind of component."""

from collections.abc import Iterator
from functools import lru_cache

from benchlore.check.causes import causes_of, designator_letters
from benchlore.check.finding import Observation, Path
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence, one_of
from benchlore.terms.model import ComponentClass
from benchlore.terms.vocabulary import Vocabulary


class DesignatorDoesNotFitClass(EntryRule):
    """A designator for another kind of component.

    What
        The letters of the reference designator are those of another kind of component: C1 called a relay.
    Why
        Either the designator or the component class is wrong, and the reader would look at the wrong part.
    Bad
        root_cause: {component: C1, component_class: relay, failure_mode: contact-worn}
    Good
        root_cause: {component: K1, component_class: relay, failure_mode: contact-worn}
        fix: {actions: [{do: clean, on: K1}]}
    How to mend
        Correct one of the two. Where a board numbers its parts in its own way, ignore this rule and say so.
    """

    code = "CAU007"
    name = "designator-does-not-fit-class"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry = subject.entry
        places: list[tuple[Path, str | None, str | None]] = [
            ((*path, "component"), cause.component, cause.component_class) for path, cause in causes_of(entry)
        ]
        places += [(("parts", i, "ref"), part.ref, part.component_class) for i, part in enumerate(entry.parts)]
        by_letters = _classes_by_letters(subject.vocabulary)
        for path, written, class_id in places:
            letters = designator_letters(written)
            kind = subject.vocabulary.get_as(ComponentClass, class_id)
            if not letters or kind is None or not kind.designators or letters in kind.designators:
                continue
            usual = by_letters.get(letters)
            if usual:
                label = in_sentence(kind.label)
                message = f"{written} is not how {label} is marked; {letters} is for {one_of(usual[:3])}"
                hint = f"Correct the designator or the class; usual here: {one_of(list(kind.designators))}."
                yield Observation(path, message, hint)


@lru_cache(maxsize=4)
def _classes_by_letters(vocabulary: Vocabulary) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for term in vocabulary.terms("component").values():
        if isinstance(term, ComponentClass):
            for letters in term.designators:
                found.setdefault(letters, []).append(in_sentence(term.label))
    return found
