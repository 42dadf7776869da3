"""Rule: HTML in a text."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject

_TAG = re.compile(r"</?[A-Za-z][A-Za-z0-9-]{0,20}(?:\s[^<>]{0,300})?/?>|<!--")


class MarkupInText(EntryRule):
    """HTML in a text.

    What
        A text holds an HTML tag.
    Why
        Texts are plain, notes are Markdown; a tag is shown as it is written and does nothing.
    Bad
        notes: The cover has <b>four</b> screws.
    Good
        notes: The cover has **four** screws.
    How to mend
        Write it plainly, or in Markdown in the notes.
    """

    code = "TXT005"
    name = "markup-in-text"
    severity = "note"

    def check(self, subject: Subject) -> Iterator[Observation]:
        for leaf in subject.leaves:
            found = _TAG.search(leaf.value) if leaf.free else None
            if found:
                hint = "It is shown as it is; write it plainly."
                yield Observation(leaf.path, "this text holds an HTML tag", hint, excerpt=found[0])
