"""Plain values to a typed model; what does not fit becomes one problem for each defect, worded by :mod:`wording`."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from yaml.nodes import Node

from benchlore.read.place import place
from benchlore.read.problem import Path, Problem, at_most
from benchlore.read.wording import Defect, word
from benchlore.read.yaml_nodes import LIMITS, Data, Limits, YamlText

_Model = TypeVar("_Model", bound=BaseModel)


def build(model: type[_Model], read: YamlText, limits: Limits = LIMITS) -> tuple[_Model | None, tuple[Problem, ...]]:
    """``read`` as a ``model``, or None and its problems. Values left empty count as missing."""
    if read.root is None:
        return None, read.problems
    try:
        return model.model_validate(read.data), ()
    except ValidationError as error:
        defects = _defects(error, read.data)
    pruned, dropped = _without_empty(read.data, {defect.path for defect in defects if defect.type == "extra_forbidden"})
    if dropped:
        try:
            return model.model_validate(pruned), ()
        except ValidationError as error:
            defects = _defects(error, pruned)
    first = _one_each(defects)[: limits.problems + 1]
    problems = [_placed(word(model, defect), read.root, read.text) for defect in first]
    problems.sort(key=lambda problem: (problem.offset or 0, problem.end or 0, problem.kind))
    return None, at_most(limits.problems, problems)


def _placed(problem: Problem, root: Node, text: str) -> Problem:
    start, end = place(root, text, problem.path, on_key=problem.on_key)
    return Problem(problem.kind, problem.path, problem.message, problem.hint, start, end, problem.on_key)


def _defects(error: ValidationError, data: Data) -> list[Defect]:
    found = []
    for raw in error.errors(include_url=False, include_input=False):
        path, value = _real_path(raw["loc"], raw["type"], data)
        on_key = raw["loc"][-1:] == ("[key]",)
        found.append(Defect(raw["type"], path, value, raw["msg"], raw.get("ctx", {}), on_key))
    return found


def _real_path(loc: tuple[int | str, ...], kind: str, data: Data) -> tuple[Path, Data]:
    """``loc`` without the segments that are not in the file (names of union members and the like)."""
    path: list[str | int] = []
    here = data
    for position, step in enumerate(loc):
        inside = _item(here, step)
        if inside is _NOTHING:
            if kind != "missing" or position < len(loc) - 1:
                continue
            inside = None
        here = inside
        path.append(step)
    return tuple(path), here


_NOTHING: Any = object()


def _item(values: Data, step: str | int) -> Any:
    if isinstance(values, dict) and isinstance(step, str):
        return values.get(step, _NOTHING)
    if isinstance(values, list) and isinstance(step, int) and step < len(values):
        return values[step]
    return _NOTHING


def _without_empty(data: Data, keep: set[Path], path: Path = ()) -> tuple[Data, bool]:
    """``data`` without the keys that were left empty, and whether there were any; unknown keys stay."""
    if isinstance(data, list):
        items = [_without_empty(item, keep, (*path, index)) for index, item in enumerate(data)]
        return [item for item, _ in items], any(dropped for _, dropped in items)
    if not isinstance(data, dict):
        return data, False
    values: dict[str, Data] = {}
    any_dropped = False
    for key, value in data.items():
        here = (*path, key)
        if value is None and here not in keep:
            any_dropped = True
            continue
        values[key], dropped = _without_empty(value, keep, here)
        any_dropped = any_dropped or dropped
    return values, any_dropped


def _one_each(defects: list[Defect]) -> list[Defect]:
    """One defect a place: where a field may be one of several things, the complaint that fits what was written."""
    by_path: dict[tuple[Path, bool], list[Defect]] = {}
    for defect in defects:
        by_path.setdefault((defect.path, defect.on_key), []).append(defect)
    below = {path[:length] for path, _ in by_path for length in range(len(path))}
    chosen = []
    for (path, _), here in by_path.items():
        if isinstance(here[0].value, (dict, list)) and path in below and here[0].type in _SHAPE:
            continue
        chosen.append(max(here, key=lambda defect: _aptness(defect)))
    return chosen


_SHAPE = frozenset({"literal_error", "model_type", "model_attributes_type", "dict_type", "string_type"})


def _aptness(defect: Defect) -> int:
    """How well a complaint fits the value: about its wording for a text, about its inside for a mapping."""
    if isinstance(defect.value, str):
        return {"literal_error": 1}.get(defect.type, 0 if defect.type in _SHAPE else 2)
    return 0 if defect.type == "literal_error" else 1


