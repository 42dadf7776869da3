"""Rule: a key that an entry does not have at this place."""

import re

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.keys import keys_at
from benchlore.check.mends.likeness import surely
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import whole_value
from benchlore.check.rule import ReadingRule


class UnknownKey(ReadingRule):
    """A key that an entry does not have here.

    What
        The key is misspelt, or belongs to another place.
    Why
        What stands under an unknown key would never be shown, searched or counted.
    Bad
        root_casue: {component: C1}
    Good
        root_cause: {component: C1}
    How to mend
        Take the key that is proposed. What has no key of its own goes in a note.
    """

    code = "RDG013"
    name = "unknown-key"
    severity = "error"
    kinds = frozenset({"unknown-key"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        key, node = page.pair(seen.path) or (None, None)
        holder = page.value(seen.path[:-1])
        if key is None or node is None or not isinstance(holder, dict):
            return None
        start, end, word = key.start_mark.index, key.end_mark.index, str(seen.path[-1])
        if node.start_mark.index == node.end_mark.index:
            if missing := re.fullmatch(r"([A-Za-z_]+):(\S.*)", word):
                if missing[1] in keys_at(seen.path[:-1]) and missing[1] not in holder:
                    at = start + len(missing[1]) + 1
                    return Mend("a space after the colon", (Edit(at, at, " "),))
                return None
            return whole_value(page, seen.path)
        meant = surely(word.replace("-", "_"), [k.replace("_", "-") for k in keys_at(seen.path[:-1])])
        meant = meant.replace("-", "_") if meant else None
        if meant is None or meant in holder or page.text[start:end] != word:
            return None
        return Mend(f"{word} → {meant}", (Edit(start, end, meant),))
