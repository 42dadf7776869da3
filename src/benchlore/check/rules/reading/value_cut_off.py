"""Rule: a value that ends before a # that was meant to belong to it."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page, quoted
from benchlore.check.rule import EntryRule, Subject
from benchlore.read.place import place
from benchlore.read.yaml_nodes import compose

_MAYBE = re.compile(r"\S[ \t]+#[^\s#]")
_CUT = re.compile(r"[ \t]+#[^\s#][^\r\n]*")


class ValueCutOff(EntryRule):
    """A value cut off by a #.

    What
        An unquoted text is followed by a space and a # with no space after it, as in relay #2.
    Why
        To YAML a # after a space starts a comment: what follows is not part of the entry, and nobody sees it.
    Bad
        notes: The contact of relay #2 was burnt.
    Good
        notes: "The contact of relay #2 was burnt."
    How to mend
        Put the whole value in quotes. If it is a comment, put a space after the #.
    """

    code = "RDG026"
    name = "value-cut-off"
    severity = "warning"

    def check(self, subject: Subject) -> Iterator[Observation]:
        if "#" not in subject.text or not _MAYBE.search(subject.text):
            return
        root, _ = compose(subject.text)
        for leaf in subject.leaves:
            if root is None or not leaf.free:
                continue
            start, end = place(root, subject.text, leaf.path)
            cut = _CUT.match(subject.text, end)
            if cut and subject.text[start : start + 1] not in ("'", '"', "|", ">"):
                message = f"the value ends before the #: {cut[0].strip()[:60]} is read as a comment"
                hint = "Put the whole value in quotes; or, if it is a comment, a space after the #."
                yield Observation(leaf.path, message, hint, offset=start, end=cut.end())

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        if seen.offset is None or seen.end is None:
            return None
        value = page.text[seen.offset : seen.end].rstrip()
        if "\n" in value:
            return None
        numbered = re.search(r"\s#\d", value) is not None
        edit = Edit(seen.offset, seen.offset + len(value), quoted(value))
        return Mend("the whole value in quotes", (edit,), numbered)
