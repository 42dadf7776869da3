"""Rule: a text that is not YAML."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.keys import known_keys
from benchlore.check.mends.page import Page
from benchlore.check.rule import ReadingRule


class YamlSyntax(ReadingRule):
    """A text that is not YAML.

    What
        The file cannot be read as YAML, for a reason that has no rule of its own.
    Why
        Nothing in it can be checked or published until it can be read.
    Bad
        hazards: [mains, moving-parts
        minutes: 60
    Good
        hazards: [mains, moving-parts]
        minutes: 60
    How to mend
        Look at the place given and the line before it: a bracket left open, or a line indented differently.
    """

    code = "RDG002"
    name = "yaml-syntax"
    severity = "error"
    kinds = frozenset({"yaml-syntax"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.offset is None or seen.end is None:
            return None
        if seen.message.startswith("there is no space after the colon"):
            key = re.search(r"[\w-]+$", page.text[: seen.offset])
            if key and key[0] in known_keys():
                return Mend("a space after the colon", (Edit(seen.end, seen.end, " "),))
        elif seen.message.startswith("a backslash in double quotes"):
            return Mend("two backslashes for one", (Edit(seen.offset, seen.offset + 1, "\\\\"),))
        return None
