"""Rule: a photo of a label, and nothing said about the serial number on it."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.one_file import is_beside
from benchlore.check.rule import EntryRule, Subject

_SAID = re.compile(r"cover|mask|blank|blur|black|remov|hidden|taped|unreadable|crop|no serial|without", re.IGNORECASE)


class LabelMayShowSerial(EntryRule):
    """A label that may show a serial number.

    What
        A photo shows a label, and its alternative text does not say that the serial number is covered or missing.
    Why
        A full serial number leads to the owner, and a rating plate nearly always carries one. No program can be sure
        of what a picture shows, so it is asked.
    Bad
        # photo: plate.jpg
        photos: [{file: plate.jpg, shows: label, alt: Rating plate of the BW-12}]
    Good
        # photo: plate.jpg
        photos: [{file: plate.jpg, shows: label, alt: "Rating plate of the BW-12, serial number covered"}]
    How to mend
        Look at the picture. Cover the number with a strip of tape, or crop it off, and say so in alt.
    """

    code = "PHO005"
    name = "label-may-show-serial"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, photo in enumerate(subject.entry.photos):
            if photo.shows == "label" and is_beside(photo.file) and not _SAID.search(photo.alt or ""):
                message = "does this label show a serial number?"
                hint = "Cover it, and say so in alt: serial number covered. Or: without a serial number."
                yield Observation(("photos", index), message, hint)
