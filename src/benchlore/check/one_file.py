"""Checks one file by the rules that look at one entry. A result is made of strings, numbers and tuples only, so that
files can be checked in other processes and their results be kept.
"""

from __future__ import annotations

import datetime as dt
import os
import traceback
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from benchlore.check.facts import Facts, facts_of
from benchlore.check.finding import Finding, Observation
from benchlore.check.ignores import IgnoreRecord
from benchlore.check.locate import located
from benchlore.check.rule import EntryRule, ReadingRule, Rule, Subject
from benchlore.check.rules.tool.rule_crashed import RuleCrashed
from benchlore.read.base import Base, Source
from benchlore.read.files import read_text
from benchlore.read.parse import parse_entry

MOST_OF_A_KIND = 25
"""Findings of one rule in one file; a hostile file must not keep lint busy, and nobody reads further."""
MOST_IGNORES = 100
Said = list[tuple[type[Rule], Observation]]


@dataclass(frozen=True, slots=True)
class FileResult:
    """What checking one file gave. ``facts`` is None when the file holds no readable entry.

    ``digest`` is the SHA-256 of the file's bytes; ``attached`` names the files beside it that the entry speaks of.
    """

    file: str
    findings: tuple[Finding, ...]
    facts: Facts | None
    ignores: tuple[IgnoreRecord, ...]
    digest: str = ""
    attached: tuple[str, ...] = ()
    readable: bool = False


@dataclass(frozen=True, slots=True)
class Observed:
    """What the rules said of one text, not yet located; ``subject`` is None when it is no readable entry."""

    said: Said
    subject: Subject | None
    ignores: tuple[IgnoreRecord, ...] = ()


def check_file(base: Base, path: Path, rules: Sequence[type[Rule]], today: dt.date) -> FileResult:
    """Check one file. Never raises: a rule that crashes becomes a finding."""
    source, in_base = source_of(base, path)
    seen = observe(base, source, in_base, rules, today)
    subject = seen.subject
    findings = located(source.rel, source.text, seen.said)
    if subject is None:
        return FileResult(source.rel, findings, None, (), source.digest)
    facts = facts_of(subject.entry, source.rel, source.slug, subject.leaves) if in_base else None
    attached = tuple(dict.fromkeys(photo.file for photo in subject.entry.photos if is_beside(photo.file)))
    return FileResult(source.rel, findings, facts, seen.ignores, source.digest, attached, True)


def observe(base: Base, source: Source, in_base: bool, rules: Sequence[type[Rule]], today: dt.date) -> Observed:
    """What ``rules`` say of a file as it was read. Never raises."""
    said: Said = []
    of_reading, of_entries = _sorted_out(tuple(rules))
    for reading in of_reading if source.problems else ():
        problems = [problem for problem in source.problems if problem.kind in reading.kinds]
        if problems:
            said += run(reading, reading().check(problems))
    entry = source.parsed.model if source.parsed else None
    if entry is None:
        return Observed(said, None)
    subject = Subject(
        entry, source.rel, source.slug, in_base, source.path.parent, base.vocabulary, base.shop, today,
        source.text or "",
    )  # fmt: skip
    for rule in of_entries:
        said += run(rule, rule().check(subject), MOST_OF_A_KIND)
    ignores = tuple(IgnoreRecord(index, ignore.rule) for index, ignore in enumerate(entry.lint_ignore[:MOST_IGNORES]))
    return Observed(said, subject, ignores)


@lru_cache(maxsize=8)
def _sorted_out(rules: tuple[type[Rule], ...]) -> tuple[list[type[ReadingRule]], list[type[EntryRule]]]:
    reading = [rule for rule in rules if issubclass(rule, ReadingRule)]
    return reading, [rule for rule in rules if issubclass(rule, EntryRule)]


def run(rule: type[Rule], observations: Iterator[Observation], most: int | None = None) -> Said:
    """What the rule says, at most ``most`` times; when it crashes, what it said until then and how it crashed."""
    said: Said = []
    try:
        for observation in observations:
            said.append((rule, observation))
            if most and len(said) >= most:
                break
    except Exception as error:
        said.append((RuleCrashed, crash(rule, error)))
    return said


def crash(rule: type[Rule], error: Exception) -> Observation:
    """The remark that a rule of ours failed, and where."""
    where = traceback.extract_tb(error.__traceback__)[-1]
    message = (
        f"Benchlore failed here, not the entry: the rule {rule.name} ({rule.code}) stopped with"
        f" {type(error).__name__} in {Path(where.filename).name}, line {where.lineno}: {error}"
    )
    return Observation((), message[:500], "Please report this, with the entry if you may.")


def is_beside(name: str) -> bool:
    """Whether ``name`` can be a file beside the entry: a plain name, no path, no hidden file."""
    return bool(name) and "/" not in name and "\\" not in name and "\0" not in name and not name.startswith(".")


def source_of(base: Base, path: Path) -> tuple[Source, bool]:
    """The file at ``path``, which is :func:`placed`, as read, and whether it lies in the base. A draft elsewhere, named
    by the user, is read as it is.
    """
    given, root = os.fspath(path), os.fspath(base.root)
    if given.startswith(root + os.sep):
        return base.read(path), given.startswith(os.path.join(root, "entries", ""))  # noqa: PTH118 - for every file
    real = path.resolve()
    text, digest, problems = read_text(real)
    parsed = parse_entry(text) if text is not None else None
    found = (*problems, *(parsed.problems if parsed else ()))
    return Source(path, path.as_posix(), path.stem, text, digest, parsed, found), False


def placed(path: Path) -> Path:
    """The path with the links of its folder followed, its own name kept: a link is the reader's to refuse."""
    return path.parent.resolve() / path.name if path.name not in ("", "..") else path.resolve()
