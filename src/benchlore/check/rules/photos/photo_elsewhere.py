"""Rule: a photo that is not beside its entry."""

from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject


class PhotoElsewhere(EntryRule):
    """A photo that is not beside its entry.

    What
        The name of a photo leads to another folder or to another host, starts with a dot, or is a link
        to another file.
    Why
        Photos lie beside their entry, so that a contribution cannot reach for other files, and pages load nothing
        from elsewhere.
    Bad
        photos: [{file: ../../site_config/shop.jpg, shows: label}]
    Good
        photos: []
    How to mend
        Put the file into the entry's folder and give its name alone.
    """

    code = "PHO002"
    name = "photo-elsewhere"
    severity = "error"
    ignorable = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, photo in enumerate(subject.entry.photos):
            if "/" in photo.file or "\\" in photo.file or ":" in photo.file or photo.file.startswith("."):
                message = "a photo lies beside its entry and is given by its name alone"
                yield Observation(("photos", index, "file"), message, "Put the file into the entry's folder.")
            elif subject.in_base and (subject.folder / photo.file).is_symlink():
                message = "this photo is a link to another file"
                yield Observation(("photos", index, "file"), message, "Put the file itself into the entry's folder.")
