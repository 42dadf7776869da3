"""THE list of search fields: what of an entry is searched, under which name, and how much it counts.

Adding a field is adding one line to ``FIELDS`` (at the end: field numbers are stored in indexes). A field's reader
yields pieces; :func:`benchlore.index.documents.document` makes terms of them:

* ``text``: running text, taken apart with phrase recognition (``tokens.terms_of``);
* ``label``: a name, taken apart without it;
* ``mark``: a whole marking, model or part number (``tokens.mark_term``);
* ``term``: a term as it stands.

CONTRACT for the browser: fields are summed in this order. ``b`` = 0 means that the length of the field does not count.
``pairs`` is filled with the ``pair:`` terms of the texts and labels of all other fields. Fields of weight 0 are not
scored: ``links`` carries what joins sisters (``board:``, ``boards-of:``, ``models-on:``), and for each marking that
holds letters which look like digits (``LOOKS_LIKE``) ``alike:AS DIGITS:MARKING``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from benchlore.index.rank import FieldWeight
from benchlore.index.tokens import mark_term, state_term

if TYPE_CHECKING:
    from benchlore.read.entry import AlsoFound, Cause, FaultEntry
    from benchlore.terms.vocabulary import Vocabulary

LONGEST_PART_NAME = 20
"""A part type of at most so many characters is compared as one marking too."""
DEEPEST = 8
"""Steps that are followed from a term to the ones above it."""


class Piece(NamedTuple):
    """A piece of an entry, and how it becomes terms."""

    kind: Literal["text", "label", "mark", "term"]
    text: str


Reader = Callable[["FaultEntry", "Vocabulary"], Iterator[Piece]]
LOOKS_LIKE = str.maketrans("oil", "011")
"""Letters that are taken for digits in markings, and the other way round."""


@dataclass(frozen=True, slots=True)
class Field:
    """A search field: name, weight, BM25's b, and how it is read from an entry."""

    name: str
    weight: float
    b: float
    read: Reader


def text(value: str | None) -> Iterator[Piece]:
    """A piece of running text, if there is any."""
    if value:
        yield Piece("text", value)


def current(vocabulary: Vocabulary, kind: str, term_id: str) -> str:
    """The id that is used today for a term: retired ones lead to what replaced them."""
    for _ in range(DEEPEST):
        term = vocabulary.get(kind, term_id)
        if term is None or term.replaced_by is None:
            break
        term_id = term.replaced_by
    return term_id


def above(vocabulary: Vocabulary, kind: str, term_id: str) -> list[str]:
    """The broader terms of a term, nearest first."""
    found: list[str] = []
    term = vocabulary.get(kind, term_id)
    while term and term.broader and term.broader not in found and len(found) < DEEPEST:
        found.append(term.broader)
        term = vocabulary.get(kind, term.broader)
    return found


def causes(entry: FaultEntry) -> list[Cause]:
    """What was wrong: the root cause and separate faults; consequences are no causes."""
    found: list[Cause] = [entry.root_cause] if entry.root_cause else []
    return found + [c for c in entry.also_found if c.role == "separate"]


def cause_terms(cause: Cause) -> list[tuple[str, str]]:
    """The terms of a cause as (kind, id)."""
    named = [
        ("component", cause.component_class),
        ("failure-mode", cause.failure_mode),
        ("block", cause.block),
        ("mechanism", cause.mechanism),
    ]
    return [(kind, term_id) for kind, term_id in named if term_id]


def models(entry: FaultEntry) -> list[str]:
    """The entry's model, if it is known."""
    model = entry.equipment.model
    return [model] if model and model.strip().lower() != "unknown" else []


def _title(entry: FaultEntry, _: Vocabulary) -> Iterator[Piece]:
    yield from text(entry.title)


def _identity(entry: FaultEntry, _: Vocabulary) -> Iterator[Piece]:
    for model in models(entry):
        yield Piece("mark", model)
        if entry.equipment.maker:
            yield Piece("mark", f"{entry.equipment.maker} {model}")
    for board in entry.equipment.boards:
        yield Piece("mark", board.marking)


def _symptoms(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    for seen in entry.symptoms:
        if seen.term:
            yield Piece("term", f"symptom:{current(vocabulary, 'symptom', seen.term)}")
    for term_id in entry.not_seen:
        yield Piece("term", f"not:symptom:{current(vocabulary, 'symptom', term_id)}")


def _causes(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    for cause in causes(entry):
        for kind, term_id in cause_terms(cause):
            yield Piece("term", f"{kind}:{current(vocabulary, kind, term_id)}")


def _class(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    yield Piece("term", f"class:{current(vocabulary, 'class', entry.equipment.class_)}")


def _broader(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    named = [("class", entry.equipment.class_), *(("symptom", s.term) for s in entry.symptoms if s.term)]
    for cause in causes(entry):
        named += cause_terms(cause)
    for kind, term_id in named:
        for upper in above(vocabulary, kind, current(vocabulary, kind, term_id)):
            yield Piece("term", f"{kind}:{upper}")


def _symptom_words(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    for seen in entry.symptoms:
        if seen.term:
            yield Piece("label", vocabulary.label("symptom", seen.term))
        for condition in seen.brought_on_by:
            yield Piece("label", vocabulary.label("condition", condition))
        yield from text(seen.note)


def _cause_words(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    for cause in causes(entry):
        for kind, term_id in cause_terms(cause):
            yield Piece("label", vocabulary.label(kind, term_id))
        yield from text(cause.component)
        yield from text(cause.confirm_by)
        yield from text(cause.note)


def _equipment_words(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    equipment = entry.equipment
    yield Piece("label", vocabulary.label("class", equipment.class_))
    for name in (equipment.maker, equipment.model):
        if name and name.strip().lower() != "unknown":
            yield Piece("label", name)
    for board in equipment.boards:
        yield Piece("label", board.marking)
        yield from text(board.function)


def _parts(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    for part in entry.parts:
        original = part.original if part.original != "same" else None
        if part.component_class:
            yield Piece("term", f"component:{current(vocabulary, 'component', part.component_class)}")
            yield Piece("label", vocabulary.label("component", part.component_class))
        for written in (part.ref, part.type, original.type if original else None):
            if written:
                yield Piece("label", written)
                if len(written) <= LONGEST_PART_NAME:
                    yield Piece("mark", written)
        for ratings in (part.ratings, original.ratings if original else {}):
            for rating in ratings.values():
                yield Piece("label", rating)
        yield from text(part.note)


def _readings(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    for test in entry.tests:
        yield Piece("label", vocabulary.label("test", test.test))
        yield from text(test.component)
        yield from text(test.note)
    for reading in entry.measurements:
        yield from text(reading.point)
        yield from text(reading.condition)
        for quantity in (reading.expected, reading.before, reading.after):
            if quantity:
                yield Piece("label", quantity.text)
                state = state_term(quantity.text)
                if state:
                    yield Piece("term", state)
        yield from text(reading.note)
    for stored in entry.stored_energy:
        yield Piece("label", f"{stored.component} {stored.capacitance.text} {stored.voltage.text}")
        if stored.bleeder and stored.bleeder != "none":
            yield Piece("label", f"bleeder {stored.bleeder.text}")


def _fix(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    if entry.fix:
        for action in entry.fix.actions:
            yield Piece("label", vocabulary.label("action", action.do))
            yield from text(action.on)
            yield from text(action.note)
        for step in entry.fix.steps:
            yield from text(step)


def _notes(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    yield from text(entry.notes)
    if entry.stopped_because:
        yield Piece("label", entry.stopped_because.replace("-", " "))
    if entry.history:
        if entry.history.event and entry.history.event != "none-known":
            yield Piece("label", entry.history.event.replace("-", " "))
        yield from text(entry.history.note)
    for document in entry.documents:
        yield from text(document.title)
        if document.covers:
            yield Piece("mark", document.covers)
    for found in entry.also_found:
        if found.role != "separate":
            yield from _consequence(found, vocabulary)
    if entry.verification:
        for check in entry.verification.checks:
            yield from text(check)
    for later in entry.follow_up:
        yield from text(later.note)
    for setting in entry.adjustments:
        yield from text(setting.what)
    for software in entry.software:
        yield from text(software.what)
    for hazard in entry.hazards:
        yield Piece("label", vocabulary.label("hazard", hazard))


def _consequence(found: AlsoFound, vocabulary: Vocabulary) -> Iterator[Piece]:
    for kind, term_id in cause_terms(found):
        yield Piece("label", vocabulary.label(kind, term_id))
    yield from text(found.component)
    yield from text(found.note)


def _links(entry: FaultEntry, _: Vocabulary) -> Iterator[Piece]:
    for board in entry.equipment.boards:
        mark = mark_term(board.marking)
        if not mark:
            continue
        written = written_in_term(board.marking)
        yield Piece("term", f"board:{mark.removeprefix('mark:')}:{written}")
        for model in models(entry):
            own = mark_term(model)
            if own:
                yield Piece("term", f"boards-of:{own.removeprefix('mark:')}:{written}")
                yield Piece("term", f"models-on:{mark.removeprefix('mark:')}:{written_in_term(model)}")


def written_in_term(marking: str) -> str:
    """A marking as written, so that it can stand in a term: white space as U+00A0."""
    return "\u00a0".join(marking.split())


def _nothing(entry: FaultEntry, vocabulary: Vocabulary) -> Iterator[Piece]:
    yield from ()


FIELDS: tuple[Field, ...] = (
    Field("title", 2.5, 0.4, _title),
    Field("identity", 4.0, 0.0, _identity),
    Field("symptoms", 3.0, 0.0, _symptoms),
    Field("causes", 2.5, 0.0, _causes),
    Field("class", 1.5, 0.0, _class),
    Field("symptom-words", 2.0, 0.5, _symptom_words),
    Field("cause-words", 1.0, 0.5, _cause_words),
    Field("equipment-words", 2.0, 0.3, _equipment_words),
    Field("parts", 1.0, 0.5, _parts),
    Field("readings", 0.8, 0.6, _readings),
    Field("fix", 0.8, 0.6, _fix),
    Field("notes", 0.6, 0.6, _notes),
    Field("broader", 1.0, 0.0, _broader),
    Field("pairs", 1.0, 0.0, _nothing),
    Field("links", 0.0, 0.0, _links),
)

WEIGHTS: tuple[FieldWeight, ...] = tuple(FieldWeight(f.name, f.weight, f.b) for f in FIELDS)
"""The same list as :mod:`benchlore.index.rank` wants it."""
NUMBERS: dict[str, int] = {field.name: number for number, field in enumerate(FIELDS)}
"""Field name to field number."""
LENGTH_FIELDS: tuple[int, ...] = tuple(number for number, field in enumerate(FIELDS) if field.b)
"""Numbers of the fields whose lengths are kept."""

PAIRS = NUMBERS["pairs"]


def alike(mark: str) -> str | None:
    """The ``alike:`` term of a ``mark:`` term; None when the marking holds no letter that looks like a digit."""
    written = mark.removeprefix("mark:")
    as_digits = written.translate(LOOKS_LIKE)
    return f"alike:{as_digits}:{written}" if as_digits != written else None
