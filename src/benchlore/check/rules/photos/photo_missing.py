"""Rule: a photo that is not there."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class PhotoMissing(EntryRule):
    """A photo that is not there.

    What
        A photo is named, and no such file lies beside the entry.
    Why
        The page would show an empty frame.
    Bad
        photos: [{file: c1.jpg, shows: fault, of: C1}]
    Good
        photos: []
    How to mend
        Put the file into the entry's folder under exactly this name, or take the photo out.
    """

    code = "PHO001"
    name = "photo-missing"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if not subject.in_base:
            return
        for index, photo in enumerate(subject.entry.photos):
            plain = "/" not in photo.file and "\\" not in photo.file and not photo.file.startswith(".")
            beside = subject.folder / photo.file
            if plain and not beside.is_symlink() and not beside.is_file():
                message = f"there is no file “{photo.file}” beside the entry"
                yield Observation(("photos", index, "file"), message, "Put it there, or take the photo out.")
