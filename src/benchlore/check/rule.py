"""What a rule is: its stamp (code, name, severity), its documentation, and what it is given to look at."""

from __future__ import annotations

import datetime as dt
import re
from abc import ABC, abstractmethod
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from textwrap import dedent
from typing import ClassVar

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation, Scope, Severity
from benchlore.check.leaves import Leaf, leaves
from benchlore.check.mends.edit import Mend
from benchlore.check.mends.page import Page
from benchlore.check.mends.values import replacement
from benchlore.read.entry import FaultEntry
from benchlore.read.problem import Problem
from benchlore.read.shop import Shop
from benchlore.terms.vocabulary import Vocabulary

HEADINGS = ("What", "Why", "Bad", "Good", "How to mend")
"""The headings of a rule's docstring, in order; each stands alone on its line, its text is indented below it."""


@dataclass(frozen=True)
class Subject:
    """One readable entry, with all that a rule may ask about it."""

    entry: FaultEntry
    file: str
    """Relative to the base, with ``/``; a file outside the base by its own path."""
    slug: str
    in_base: bool
    """Whether the file lies in the base's ``entries/``, so that its folder and name mean something."""
    folder: Path
    """The folder the file is in, where its photos are."""
    vocabulary: Vocabulary
    shop: Shop
    today: dt.date
    text: str = ""
    """The file as it is written."""

    @cached_property
    def leaves(self) -> tuple[Leaf, ...]:
        """Every value of the entry with its place, in the order of the model."""
        return tuple(leaves(self.entry))

    @cached_property
    def free_text(self) -> str:
        """All words of the writer's own, a line each: a quick look whether a closer one is worth it."""
        return "\n".join([leaf.value for leaf in self.leaves if leaf.free])


class Rule(ABC):
    """One lint rule. The class docstring is its page: a title line, then the sections of :data:`HEADINGS`."""

    code: ClassVar[str]
    """Three letters of the family and three digits; never reused for another rule."""
    name: ClassVar[str]
    severity: ClassVar[Severity]
    scope: ClassVar[Scope] = "entry"
    ignorable: ClassVar[bool] = True
    """Whether an entry may ask, with a reason, not to be told."""
    names_answer: ClassVar[bool] = False
    """Whether its observations say, where only one thing can be meant, what has to stand there ``instead``."""
    by_day: ClassVar[bool] = False
    """Whether what it finds depends on the day of the run; what it does not find today, it does not find tomorrow."""
    shown_by_files: ClassVar[bool] = True
    """Whether Bad and Good can be shown as entries; else they are words (a file that is not text, say)."""

    def mend(self, page: Page, seen: Observation) -> Mend | None:
        """How what this rule saw is set right in the text; None where that takes a person. Never raises."""
        return replacement(page, seen, seen.instead) if seen.instead is not None else None

    @classmethod
    def may_mend(cls) -> bool:
        """Whether ``lint --mend`` sets right some of what this rule finds."""
        return cls.names_answer or cls.mend is not Rule.mend

    @classmethod
    def page(cls) -> RulePage:
        """The rule's documentation, taken apart; raises ValueError when a heading is missing or out of order."""
        return read_page(cls.__doc__ or "")


class EntryRule(Rule):
    """Looks at one readable entry."""

    @abstractmethod
    def check(self, subject: Subject) -> Iterator[Observation]:
        """What is to be said about this entry."""


class ReadingRule(Rule):
    """Turns the problems that reading met into observations: those whose ``kind`` is in ``kinds``."""

    kinds: ClassVar[frozenset[str]]
    ignorable = False

    def check(self, problems: Iterable[Problem]) -> Iterator[Observation]:
        """The problems of these kinds, worded by the reader."""
        for problem in problems:
            yield Observation(
                problem.path,
                problem.message,
                problem.hint,
                problem.on_key,
                offset=problem.offset,
                end=problem.end,
            )


class CollectionRule(Rule):
    """Looks at entries together, by the few facts that are kept of each: at those that share a key."""

    scope = "collection"
    least: ClassVar[int] = 2
    """Entries that a group must have to be looked at."""
    asks_all: ClassVar[bool] = False
    """Whether what is said of a group depends on the slugs of all entries (a suggestion, say)."""

    @abstractmethod
    def keys(self, entry: Facts) -> Iterable[str | int]:
        """The groups that the entry belongs to; no key twice."""

    @abstractmethod
    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        """What is to be said about the entries that share ``key``, sorted by file; every observation names its
        ``file``, one of theirs. ``slugs`` are those of all entries, old ones included.
        """


class RunnerRule(Rule):
    """Raised by the runner itself: about ignores, and about a rule that crashed."""

    ignorable = False


@dataclass(frozen=True, slots=True)
class RulePage:
    """A rule's documentation: its title and the text under each heading."""

    title: str
    sections: Mapping[str, str]


def read_page(docstring: str) -> RulePage:
    """Takes a rule's docstring apart; raises ValueError unless all of :data:`HEADINGS` are there, in order."""
    title, _, body = docstring.partition("\n")
    pieces = re.split(rf"^({'|'.join(HEADINGS)})[ \t]*$", dedent(body), flags=re.MULTILINE)
    headings, texts = pieces[1::2], pieces[2::2]
    if tuple(headings) != HEADINGS:
        raise ValueError(f"{title!r} has the headings {headings}, not {list(HEADINGS)}")
    return RulePage(title.strip(), {h: dedent(t).strip("\n") for h, t in zip(headings, texts, strict=True)})
