"""Rule: a list, a mapping or a text where something else belongs."""

import re

from yaml.nodes import MappingNode, ScalarNode, SequenceNode

from benchlore.check.finding import Observation
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.keys import term_kind_at
from benchlore.check.mends.page import Page, written
from benchlore.check.rule import ReadingRule


class WrongType(ReadingRule):
    """A list, a mapping or a text in the wrong place.

    What
        The format has a list here and a single value was written, or the other way round.
    Why
        It cannot be told what was meant.
    Bad
        hazards: mains
    Good
        hazards: [mains]
    How to mend
        Write a list with brackets or hyphens, a mapping with keys, a text as plain words.
    """

    code = "RDG017"
    name = "wrong-type"
    severity = "error"
    kinds = frozenset({"wrong-type"})

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        found = page.pair(seen.path)
        if found is None:
            return None
        node, holds_terms = found[1], term_kind_at(seen.path) is not None
        start, end = node.start_mark.index, node.end_mark.index
        here = page.text[start:end]
        one_line = "\n" not in here and bool(here)
        if "must be a list" in seen.message and one_line:
            if isinstance(node, MappingNode) and node.flow_style:
                return Mend("[ ] around it", (Edit(start, start, "["), Edit(end, end, "]")))
            if isinstance(node, ScalarNode) and node.style not in ("|", ">"):
                parts = re.split(r"\s*[,;]\s*", node.value.strip()) if holds_terms else [node.value]
                items = ", ".join(written(part, in_brackets=True) for part in parts if part)
                return Mend("a list", (Edit(start, end, f"[{items}]"),)) if items else None
        only_one = isinstance(node, SequenceNode) and node.flow_style and len(node.value) == 1
        if only_one and one_line and ("a text" in seen.message or "a single value" in seen.message):
            item = node.value[0]
            if isinstance(item, ScalarNode):
                return Mend("no brackets", (Edit(start, item.start_mark.index, ""), Edit(item.end_mark.index, end, "")))
        return None
