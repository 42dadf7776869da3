"""Rule: a photo that cannot be told in words."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class PhotoWithoutWords(EntryRule):
    """A photo without words.

    What
        A photo has neither an alternative text nor what it is of.
    Why
        Somebody who cannot see the picture gets nothing, and a search finds nothing.
    Bad
        # photo: c1.jpg
        photos: [{file: c1.jpg, shows: fault}]
    Good
        # photo: c1.jpg
        photos: [{file: c1.jpg, shows: fault, alt: brown mark on the board around the legs of C1}]
    How to mend
        Add alt: what the picture shows, in a sentence; or at least of: what it is of, from which a text is drafted.
    """

    code = "PHO003"
    name = "photo-without-words"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, photo in enumerate(subject.entry.photos):
            if not photo.alt and not photo.of:
                message = "this photo has neither alt nor of"
                yield Observation(("photos", index), message, "Add alt: what the picture shows, in a sentence.")
