"""YAML text to a node tree and to plain text values, within limits; strange YAML is refused with its place.

Scalars stay text: nothing is turned into a number, a date or a truth value here. The C parser of PyYAML is used when
it is there, the pure one otherwise; both are driven in the same way and give positions in characters.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from heapq import merge
from typing import Any, TypeAlias

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from benchlore.read.problem import SHOWN, Path, Problem, at_most, in_quotes, shown
from benchlore.read.yaml_errors import explain

Data: TypeAlias = "str | list[Data] | dict[str, Data] | None"
"""What a file says: text, lists and mappings. None stands for a value left empty."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What a file may be at most. ``size`` in characters here and in bytes on disk."""

    size: int = 256 * 1024
    depth: int = 16
    nodes: int = 20_000
    problems: int = 50


LIMITS = Limits()

NULLS = frozenset({"", "~", "null", "Null", "NULL"})
"""Unquoted texts that YAML 1.2 takes for nothing."""


@dataclass(frozen=True, slots=True)
class YamlText:
    """A text as read. ``root`` is None when it cannot be composed; ``data`` is None whenever there are problems."""

    text: str
    root: Node | None
    data: Data
    problems: tuple[Problem, ...]


class _RefusedError(Exception):
    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


def _hooks(limits: Limits) -> tuple[Callable[[Node | None, Any], None], Callable[[], None]]:
    """What a composer calls on entering and on leaving a node; they refuse what is too deep or too much.

    Closures, since they run for every node: attributes of the composer would cost half as much again as composing.
    """
    most_depth, most_nodes = limits.depth, limits.nodes
    depth = nodes = 0

    def enter(parent: Node | None, index: Any) -> None:
        nonlocal depth, nodes
        depth += 1
        nodes += 1
        if depth > most_depth:
            raise _RefusedError(_too_deep(parent, limits))
        if nodes > most_nodes:
            raise _RefusedError(_too_many(parent, limits))

    def leave() -> None:
        nonlocal depth
        depth -= 1

    return enter, leave


class _Hooked:
    """The part of a composer that would resolve types; here nothing is resolved, and nodes are counted."""

    def _hook(self, limits: Limits) -> None:
        self.descend_resolver, self.ascend_resolver = _hooks(limits)

    def resolve(self, kind: Any, value: Any, implicit: Any) -> str:
        """The tag of a node: one for all, since types are not guessed."""
        return "text"


class _PureComposer(_Hooked, yaml.reader.Reader, yaml.scanner.Scanner, yaml.parser.Parser, yaml.composer.Composer):
    def __init__(self, text: str, limits: Limits) -> None:
        yaml.reader.Reader.__init__(self, text)
        yaml.scanner.Scanner.__init__(self)
        yaml.parser.Parser.__init__(self)
        yaml.composer.Composer.__init__(self)
        self._hook(limits)


COMPOSERS: dict[str, type[Any]] = {"pure": _PureComposer}
"""How a text can be composed; ``fast`` is there when PyYAML has its C parser."""
if yaml.__with_libyaml__:
    from yaml._yaml import CParser

    class _FastComposer(_Hooked, CParser):
        def __init__(self, text: str, limits: Limits) -> None:
            CParser.__init__(self, text)
            self._hook(limits)

    COMPOSERS["fast"] = _FastComposer


def compose(text: str, limits: Limits = LIMITS) -> tuple[Node | None, list[Problem]]:
    """The node tree of ``text``, or None, and what is wrong with it. Never raises for any text."""
    read = read_yaml(text, limits)
    return read.root, list(read.problems)


def read_yaml(text: str, limits: Limits = LIMITS, *, composer: str | None = None) -> YamlText:
    """Read ``text`` into nodes and plain values. Never raises for any text; takes time linear in its length.

    ``composer`` names one of :data:`COMPOSERS`; the fast one if it is there when left out.
    """
    if len(text) > limits.size:
        message = f"the file has {len(text):,} characters; at most {limits.size:,} are read"
        return YamlText(text, None, None, (Problem("too-large", (), message, "Move long texts out of it.", 0, 0),))
    if bad := at_most(limits.problems, _bad_characters(text)):
        return YamlText(text, None, None, bad)
    source = "\n" + text[1:] if text.startswith("\ufeff") else text  # parsers differ in whether they count the mark
    make = COMPOSERS[composer or ("fast" if "fast" in COMPOSERS else "pure")]
    try:
        if _MAY_REFER.search(source):
            refused = at_most(limits.problems, _references(make(source, limits), limits))
            if refused:
                return YamlText(text, None, None, refused)
        root = make(source, limits).get_single_node()
    except _RefusedError as refusal:
        return YamlText(text, None, None, (refusal.problem,))
    except yaml.YAMLError as error:
        return YamlText(text, None, None, (explain(error, source),))
    if root is None:
        return YamlText(text, None, None, (Problem("empty-file", (), "the file is empty", "", 0, 0),))
    try:
        return YamlText(text, root, _plain(root, text), ())
    except _IrregularError:
        return YamlText(text, root, None, at_most(limits.problems, _irregularities(root, text)))


# Characters -----------------------------------------------------------------------------------------------------

_CONTROL = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufffe\uffff"
_INVISIBLE = (
    "\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f\u3164\ufeff\uffa0"
    "\ufff9-\ufffb\U000e0000-\U000e0fff"
)
_BAD_CHARACTER = re.compile(f"[{_CONTROL}{_INVISIBLE}]")
_LONE_RETURN = re.compile("\r(?!\n)")
_IS_INVISIBLE = re.compile(f"[{_INVISIBLE}]")


def _bad_characters(text: str) -> Iterator[Problem]:
    """Characters that must not be there; a byte-order mark at the start may."""
    found: Iterable[re.Match[str]] = _BAD_CHARACTER.finditer(text, text.startswith("\ufeff"))
    if "\r" in text:  # searched for by itself: one plain class of characters is searched far faster than a choice
        found = merge(found, _LONE_RETURN.finditer(text), key=lambda match: match.start())
    return (_bad_character(match[0], match.start(), match.end()) for match in found)


def _bad_character(character: str, offset: int, end: int, path: Path = ()) -> Problem:
    code = f"U+{ord(character):04X}"
    if _IS_INVISIBLE.match(character):
        message = f"an invisible character ({code}) stands here"
        return Problem("invisible-character", path, message, "Delete it.", offset, end)
    message = f"a control character ({code}) stands here"
    return Problem("control-character", path, message, "Delete it, or write the line break as a new line.", offset, end)


# Anchors, aliases, tags -------------------------------------------------------------------------------------------

_MAY_REFER = re.compile(r"""[&*!](?<![^\s\[\]{},:?"'].)(?:(?<=!)|(?=[\w-]))""", re.ASCII | re.DOTALL)
"""Wherever an anchor, an alias or a tag can start; most entries hold nothing of the kind and skip the closer look."""


def _references(parser: Any, limits: Limits) -> Iterator[Problem]:
    """Anchors, aliases and tags, by a look at the events: nothing is built, nothing is expanded."""
    for _ in range(2 * limits.nodes + 8):
        if not parser.check_event():
            break
        event = parser.get_event()
        offset = event.start_mark.index
        if isinstance(event, yaml.AliasEvent):
            yield _alias(f"*{event.anchor}", offset)
        elif getattr(event, "anchor", None):
            yield _alias(f"&{event.anchor}", offset)
        elif getattr(event, "tag", None):
            message = "a tag (!) is not read; an entry needs none"
            yield Problem("tag", (), message, "Put the value in quotes if it starts with !", offset, offset + 1)


def _alias(written: str, offset: int) -> Problem:
    message = f"{written[:SHOWN]} is a YAML anchor or alias, which is not read"
    hint = "Write the value out; put it in quotes if it starts with & or *."
    return Problem("alias", (), message, hint, offset, offset + len(written))


# Plain values -----------------------------------------------------------------------------------------------------


class _IrregularError(Exception):
    """Something that a second, slower walk will describe."""


def _plain(node: Node, text: str) -> Data:
    """The values of a tree whose depth is within limits."""
    if node.__class__ is ScalarNode:
        style = node.style
        if not style:
            return None if node.value in NULLS else str(node.value)
        if style == '"':
            if _BAD_CHARACTER.search(node.value):
                raise _IrregularError
        elif style != "'":
            if not node.value.strip() or text[node.start_mark.index + 1] in _DIGITS:
                raise _IrregularError
            return str(node.value.rstrip("\n"))
        return str(node.value)
    if node.__class__ is SequenceNode:
        return [_plain(item, text) for item in node.value]
    values: dict[str, Data] = {}
    for key, value in node.value:
        if key.__class__ is not ScalarNode or (key.style == '"' and _BAD_CHARACTER.search(key.value)):
            raise _IrregularError
        values[key.value] = _plain(value, text)
    if len(values) != len(node.value) or "<<" in values:
        raise _IrregularError
    return values


_DIGITS = frozenset("0123456789")


def _irregularities(node: Node, text: str, path: Path = ()) -> Iterator[Problem]:
    """What is wrong in a tree, in the order of the text."""
    if isinstance(node, ScalarNode):
        yield from _scalar_problems(node, text, path)
    elif isinstance(node, SequenceNode):
        for index, item in enumerate(node.value):
            yield from _irregularities(item, text, (*path, index))
    elif isinstance(node, MappingNode):
        seen: dict[str, int] = {}
        for key, value in node.value:
            offset, end = key.start_mark.index, key.end_mark.index
            if not isinstance(key, ScalarNode):
                message = "a key must be a word, not a list or a mapping"
                hint = "Put the text in quotes if it starts with [ or {."
                yield Problem("key-not-text", path, message, hint, offset, end)
                continue
            here = (*path, key.value)
            yield from _scalar_problems(key, text, here)
            if key.value == "<<":
                message = "a merge key (<<) is not read"
                yield Problem("merge-key", here, message, "Write the values out.", offset, end, on_key=True)
                continue
            if key.value in seen:
                message = f"{shown(key.value)} stands here a second time (first in line {seen[key.value]})"
                yield Problem("duplicate-key", here, message, "Keep one of the two.", offset, end, on_key=True)
            seen.setdefault(key.value, text.count("\n", 0, offset) + 1)
            yield from _irregularities(value, text, here)


def _scalar_problems(node: ScalarNode, text: str, path: Path) -> Iterator[Problem]:
    offset, end = node.start_mark.index, node.end_mark.index
    if node.style == '"':
        for match in _BAD_CHARACTER.finditer(node.value):
            yield _bad_character(match[0], offset, end, path)
            break
    elif node.style in ("|", ">") and (not node.value.strip() or text[offset + 1] in _DIGITS):
        written = text[offset:].split("\n", 1)[0].strip()
        message = f"{shown(written)} was read as the start of a block of text"
        hint = f"Put it in quotes: {in_quotes(written)}"
        yield Problem("block-marker", path, message, hint, offset, offset + len(written))


def _too_deep(parent: Node | None, limits: Limits) -> Problem:
    offset = parent.start_mark.index if parent is not None else 0
    message = f"values are nested more than {limits.depth} deep here"
    return Problem("too-deep", (), message, "An entry needs far fewer levels; check the brackets.", offset, offset + 1)


def _too_many(parent: Node | None, limits: Limits) -> Problem:
    offset = parent.start_mark.index if parent is not None else 0
    message = f"the file holds more than {limits.nodes:,} values"
    return Problem("too-many-values", (), message, "Split it: one entry is one finished repair.", offset, offset + 1)

