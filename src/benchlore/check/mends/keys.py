"""What the entry's model allows at a place of a file: its keys, the words of a choice, the kind of a term."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from benchlore.check.finding import Path
from benchlore.read.entry import FaultEntry
from benchlore.read.fields import TermRef


def keys_at(path: Path) -> tuple[str, ...]:
    """The keys that the mapping at ``path`` may have; none when no mapping belongs there."""
    return tuple(dict.fromkeys(key for model in _models(_annotations(path)) for key in _fields(model)))


def choices_at(path: Path) -> tuple[str, ...]:
    """The words that may stand at ``path``, when it is a choice of words."""
    return tuple(
        dict.fromkeys(str(word) for part in _parts(_annotations(path)) if get_origin(part) is Literal
                      for word in get_args(part))
    )  # fmt: skip


def term_kind_at(path: Path) -> str | None:
    """The kind of term that belongs at ``path`` or into the list there."""
    for part in _parts(_annotations(path), lists=True):
        for mark in getattr(part, "__metadata__", ()):
            if isinstance(mark, TermRef):
                return mark.kind
    return None


@cache
def known_keys() -> frozenset[str]:
    """Every key that an entry can have anywhere."""
    found: set[str] = set()
    todo: list[type[BaseModel]] = [FaultEntry]
    seen: set[type[BaseModel]] = set()
    while todo:
        model = todo.pop()
        if model not in seen:
            seen.add(model)
            found |= _fields(model).keys()
            todo += [m for a in _fields(model).values() for m in _models([a])]
    return frozenset(found)


@cache
def _fields(model: type[BaseModel]) -> dict[str, Any]:
    return {
        field.alias or name: Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation
        for name, field in model.model_fields.items()
    }


def _annotations(path: Path) -> list[Any]:
    here: list[Any] = [FaultEntry]
    for step in path:
        if isinstance(step, int):
            here = [a for part in _parts(here) if get_origin(part) is tuple for a in get_args(part)[:1]]
            continue
        values = [get_args(part)[1] for part in _parts(here) if get_origin(part) is dict]
        here = [_fields(m)[step] for m in _models(here) if step in _fields(m)] + values
    return here


def _parts(annotations: list[Any], *, lists: bool = False) -> Iterator[Any]:
    """The annotations, unions and (as asked) lists taken apart; each annotated one also without its marks."""
    for annotation in annotations:
        yield annotation
        origin = get_origin(annotation)
        if hasattr(annotation, "__metadata__"):
            yield from _parts([get_args(annotation)[0]], lists=lists)
        elif origin in (Union, UnionType) or (lists and origin is tuple):
            yield from _parts([a for a in get_args(annotation) if a is not Ellipsis], lists=lists)


def _models(annotations: list[Any]) -> list[type[BaseModel]]:
    return [p for p in _parts(annotations, lists=True) if isinstance(p, type) and issubclass(p, BaseModel)]
