"""Rule: a file name that some systems cannot hold."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.one_file import is_beside
from benchlore.check.rule import EntryRule, Subject

_RESERVED = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)", re.IGNORECASE)
"""Names that Windows keeps for devices, whatever their suffix (Microsoft: Naming Files, Paths, and Namespaces)."""
_IMPOSSIBLE = re.compile(r'[<>"|?*:\x00-\x1f]|[ .]$')


class ReservedFileName(EntryRule):
    """A file name that some systems cannot hold.

    What
        The entry, or a photo of it, has a name that Windows keeps for a device, such as con or aux; or a photo's name
        has characters that cannot be in a file's name there, or differs from another's by capitals alone.
    Why
        A repository with such a file cannot be checked out there: nobody gets the others either.
    Bad
        # file: entries/dehumidifier/com1.yaml
        minutes: 60
    Good
        # file: entries/dehumidifier/com-port-dead.yaml
        minutes: 60
    How to mend
        Give the file another name.
    """

    code = "FIL007"
    name = "reserved-file-name"
    severity = "error"
    ignorable = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        if subject.in_base and _RESERVED.match(subject.slug):
            yield Observation((), f"{subject.slug} is the name of a device on some systems", "Give it another name.")
        seen: dict[str, str] = {}
        for index, photo in enumerate(subject.entry.photos):
            path = ("photos", index, "file")
            if not is_beside(photo.file) or ":" in photo.file:
                continue  # another rule refuses a path
            if _RESERVED.match(photo.file) or _IMPOSSIBLE.search(photo.file):
                yield Observation(path, "not every system can hold a file of this name", "Give it a plain name.")
            other = seen.setdefault(photo.file.casefold(), photo.file)
            if other != photo.file:
                yield Observation(path, f"this differs from {other} by capitals alone", "Give one another name.")
