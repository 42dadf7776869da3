"""Rule: a photo that tells where it was taken."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.one_file import is_beside
from benchlore.check.photo_position import LOOKED_AT, has_position
from benchlore.check.rule import EntryRule, Subject
from benchlore.read.files import read_bytes


class PhotoWithPosition(EntryRule):
    """A photo that tells where it was taken.

    What
        The picture's metadata holds a position (GPS).
    Why
        It leads to the workshop, or to the owner's home. The site is published without it, but the repository keeps
        the file as it is.
    Bad
        A photo straight from a telephone that adds the place.
    Good
        The same photo saved without its metadata.
    How to mend
        Take the metadata out, with the telephone's or any picture editor's "remove location" or "strip metadata";
        switch the location off in the camera. Take the old file out of the repository's history if it was committed.
    """

    code = "PHO004"
    name = "photo-with-position"
    severity = "warning"
    shown_by_files = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, photo in enumerate(subject.entry.photos):
            if not subject.in_base or not is_beside(photo.file):
                continue
            try:
                content = read_bytes(subject.folder / photo.file, LOOKED_AT)
            except (OSError, ValueError):
                continue  # another rule says that it is not there
            if content and has_position(content):
                message = "this photo says where it was taken (GPS position in its metadata)"
                yield Observation(("photos", index, "file"), message, "Save it without metadata.")
