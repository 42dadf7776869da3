"""What does not fit the model, in our words: one message for each kind of defect, with what was probably meant."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel

from benchlore.read.fields import FORMS, SLUG_FORM
from benchlore.read.problem import SHOWN, Path, Problem, shown
from benchlore.terms.nearest import nearest


@dataclass(frozen=True, slots=True)
class Defect:
    """A value that the model refuses: pydantic's type of error, the real path, and the value there."""

    type: str
    path: Path
    value: Any
    message: str
    context: Mapping[str, Any]
    on_key: bool = False


def word(model: type[BaseModel], defect: Defect) -> Problem:
    """The problem, in words, without its place."""
    if defect.on_key:
        return _problem("bad-form", defect, f"{shown(defect.path[-1])} cannot be a key here", on_key=True)
    if defect.type == "extra_forbidden":
        return _unknown_key(model, defect)
    if defect.type == "missing":
        return _problem("missing-key", defect, f"{_name(defect.path)} is missing", _known_hint(model, defect))
    if defect.value is None and defect.path and isinstance(defect.path[-1], int):
        return _problem("empty-item", defect, f"{_name(defect.path)} is empty", "Fill it in, or delete its line.")
    if defect.type == "too_short":
        return _problem("too-few", defect, f"{_name(defect.path)} needs at least {defect.context['min_length']} item")
    if isinstance(defect.value, (dict, list)) or defect.type in _SHAPES:
        return _wrong_type(model, defect)
    return _wrong_text(defect)


def _problem(kind: str, defect: Defect, message: str, hint: str = "", *, on_key: bool = False) -> Problem:
    return Problem(kind, defect.path, message, hint, on_key=on_key)


# Keys -------------------------------------------------------------------------------------------------------------


def _unknown_key(model: type[BaseModel], defect: Defect) -> Problem:
    key = str(defect.path[-1])
    holder = _holder(model, defect.path[:-1])
    known = list(_keys(holder)) if holder else []
    where = f"under {_name(defect.path[:-1])}" if defect.path[:-1] else "at the top of the file"
    close = nearest(key.lower().replace(" ", "_"), known, limit=1, cutoff=0.7)
    elsewhere = _homes(model).get(key, [])
    if close:
        hint = f"Did you mean {close[0]}?"
    elif re.match(r"[\w-]+:\S", key):
        hint = f"A space is missing after the colon: {key.replace(':', ': ', 1)}"
    elif defect.value is None and " " in key.strip():
        hint = "A comma inside { } or [ ] ends the value before it; put that whole value in quotes."
    elif elsewhere:
        hint = f"{key} belongs under {' or '.join(elsewhere[:3])}."
    else:
        hint = f"Possible here: {', '.join(known)}." if known else ""
    return _problem("unknown-key", defect, f"there is no key {shown(key)} {where}", hint, on_key=True)


def _known_hint(model: type[BaseModel], defect: Defect) -> str:
    holder = _holder(model, defect.path[:-1])
    field = _keys(holder).get(str(defect.path[-1])) if holder else None
    choices = _choices(field.annotation) if field else []
    return f"One of: {', '.join(choices)}." if choices else ""


@cache
def _keys(model: type[BaseModel]) -> dict[str, Any]:
    """The keys of a mapping in a file, to the model's fields."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def _holder(model: type[BaseModel], path: Path) -> type[BaseModel] | None:
    """The model of the mapping at ``path``."""
    here: Any = model
    for step in path:
        if isinstance(step, int):
            continue
        models = list(_models(here))
        fields = [_keys(m)[step] for m in models if step in _keys(m)]
        here = fields[0].annotation if fields else (here if not models else None)
        if here is None:
            return None
    return next(_models(here), None)


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    """The models inside an annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    elif get_origin(annotation) is not None:
        for argument in get_args(annotation):
            yield from _models(argument)


def _choices(annotation: Any) -> list[str]:
    """The words of a field that is a choice of words."""
    if get_origin(annotation) in (Union, UnionType):
        return [c for a in get_args(annotation) for c in _choices(a)]
    return [str(a) for a in get_args(annotation)] if str(get_origin(annotation)) == "typing.Literal" else []


@cache
def _homes(model: type[BaseModel]) -> dict[str, list[str]]:
    """Every key of the file format to the mappings it belongs in, as readable paths."""
    homes: dict[str, list[str]] = {}

    def visit(here: type[BaseModel], path: str, above: tuple[type[BaseModel], ...]) -> None:
        for key, field in _keys(here).items():
            homes.setdefault(key, []).append(path or "the top of the file")
            for inner in _models(field.annotation):
                if inner not in above:
                    visit(inner, f"{path}.{key}" if path else key, (*above, inner))

    visit(model, "", (model,))
    return homes


# Values -----------------------------------------------------------------------------------------------------------

_SHAPES = {
    "string_type": "a text",
    "tuple_type": "a list",
    "list_type": "a list",
    "model_type": "a mapping (lines of key: value)",
    "model_attributes_type": "a mapping (lines of key: value)",
    "dict_type": "a mapping (lines of key: value)",
}


def _wrong_type(model: type[BaseModel], defect: Defect) -> Problem:
    expected = _SHAPES.get(defect.type, "a single value")
    if not defect.path:
        message = f"the file must be {expected}, found {_kind(defect.value)}"
        return _problem("wrong-type", defect, message, "Start with a first line such as: format: 1")
    hint = ""
    if expected == "a list":
        hint = "Put - and a space in front of each item, or [ ] around all of them."
    elif expected.startswith("a mapping"):
        holder = _holder(model, defect.path)
        hint = f"Its keys: {', '.join(_keys(holder))}." if holder else ""
    elif isinstance(defect.value, list) and len(defect.value) == 1:
        hint = "Only one value can stand here: leave out the - or [ ]."
    elif isinstance(defect.value, dict):
        hint = "If the text holds a colon, put it in quotes."
    return _problem("wrong-type", defect, f"{_name(defect.path)} must be {expected}, found {_kind(defect.value)}", hint)


def _kind(value: Any) -> str:
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    return "nothing" if value is None else f"the text {shown(value)}"


_BOUNDS = {
    "greater_than_equal": "at least",
    "greater_than": "more than",
    "less_than_equal": "at most",
    "less_than": "less than",
}


def _wrong_text(defect: Defect) -> Problem:
    name, value = _name(defect.path), defect.value
    context = defect.context
    match defect.type:
        case "literal_error":
            return _wrong_choice(defect)
        case "quantity":
            return _problem("unreadable-quantity", defect, f"{name}: {defect.message}", context["hint"])
        case "flag":
            return _problem("bad-flag", defect, f"{name} must be yes or no, found {shown(value)}")
        case "date":
            message = f"{name}: {defect.message}, found {shown(value)}"
            return _problem("bad-date", defect, message, "Year, month, day: 2026-05-03.")
        case "number" | "count" | "float_parsing" | "int_parsing" | "decimal_parsing" | "int_from_float":
            number = "a whole number" if defect.type in ("count", "int_parsing", "int_from_float") else "a plain number"
            message = f"{name} must be {number}, found {shown(value)}"
            return _problem("bad-number", defect, message, "Digits only, without a unit.")
        case "money":
            return _problem("bad-money", defect, f"{name} must be an amount such as 1.10 EUR, found {shown(value)}")
        case "greater_than_equal" | "greater_than" | "less_than_equal" | "less_than":
            limit = f"{_BOUNDS[defect.type]} {next(iter(context.values()), '')}"
            return _problem("bad-number", defect, f"{name} must be {limit}, found {shown(value)}")
        case "string_too_short" if not str(value).strip():
            return _problem("empty-text", defect, f"{name} is an empty text", "Fill it in, or leave the key out.")
        case "string_too_short":
            return _problem("bad-form", defect, f"{name} must have at least {context.get('min_length')} characters")
        case "string_too_long":
            message = f"{name} has {len(str(value)):,} characters; at most {context.get('max_length'):,} fit"
            return _problem("too-long", defect, message, "Move the rest to notes.")
        case "string_pattern_mismatch":
            return _wrong_pattern(defect)
        case _:
            return _problem("bad-form", defect, f"{name}: {defect.message}, found {shown(value)}")


def _wrong_choice(defect: Defect) -> Problem:
    choices = re.findall(r"'([^']*)'", str(defect.context.get("expected", "")))
    if defect.path == ("format",):
        message = f"this file says format {shown(defect.value)}; this version of Benchlore reads format {choices[0]}"
        return _problem("unknown-format", defect, message, f"Write format: {choices[0]}, or use a newer Benchlore.")
    close = nearest(str(defect.value).strip().lower().replace(" ", "-").replace("_", "-"), choices, limit=1)
    meant = f"Did you mean {close[0]}? " if close else ""
    hint = f"{meant}One of: {', '.join(choices)}."
    return _problem("wrong-choice", defect, f"{_name(defect.path)} cannot be {shown(defect.value)}", hint)


def _wrong_pattern(defect: Defect) -> Problem:
    name, value = _name(defect.path), str(defect.value)
    if "\n" in value.strip():
        return _problem("several-lines", defect, f"{name} must be one line", "Longer text goes into notes.")
    if not value.strip():
        return _problem("empty-text", defect, f"{name} is an empty text", "Fill it in, or leave the key out.")
    form = str(defect.context.get("pattern", ""))
    hint = FORMS.get(form, "")
    slug = re.sub(r"[^a-z0-9]+", "-", value[:SHOWN].lower()).strip("-")
    if form == SLUG_FORM and slug:
        hint = f"{hint} For example: {slug}"
    return _problem("bad-form", defect, f"{name} cannot be {shown(value)}", hint)


def _name(path: Path) -> str:
    """A path as a person would say it: ``tests item 3: outcome``."""
    name = ""
    for step in path:
        name += f" item {step + 1}" if isinstance(step, int) else f": {step}" if name else step
    return name or "the file"
