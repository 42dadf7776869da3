"""The walk over an entry: every reference to a term is found, with its place, by the model alone."""

from __future__ import annotations

from typing import Any, get_args

from pydantic import BaseModel

from benchlore.check.leaves import leaves
from benchlore.read.entry import FaultEntry
from benchlore.read.fields import TermRef
from benchlore.read.parse import parse_entry
from benchlore.terms.model import KINDS

ENTRY = """\
format: 1
title: T
outcome: repaired
date: 2026-05-03
equipment: {class: a-class, boards: [{marking: BWC-02}]}
symptoms: [{term: a-symptom, brought_on_by: [c-one, c-two], note: in words}]
not_seen: [b-symptom]
tests: [{test: a-test, target: a-block, outcome: normal, minutes: 5}]
measurements: [{point: P, quantity: a-quantity, before: 5 V}]
root_cause: {block: b-block, component_class: a-component, failure_mode: a-mode, mechanism: a-mechanism}
also_found: [{role: separate, component_class: b-component}]
fix: {actions: [{do: an-action}], tools: [a-tool]}
parts: [{ratings: {a-rating: 5 V}, original: {ratings: {b-rating: 6 V}}}]
hazards: [a-hazard]
verification: {result: holding, safety: [{test: b-test, result: pass}]}
"""


def terms_of(text: str) -> set[tuple[str, str, tuple[str | int, ...], bool]]:
    entry = parse_entry(text).model
    assert entry is not None
    return {(leaf.term_kind, leaf.value, leaf.path, leaf.on_key) for leaf in leaves(entry) if leaf.term_kind}


def test_every_term_is_found_with_its_place() -> None:
    assert terms_of(ENTRY) == {
        ("class", "a-class", ("equipment", "class"), False),
        ("symptom", "a-symptom", ("symptoms", 0, "term"), False),
        ("condition", "c-one", ("symptoms", 0, "brought_on_by", 0), False),
        ("condition", "c-two", ("symptoms", 0, "brought_on_by", 1), False),
        ("symptom", "b-symptom", ("not_seen", 0), False),
        ("test", "a-test", ("tests", 0, "test"), False),
        ("block", "a-block", ("tests", 0, "target"), False),
        ("quantity", "a-quantity", ("measurements", 0, "quantity"), False),
        ("block", "b-block", ("root_cause", "block"), False),
        ("component", "a-component", ("root_cause", "component_class"), False),
        ("failure-mode", "a-mode", ("root_cause", "failure_mode"), False),
        ("mechanism", "a-mechanism", ("root_cause", "mechanism"), False),
        ("component", "b-component", ("also_found", 0, "component_class"), False),
        ("action", "an-action", ("fix", "actions", 0, "do"), False),
        ("tool", "a-tool", ("fix", "tools", 0), False),
        ("rating", "a-rating", ("parts", 0, "ratings", "a-rating"), True),
        ("rating", "b-rating", ("parts", 0, "original", "ratings", "b-rating"), True),
        ("hazard", "a-hazard", ("hazards", 0), False),
        ("test", "b-test", ("verification", "safety", 0, "test"), False),
    }


def marks(annotation: Any, metadata: tuple[Any, ...], seen: set[type]) -> set[str]:
    """Kinds of terms that a model refers to, found without the walk: straight from the annotations."""
    kinds = {mark.kind for mark in metadata if isinstance(mark, TermRef)}
    kinds |= {mark.kind for mark in getattr(annotation, "__metadata__", ()) if isinstance(mark, TermRef)}
    for argument in get_args(annotation):
        kinds |= marks(argument, (), seen)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel) and annotation not in seen:
        seen.add(annotation)
        for field in annotation.model_fields.values():
            kinds |= marks(field.annotation, tuple(field.metadata), seen)
    return kinds


def test_every_kind_that_the_model_refers_to_is_in_the_example() -> None:
    kinds = marks(FaultEntry, (), set())
    assert kinds == {kind for kind, *_ in terms_of(ENTRY)}
    assert kinds <= set(KINDS)


def test_free_text_is_told_from_choices_terms_and_quantities() -> None:
    entry = parse_entry(ENTRY).model
    assert entry is not None
    free = {leaf.path: leaf.value for leaf in leaves(entry) if leaf.free}
    assert free == {
        ("title",): "T",
        ("equipment", "boards", 0, "marking"): "BWC-02",
        ("symptoms", 0, "note"): "in words",
        ("measurements", 0, "point"): "P",
        ("parts", 0, "ratings", "a-rating"): "5 V",
        ("parts", 0, "original", "ratings", "b-rating"): "6 V",
    }
