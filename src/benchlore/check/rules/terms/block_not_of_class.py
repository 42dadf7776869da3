"""Rule: a functional block that equipment of this class is not known to have."""

from collections.abc import Iterator

from benchlore.check.finding import Observation, Path
from benchlore.check.rule import EntryRule, Subject
from benchlore.check.wording import in_sentence, one_of
from benchlore.terms.model import EquipmentClass
from benchlore.terms.nearest import nearest


class BlockNotOfClass(EntryRule):
    """A block that this class of equipment does not list.

    What
        The cause, or a test's target, is a functional block that the equipment class does not list.
    Why
        Advice goes through the class's blocks in order. What is said about another block teaches it nothing.
    Bad
        root_cause:
          block: needle-drive
          component: C1
          component_class: safety-film-capacitor
          failure_mode: low-capacitance
    Good
        root_cause:
          block: low-voltage-supply
          component: C1
          component_class: safety-film-capacitor
          failure_mode: low-capacitance
    How to mend
        Take a block of the class. When this equipment really has another one, add it to the class in
        schema/vocabulary/classes/, at its place in signal or power order.
    """

    code = "TRM003"
    name = "block-not-of-class"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        entry, vocabulary = subject.entry, subject.vocabulary
        kind = vocabulary.get_as(EquipmentClass, entry.equipment.class_)
        if kind is None:
            return
        places: list[tuple[Path, str | None]] = [(("tests", i, "target"), t.target) for i, t in enumerate(entry.tests)]
        if entry.root_cause:
            places.append((("root_cause", "block"), entry.root_cause.block))
        places += [(("also_found", i, "block"), found.block) for i, found in enumerate(entry.also_found)]
        for path, block in places:
            if block and block not in kind.blocks and vocabulary.get("block", block):
                close = nearest(block, kind.blocks, limit=2)
                hint = f"Did you mean {one_of(close)}?" if close else f"It has {', '.join(kind.blocks)}."
                yield Observation(path, f"{in_sentence(kind.label)} is not listed with the block {block}", hint)
