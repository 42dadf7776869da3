"""Rule: a character that cannot be seen."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page
from benchlore.check.rule import ReadingRule


class HiddenCharacter(ReadingRule):
    """A character that cannot be seen.

    What
        The text holds a control character, or one that is invisible or turns the direction of writing.
    Why
        A reader and a program would see different texts; a control character can disturb a terminal.
    Bad
        title: Compressor relay\u200b chatters under load; dropper capacitor C1 had lost its value
    Good
        title: Compressor relay chatters under load; dropper capacitor C1 had lost its value
    How to mend
        Delete the character. It often comes along with text copied from a web page or a PDF.
    """

    code = "RDG001"
    name = "hidden-character"
    severity = "error"
    kinds = frozenset({"control-character", "invisible-character"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.offset is None or seen.end is None or seen.path:
            return None  # written as an escape in double quotes: rare, and the quotes are the writer's
        character = page.text[seen.offset : seen.end]
        instead = {"\r": page.newline, "\x85": " ", "\u2028": " ", "\u2029": " "}.get(character, "")
        return Mend(f"U+{ord(character[:1] or ' '):04X} taken out", (Edit(seen.offset, seen.end, instead),))
