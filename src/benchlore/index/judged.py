"""Searches that people judged: read from a file, asked, and measured; with plain BM25 beside them for comparison."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import fmean
from typing import Any, Literal

import yaml
from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, ValidationError

from benchlore.errors import BenchloreError
from benchlore.index.fields import FIELDS
from benchlore.index.measures import interval, ndcg, recall, reciprocal_rank
from benchlore.index.query_terms import Group, exact
from benchlore.index.rank import FieldWeight, Occurrences, Ranker, Statistics, Where
from benchlore.read.base import Record
from benchlore.terms.fold import words
from benchlore.terms.vocabulary import Vocabulary

DEPTH = 10
"""Entries of each answer that are looked at."""
Ask = Callable[[str], Sequence[str]]
"""Gives the slugs found for a query, best first."""
_MOST_BYTES = 4_000_000
_FORM = "Each item: query, capability, half (tune or check), judgements (entry: grade 0 to 3)."


class JudgedQuery(BaseModel):
    """A query, what it tries, and the grades that people gave to entries: 0 (no use) to 3 (exactly that)."""

    model_config = ConfigDict(extra="forbid")

    query: str = Field(min_length=1)
    capability: str
    half: Literal["tune", "check"] = "check"
    judgements: dict[str, int] = Field(min_length=1)


@dataclass(frozen=True, slots=True)
class Measured:
    """Means over some queries, each with its 95 % interval."""

    queries: int
    ndcg: tuple[float, float, float]
    recall: tuple[float, float, float]
    rank: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Asked:
    """A judged query with what was found for it, and its measures."""

    judged: JudgedQuery
    found: tuple[str, ...]
    ndcg: float
    recall: float
    rank: float


def read_judged(file: Path) -> list[JudgedQuery]:
    """The judged queries in a YAML file; raises :class:`BenchloreError` saying what is wrong with it."""
    if file.stat().st_size > _MOST_BYTES:
        raise BenchloreError(f"{file} is larger than {_MOST_BYTES // 1_000_000} MB")
    try:
        raw: Any = yaml.safe_load(file.read_text(encoding="utf-8"))
        return TypeAdapter(list[JudgedQuery]).validate_python(raw)
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        raise BenchloreError(f"{file}: {' '.join(str(error).split())}") from None
    except ValidationError as error:
        first = error.errors()[0]
        place = " ".join(f"item {part + 1}" if isinstance(part, int) else str(part) for part in first["loc"])
        raise BenchloreError(f"{file}: {place}: {first['msg']}", hint=_FORM) from None


def ask_all(queries: Iterable[JudgedQuery], ask: Ask) -> list[Asked]:
    """Every query asked and measured."""
    asked = []
    for judged in queries:
        found, grades = tuple(ask(judged.query)[:DEPTH]), judged.judgements
        measures = ndcg(found, grades), recall(found, grades), reciprocal_rank(found, grades)
        asked.append(Asked(judged, found, *measures))
    return asked


def summary(asked: Sequence[Asked]) -> Measured:
    """The means of some queries."""
    columns = [[a.ndcg for a in asked], [a.recall for a in asked], [a.rank for a in asked]]
    means = [(fmean(column) if column else 0.0, *interval(column)) for column in columns]
    return Measured(len(asked), *means)


def plain_bm25(records: Sequence[Record], vocabulary: Vocabulary, cut: Callable[[str], list[str]]) -> Ask:
    """BM25 (k1 = 1.2, b = 0.75) over all text of the entries as one field, cut by ``cut``: what others would do."""
    ordered = sorted(records, key=lambda record: record.slug)
    occurrences: dict[str, dict[int, Where]] = {}
    total = 0
    for number, record in enumerate(ordered):
        pieces = [p.text for f in FIELDS for p in f.read(record.entry, vocabulary) if p.kind in ("text", "label")]
        tokens = [token for piece in pieces for token in cut(piece)]
        total += len(tokens)
        counts: dict[str, int] = {}
        for token in tokens:
            counts[token] = counts.get(token, 0) + 1
        for token, count in counts.items():
            occurrences.setdefault(token, {})[number] = ((0, count, len(tokens)),)
    statistics = Statistics(len(ordered), [total], [len(ordered)])
    nothing: Occurrences = {}

    def ask(query: str) -> list[str]:
        ranker = Ranker([FieldWeight("text", 1.0, 0.75)], statistics, lambda term: occurrences.get(term, nothing))
        scores: dict[int, float] = {}
        for token in cut(query):
            for scored in ranker.rank([Group("word", token, (exact("word", token),))]):
                scores[scored.entry] = scores.get(scored.entry, 0.0) + scored.score
        best = sorted(scores, key=lambda entry: (-scores[entry], entry))
        return [ordered[entry].slug for entry in best[:DEPTH]]

    return ask


def by_words(text: str) -> list[str]:
    """The folded words of a text."""
    return [word.text for word in words(text)]


def by_trigrams(text: str) -> list[str]:
    """Three letters at a time of each folded word, its ends included."""
    padded = (f" {word.text} " for word in words(text))
    return [word[at : at + 3] for word in padded for at in range(len(word) - 2)]


def grouped(asked: Sequence[Asked]) -> Mapping[str, list[Asked]]:
    """The queries by capability, in alphabetical order."""
    groups: dict[str, list[Asked]] = {}
    for one in sorted(asked, key=lambda a: a.judged.capability):
        groups.setdefault(one.judged.capability, []).append(one)
    return groups
