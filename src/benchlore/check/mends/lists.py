"""Items put into a list of an entry, or taken out of it."""

from __future__ import annotations

from yaml.nodes import MappingNode, Node, SequenceNode

from benchlore.check.finding import Path
from benchlore.check.mends.edit import Edit, Mend
from benchlore.check.mends.page import Page
from benchlore.read.place import place


def without_item(page: Page, path: Path) -> Mend | None:
    """The list item at ``path`` taken out; with the last item goes the key that the list belongs to."""
    way = page.way(path)
    if len(way) != len(path) + 1 or not isinstance(path[-1], int):
        return None
    (key, holder), (_, item) = way[-2], way[-1]
    if not isinstance(holder, SequenceNode):
        return None
    said = "taken out"
    if len(holder.value) == 1:
        above = way[-3][1]
        if key is None or not isinstance(above, MappingNode) or above.flow_style or len(above.value) == 1:
            return None
        return Mend(said, (_lines(page, key, place(holder, page.text, ()).end),))
    index = path[-1]
    if holder.flow_style:
        if index + 1 < len(holder.value):
            return Mend(said, (Edit(item.start_mark.index, holder.value[index + 1].start_mark.index, ""),))
        return Mend(said, (Edit(holder.value[index - 1].end_mark.index, item.end_mark.index, ""),))
    return Mend(said, (_lines(page, item, place(item, page.text, ()).end),))


def _lines(page: Page, first: Node, last: int) -> Edit:
    """Whole lines, from that of ``first`` to that of the offset ``last``, the line break at their end included."""
    start = page.line_at(first.start_mark.index)[0]
    end = page.text.find("\n", last)
    return Edit(start, len(page.text) if end < 0 else end + 1, "")


def with_item(page: Page, key: str, item: str) -> Mend | None:
    """``item``, which needs no quotes, added to the list under the top-level ``key``, which may not be there."""
    root, found = page.read.root, page.pair((key,))
    if not isinstance(root, MappingNode) or root.flow_style:
        return None
    said = f"{item} added to {key}"
    if found is None:
        at = len(page.text)
        before = "" if page.text.endswith("\n") else page.newline
        return Mend(said, (Edit(at, at, f"{before}{key}: [{item}]{page.newline}"),), sure=False)
    node = found[1]
    if not isinstance(node, SequenceNode) or not node.value:
        return None
    if node.flow_style:
        at = node.value[0].start_mark.index
        return Mend(said, (Edit(at, at, f"{item}, "),), sure=False)
    start = page.line_at(node.value[0].start_mark.index)[0]
    dash = page.text[start : node.value[0].start_mark.index]
    if dash.strip() != "-":
        return None
    return Mend(said, (Edit(start, start, f"{dash}{item}{page.newline}"),), sure=False)
