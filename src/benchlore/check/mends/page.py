"""A file's text as mends see it: where a value stands, and what to write there in its place."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from yaml.nodes import CollectionNode, MappingNode, Node, ScalarNode, SequenceNode

from benchlore.check.mends.edit import Edit
from benchlore.read.shop import Shop
from benchlore.read.yaml_nodes import Data, YamlText, read_yaml
from benchlore.terms.vocabulary import Vocabulary


@dataclass(frozen=True)
class Page:
    """One file's text, with what a mend may ask about it. ``file`` is relative to the base, with ``/``."""

    text: str
    file: str
    in_base: bool
    vocabulary: Vocabulary
    shop: Shop

    @cached_property
    def read(self) -> YamlText:
        """The text as nodes and plain values; without a root where it cannot be composed."""
        return read_yaml(self.text)

    @cached_property
    def newline(self) -> str:
        """How the file ends its lines."""
        return "\r\n" if "\r\n" in self.text else "\n"

    def way(self, path: Sequence[str | int]) -> list[tuple[Node | None, Node]]:
        """Keys (None for list items) and nodes from the top down to ``path``; as far as it leads."""
        root = self.read.root
        if root is None:
            return []
        way: list[tuple[Node | None, Node]] = [(None, root)]
        for step in path:
            found = _step(way[-1][1], step)
            if found is None:
                break
            way.append(found)
        return way

    def pair(self, path: Sequence[str | int]) -> tuple[Node | None, Node] | None:
        """Key and node at ``path``; None when it leads nowhere."""
        way = self.way(path)
        return way[-1] if len(way) == len(path) + 1 else None

    def value(self, path: Sequence[str | int]) -> Data:
        """The plain value at ``path``; None when there is none."""
        here = self.read.data
        for step in path:
            if isinstance(here, dict) and isinstance(step, str):
                here = here.get(step)
            elif isinstance(here, list) and isinstance(step, int) and 0 <= step < len(here):
                here = here[step]
            else:
                return None
        return here

    def in_brackets(self, path: Sequence[str | int]) -> bool:
        """Whether the value at ``path`` stands inside ``{ }`` or ``[ ]``."""
        return any(isinstance(node, CollectionNode) and node.flow_style for _, node in self.way(path)[:-1])

    def replaced(self, path: Sequence[str | int], value: str, *, on_key: bool = False) -> tuple[Edit, ...]:
        """The edit that puts ``value`` in place of the scalar at ``path`` (or its key), quoted as it is; none if
        there is no such scalar on one line.
        """
        found = self.pair(path)
        node = found[0 if on_key else 1] if found else None
        if not isinstance(node, ScalarNode) or node.style in ("|", ">") or node.start_mark.line != node.end_mark.line:
            return ()
        new = written(value, in_brackets=self.in_brackets(path), quotes=node.style or "")
        return (Edit(node.start_mark.index, node.end_mark.index, new),)

    def line_at(self, offset: int) -> tuple[int, int]:
        """Where the line of ``offset`` starts and ends, its line break not included."""
        start = self.text.rfind("\n", 0, offset) + 1
        end = self.text.find("\n", offset)
        end = len(self.text) if end < 0 else end
        return start, end - (self.text[start:end].endswith("\r"))


def _step(node: Node, step: str | int) -> tuple[Node | None, Node] | None:
    if isinstance(node, MappingNode):
        pairs = [(k, v) for k, v in node.value if isinstance(k, ScalarNode) and k.value == step]
        return pairs[-1] if pairs else None
    if isinstance(node, SequenceNode) and isinstance(step, int) and 0 <= step < len(node.value):
        return None, node.value[step]
    return None


def quoted(text: str, mark: str = "") -> str:
    """``text`` as a YAML string in quotes, by ``mark`` where that will do; it must hold no line break."""
    if mark != "'" and '"' not in text and "\\" not in text:
        return f'"{text}"'
    return "'" + text.replace("'", "''") + "'"


def written(value: str, *, in_brackets: bool, quotes: str = "") -> str:
    """``value`` as YAML on one line: in ``quotes`` if it was, bare if it can be, quoted else."""
    if quotes in ("'", '"'):
        return quoted(value, quotes)
    line = f"{{k: {value}, z: z}}" if in_brackets else f"k: {value}"
    read = read_yaml(line).data if not re.search(r"[\r\n]", value) else None
    return value if isinstance(read, dict) and read.get("k") == value and len(read) <= 2 else quoted(value)
