"""Rule: a text without the form it needs."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.likeness import plain
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.check.rule import ReadingRule


class BadForm(ReadingRule):
    """A text without the form it needs.

    What
        The field takes a text of a certain form, such as the slug of an entry, and this has another.
    Why
        Slugs become addresses and names of files.
    Bad
        formerly: [Relay Chatters]
    Good
        formerly: [relay-chatters]
    How to mend
        A slug is lower-case letters and digits with single hyphens between them.
    """

    code = "RDG025"
    name = "bad-form"
    severity = "error"
    kinds = frozenset({"bad-form"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        slug = re.sub(r"[^a-z0-9]+", "-", plain(str(page.value(seen.path) or ""))).strip("-")
        named = bool(seen.path) and (seen.path[0] in ("follows", "formerly") or seen.path[-1] == "entry")
        return replacement(page, seen, slug, sure=False) if named and 3 <= len(slug) <= 100 else None
