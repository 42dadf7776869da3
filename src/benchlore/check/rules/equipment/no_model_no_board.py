"""Rule: neither a model nor a board marking."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class NoModelNoBoard(EntryRule):
    """Neither a model nor a board marking.

    What
        The equipment has no model, and no board with what is printed on it.
    Why
        Somebody with the same unit looks for its model or its board. Without either, they cannot know it is theirs.
    Bad
        equipment: {class: dehumidifier, maker: Brackwater}
    Good
        equipment: {class: dehumidifier, boards: [{marking: BWC-02}]}
    How to mend
        Add the model from the rating plate, or the marking printed on the board that was at fault.
    """

    code = "EQP001"
    name = "no-model-no-board"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if not subject.entry.equipment.model and not subject.entry.equipment.boards:
            message = "neither a model nor a board marking says which unit this was"
            yield Observation(
                ("equipment",), message, "Add model: from the rating plate, or boards: [{marking: ...}].", on_key=True
            )
