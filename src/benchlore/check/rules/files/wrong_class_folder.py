"""Rule: an entry in the folder of another class."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.rule import EntryRule, Subject


class WrongClassFolder(EntryRule):
    """An entry in the folder of another class.

    What
        Entries lie in a folder named for their equipment class; this one says another class.
    Why
        People browse the folders. One of the two, folder or class, is wrong.
    Bad
        # file: entries/sewing-machine/relay-chatters.yaml
        minutes: 60
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
    How to mend
        Move the file, or correct equipment.class. Its address stays the same, since it does not depend on the class.
    """

    code = "FIL006"
    name = "wrong-class-folder"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        parts = subject.file.split("/")
        said = subject.entry.equipment.class_
        if subject.in_base and len(parts) == 3 and parts[1] != said and subject.vocabulary.get("class", said):
            message = f"the class is {said}, but the file lies in {parts[0]}/{parts[1]}/"
            hint = f"Move it to entries/{said}/, or correct the class."
            yield Observation(("equipment", "class"), message, hint)

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        said = str(page.value(("equipment", "class")) or "")
        to = f"entries/{said}/{page.file.rpartition('/')[2]}"
        return Mend(f"moved to {to}", sure=False, move_to=to)
