"""Rule: a file that is not at entries/<class>/<slug>.yaml."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.likeness import plain
from benchlore.check.mends.page import Page
from benchlore.check.rule import ReadingRule


class BadFileName(ReadingRule):
    """A file that is not named and placed as an entry.

    What
        Entries are found at entries/<class>/<slug>.yaml. The slug is lower-case words with hyphens, from 3 to 100
        characters: relay-chatters-bw-12.
    Why
        The slug is the entry's id and its address on the site. A name in another form is not found, or gives an
        address that breaks when it is sent to somebody.
    Bad
        # file: entries/dehumidifier/Relay_Chatters.yaml
        title: Compressor relay chatters under load; dropper capacitor C1 had lost its value
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        title: Compressor relay chatters under load; dropper capacitor C1 had lost its value
    How to mend
        Rename the file. If the old name was published, add it under formerly, where it has the form of a slug.
    """

    code = "FIL003"
    name = "bad-file-name"
    severity = "error"
    kinds = frozenset({"bad-file-name"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        stem = page.file.rpartition("/")[2].rpartition(".")[0]
        slug = re.sub(r"[^a-z0-9]+", "-", plain(stem)).strip("-")[:100].strip("-")
        said = str(page.value(("equipment", "class")) or "")
        if page.vocabulary.get("class", said) is None or not len(slug) >= 3:
            return None
        to = f"entries/{said}/{slug}.yaml"
        return Mend(f"moved to {to}", sure=False, move_to=to) if to != page.file else None
