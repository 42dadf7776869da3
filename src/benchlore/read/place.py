"""Where a path of an entry stands in its text: offsets of a key or a value in the node tree."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from yaml.nodes import CollectionNode, MappingNode, Node, ScalarNode, SequenceNode


class Place(NamedTuple):
    """Characters ``start`` to ``end`` (not included) of the text, from 0."""

    start: int
    end: int


def place(root: Node, text: str, path: Sequence[str | int], *, on_key: bool = False) -> Place:
    """The value at ``path``, or its key; where the path leads nowhere, the nearest thing above that is there."""
    key: Node | None = None
    node = root
    for step in path:
        found = _step(node, step)
        if found is None:
            return _head(key, node, text)
        key, node = found
    if (on_key or _is_empty(node)) and key is not None:
        return _extent(key, text)
    return _extent(node, text)


def _step(node: Node, step: str | int) -> tuple[Node | None, Node] | None:
    if isinstance(node, MappingNode):
        pairs = [(k, v) for k, v in node.value if isinstance(k, ScalarNode) and k.value == step]
        return pairs[-1] if pairs else None
    if isinstance(node, SequenceNode) and isinstance(step, int) and 0 <= step < len(node.value):
        return None, node.value[step]
    return None


def _head(key: Node | None, node: Node, text: str) -> Place:
    """What stands for a whole mapping or list: the key it belongs to, else its first key, else itself."""
    if key is not None:
        return _extent(key, text)
    if isinstance(node, MappingNode) and node.value:
        return _extent(node.value[0][0], text)
    return _extent(node, text)


def _is_empty(node: Node) -> bool:
    return node.start_mark.index == node.end_mark.index


def _extent(node: Node, text: str) -> Place:
    """From the node's first character to its last; the parser's own end mark runs on over comments and blank lines."""
    start: int = node.start_mark.index
    last = node
    while isinstance(last, CollectionNode) and not last.flow_style and last.value:
        child = last.value[-1]
        if isinstance(child, tuple):
            child = child[0] if _is_empty(child[1]) else child[1]
        last = child
    end: int = last.end_mark.index
    while end > start and text[end - 1].isspace():
        end -= 1
    return Place(start, end)
