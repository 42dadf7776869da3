"""Rule: something that was to be filled in."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject

_WORDS = re.compile(r"\b(?:TODO|FIXME|TBD|XXX+|tbc)\b|\?\?\?|\blorem ipsum\b|<[a-z ]{3,30} here>|\[\.\.\.\]")
_WHOLE = re.compile(r"(?i:\?+|\.{3}|…|n/?a|none yet|to do|to be done|fill in.{0,40}|-+|tba)")


class PlaceholderLeft(EntryRule):
    """Something that was to be filled in.

    What
        A text is, or contains, a placeholder such as TODO, ??? or three dots.
    Why
        What is not known is left out; a placeholder is shown and searched as if it were said.
    Bad
        notes: "TODO: which screws?"
    Good
        notes: The four outer screws hold the cover.
    How to mend
        Fill it in, or take it out.
    """

    code = "TXT006"
    name = "placeholder-left"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for leaf in subject.leaves:
            if leaf.free and leaf.path[0] != "lint_ignore":
                found = _WHOLE.fullmatch(leaf.value.strip()) or _WORDS.search(leaf.value)
                if found:
                    message = f"“{found[0]}” was to be filled in"
                    yield Observation(leaf.path, message, "Fill it in, or take it out.", excerpt=found[0])
