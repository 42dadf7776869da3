"""Rule: a word that is none of the possible ones."""

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.keys import choices_at
from benchlore.check.mends.likeness import plain, surely
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule
from benchlore.terms.nearest import nearest


class WrongChoice(ReadingRule):
    """A word that is none of the possible ones.

    What
        The field takes one of a few words, and this is another.
    Why
        Outcomes, confidence and the like are counted and compared; a word of one's own would be left out.
    Bad
        outcome: fixed
    Good
        outcome: repaired
    How to mend
        Take one of the words listed in the message.
    """

    code = "RDG018"
    name = "wrong-choice"
    severity = "error"
    kinds = frozenset({"wrong-choice"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        written, choices = str(page.value(seen.path) or ""), choices_at(seen.path)
        word = surely(written, choices)
        if word:
            return replacement(page, seen, word)
        close = nearest(plain(written), choices, limit=1)
        return replacement(page, seen, close[0], sure=False) if close else None
