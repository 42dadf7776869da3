"""Rule: an e-mail address, a telephone number, a name with its title, a serial number."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject

_PATTERNS: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("an e-mail address", re.compile(r"(?<![\w.+-])[\w.+-]{1,64}@[\w-]{1,63}(?:\.[\w-]{1,63}){1,5}")),
    ("a telephone number", re.compile(r"(?<![\w.,+-])(?:\+|00)\d{1,3}[ ()/.-]{1,3}\d(?:[ ()/.-]?\d){6,11}(?!\w)")),
    (
        "a telephone number",
        re.compile(r"\b(?:tel|phone|telephone|mobile|call|ring)\b[^\w\n]{0,4}\+?\d(?:[ ()/.-]{0,2}\d){5,13}\b", re.I),
    ),
    ("a person's name", re.compile(r"\b(?:Mr|Mrs|Ms|Miss|Herr|Frau|Mme|Mlle)\b\.? [A-Z]\w{1,30}")),
    (
        "a postal address",
        re.compile(r"\b\d{1,4}[a-z]? (?:[A-Z][\w'-]{1,30} ){1,3}(?:Street|Road|Lane|Avenue|Close|Drive|Way|Square)\b"),
    ),
    (
        "a serial number",
        re.compile(r"\b(?:s/n|ser(?:ial)?\.? ?(?:no|nr|number)\.?|serial:)[ :#]{0,3}(?=[\w-]*\d)[\w-]{6,30}", re.I),
    ),
)
"""What is looked for. Each repeats a bounded number of times, so that no text keeps it busy."""


class PersonalData(EntryRule):
    """Personal data.

    What
        A text holds what looks like an e-mail address, a telephone number, a person's name or address, or a full
        serial number.
    Why
        Entries are published and copied for ever. The unit's owner did not agree to that, and a serial number leads
        to the owner.
    Bad
        notes: Mrs Example asked to be rung at +44 20 7946 0000 when it is done.
    Good
        notes: The owner was to be told when it is done.
    How to mend
        Take it out, and out of the history of the repository too if it was ever committed.
    """

    code = "TXT002"
    name = "personal-data"
    severity = "error"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if not any(pattern.search(subject.free_text) for _, pattern in _PATTERNS):
            return
        for leaf in subject.leaves:
            if not leaf.free or leaf.path[0] in ("author", "lint_ignore"):
                continue
            for what, pattern in _PATTERNS:
                if found := pattern.search(leaf.value):
                    message = f"this looks like {what}"
                    yield Observation(leaf.path, message, "Take it out: entries are published.", excerpt=found[0])
                    break
