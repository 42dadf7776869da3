"""Rule: a title that does not say what it was."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject
from benchlore.terms.fold import words
from benchlore.terms.stem import stem

_SAYING_NOTHING = """
a an and the of on in to at is it not no with for from by after before does doesnt dont do wont cannot repair repaired
repairing fix fixed fault faulty broken defect defective problem issue failure failed dead working works work stopped
unit device machine appliance tool equipment thing job entry new old customer
"""
_EMPTY = frozenset(stem(word) for word in _SAYING_NOTHING.split())
_LEAST = 2


class TitleSaysNothing(EntryRule):
    """A title that says nothing.

    What
        Apart from the equipment's class, maker and model and from words such as broken or repaired, the title has
        fewer than two words.
    Why
        The title is what stands in every list and under every search. It should say what it did, and what it was.
    Bad
        title: Dehumidifier BW-12 broken, repaired
    Good
        title: Compressor relay chatters and the display dims; dropper capacitor had lost its value
    How to mend
        Write: what it did; what it was.
    """

    code = "TXT001"
    name = "title-says-nothing"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        equipment = subject.entry.equipment
        known = " ".join(
            (
                equipment.class_.replace("-", " "),
                subject.vocabulary.label("class", equipment.class_),
                equipment.maker or "",
                equipment.model or "",
            )
        )
        common = _EMPTY | {stem(word.text) for word in words(known)}
        telling = {stem(word.text) for word in words(subject.entry.title)} - common
        if sum(not word.isdigit() for word in telling) < _LEAST:
            yield Observation(("title",), "the title does not say what it was", "Write: what it did; what it was.")
