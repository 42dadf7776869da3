"""Rule: a link that is no web address."""

import re
from collections.abc import Iterator

from benchlore.check.finding import Observation
from benchlore.check.rule import EntryRule, Subject

_WEB = re.compile(r"https?://[^\s\"'<>@/]{1,253}(/[^\s\"'<>]{0,1800})?", re.IGNORECASE)


class UnsafeLink(EntryRule):
    """A link that is no web address.

    What
        The link of a document does not start with https:// or http://, or holds a name or password.
    Why
        Other kinds of links can run something on the reader's computer, or lead to a file only the writer has.
    Bad
        documents: [{title: BW-20 service sheet, link: "file:///home/bench/bw-20.pdf"}]
    Good
        documents: [{title: BW-20 service sheet, link: "https://millrace.example/bw-20.pdf"}]
    How to mend
        Give the address on the web, or leave the link out: the title says what to look for.
    """

    code = "TXT004"
    name = "unsafe-link"
    severity = "error"
    ignorable = False

    def check(self, subject: Subject) -> Iterator[Observation]:
        for index, document in enumerate(subject.entry.documents):
            if document.link and not _WEB.fullmatch(document.link):
                message = "this is no plain web address"
                yield Observation(("documents", index, "link"), message, "Give one that starts with https://, or none.")
