"""Every value of an entry with its place in the file, and the kind of term it must name, read off the model."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any, Literal, NamedTuple, get_args, get_origin

from pydantic import BaseModel

from benchlore.check.finding import Path
from benchlore.read.fields import TermRef


class Leaf(NamedTuple):
    """A value that is no list and no mapping. ``term_kind``: it must be the id of a term of this kind.

    ``on_key``: the value is a key of the file (the name of a rating). ``free`` marks words of the writer's own.
    """

    path: Path
    value: Any
    term_kind: str | None
    on_key: bool
    free: bool


class _Slot(NamedTuple):
    """What a field's annotation says: how its strings, or the keys of its mapping, are to be read."""

    term_kind: str | None
    key_kind: str | None
    free: bool


def _of_annotation(annotation: Any, metadata: tuple[Any, ...] = ()) -> _Slot:
    for mark in metadata:
        if isinstance(mark, TermRef):
            return _Slot(mark.kind, None, False)
    origin, arguments = get_origin(annotation), get_args(annotation)
    if hasattr(annotation, "__metadata__"):
        return _of_annotation(arguments[0], annotation.__metadata__)
    if origin is Literal:
        return _Slot(None, None, False)
    if origin is dict:
        key, value = (_of_annotation(argument) for argument in arguments)
        return _Slot(value.term_kind, key.term_kind, value.free)
    inner = [_of_annotation(argument) for argument in arguments if argument not in (type(None), Ellipsis)]
    kind = next((slot.term_kind for slot in inner if slot.term_kind), None)
    key_kind = next((slot.key_kind for slot in inner if slot.key_kind), None)
    return _Slot(kind, key_kind, annotation is str or any(slot.free for slot in inner))


@cache
def _plan(model: type[BaseModel]) -> tuple[tuple[str, str, _Slot], ...]:
    return tuple(
        (name, field.alias or name, _of_annotation(field.annotation, tuple(field.metadata)))
        for name, field in model.model_fields.items()
    )


def leaves(model: BaseModel, path: Path = ()) -> Iterator[Leaf]:
    """The leaves of ``model`` that are set, in the order of its fields."""
    found: list[Leaf] = []
    _collect(model, path, found)
    return iter(found)


def _collect(model: BaseModel, path: Path, found: list[Leaf]) -> None:
    values = vars(model)
    for name, key, slot in _plan(type(model)):
        value = values[name]
        if value.__class__ is str:
            found.append(Leaf((*path, key), value, slot.term_kind, False, slot.free))
        elif value is not None and value != ():
            _add(value, (*path, key), slot, found)


def _add(value: Any, path: Path, slot: _Slot, found: list[Leaf]) -> None:
    if value is None:
        return
    if isinstance(value, BaseModel):
        _collect(value, path, found)
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            _add(item, (*path, index), slot, found)
    elif isinstance(value, dict):
        for key, item in value.items():
            if slot.key_kind:
                found.append(Leaf((*path, key), key, slot.key_kind, True, False))
            _add(item, (*path, key), slot, found)
    else:
        found.append(Leaf(path, value, slot.term_kind, False, slot.free and isinstance(value, str)))
