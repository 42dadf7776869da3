"""Runs rules over a knowledge base: one file at a time, then all together; stamps, locates and sorts what they say.

A file goes in as its path and comes out as a :class:`FileResult` of strings, numbers and tuples, so that files can be
checked in other processes and their results be kept.
"""

from __future__ import annotations

import datetime as dt
import traceback
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import islice
from pathlib import Path

from benchlore.check.facts import Facts, facts_of
from benchlore.check.finding import Finding, Observation, Severity
from benchlore.check.ignores import IgnoreRecord, apply_ignores
from benchlore.check.locate import located
from benchlore.check.registry import BY_NAME, RULES
from benchlore.check.rule import CollectionRule, EntryRule, ReadingRule, Rule, Subject
from benchlore.check.rules.tool.ignore_unknown import IgnoreUnknown
from benchlore.check.rules.tool.ignore_unused import IgnoreUnused
from benchlore.check.rules.tool.rule_crashed import RuleCrashed
from benchlore.errors import BenchloreError
from benchlore.read.base import SUFFIXES, Base, Source
from benchlore.read.files import read_text
from benchlore.read.parse import parse_entry

MOST_OF_A_KIND = 25
"""Findings of one rule in one file; a hostile file must not keep lint busy, and nobody reads further."""
MOST_IGNORES = 100


@dataclass(frozen=True, slots=True)
class FileResult:
    """What checking one file gave. ``facts`` is None when the file holds no readable entry."""

    file: str
    findings: tuple[Finding, ...]
    facts: Facts | None
    ignores: tuple[IgnoreRecord, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """What lint found, by file, line and column. ``strict`` makes notes count as findings."""

    findings: tuple[Finding, ...]
    files_checked: int
    entries_checked: int
    """How many of the files held a readable entry."""
    strict: bool = False

    def count(self, severity: Severity) -> int:
        """How many findings are of this severity."""
        return sum(finding.severity == severity for finding in self.findings)

    @property
    def tool_failed(self) -> bool:
        """Whether Benchlore itself failed on the way."""
        return any(finding.code == RuleCrashed.code for finding in self.findings)

    @property
    def exit_code(self) -> int:
        """0 clean (notes alone count as clean unless ``strict``), 1 findings, 2 the tool failed."""
        if self.tool_failed:
            return 2
        counted = [finding for finding in self.findings if self.strict or finding.severity != "note"]
        return 1 if counted else 0


def lint(
    base: Base,
    paths: Iterable[Path] | None = None,
    *,
    rules: Sequence[type[Rule]] = RULES,
    today: dt.date | None = None,
    strict: bool = False,
) -> Report:
    """Check ``paths`` (files or folders; everything under ``entries/`` when left out) by ``rules``.

    Collection rules look at the whole base, but only findings in the files asked for are reported. ``today`` is the
    system's date when left out. Raises :class:`BenchloreError` for a path that is not there.
    """
    today = today or dt.date.today()
    everything = base.entry_paths()
    targets = everything if paths is None else list(_targets(base, paths, everything))
    results = [check_file(base, path, rules, today) for path in targets]
    asked = {result.file for result in results}
    findings: dict[str, list[Finding]] = defaultdict(list)
    for result in results:
        findings[result.file] += result.findings

    facts = {result.file: result.facts for result in results if result.facts}
    if any(issubclass(rule, CollectionRule) for rule in rules):
        facts |= {found.file: found for path in everything if (found := _facts_only(base, path, asked))}
        for file, found_in_file in _check_together(base, rules, facts).items():
            if file in asked:
                findings[file] += found_in_file

    shown: list[Finding] = []
    for result in results:
        shown += _without_ignored(base, result, findings[result.file], rules)
    return Report(
        tuple(sorted(shown, key=lambda f: (f.file, f.line, f.column, f.code, f.message))),
        len(results),
        sum(result.facts is not None for result in results),
        strict,
    )


def check_file(base: Base, path: Path, rules: Sequence[type[Rule]], today: dt.date) -> FileResult:
    """Check one file by the rules that look at one entry. Never raises: a rule that crashes becomes a finding."""
    source, in_base = _source(base, path)
    seen: list[tuple[type[Rule], Observation]] = []
    for rule in rules:
        if issubclass(rule, ReadingRule):
            problems = [problem for problem in source.problems if problem.kind in rule.kinds]
            if problems:
                seen += _run(rule, partial(rule().check, problems))
    entry = source.parsed.model if source.parsed else None
    if entry is None:
        return FileResult(source.rel, located(source.rel, source.text, seen), None, ())
    subject = Subject(entry, source.rel, source.slug, in_base, path.parent, base.vocabulary, base.shop, today)
    for rule in rules:
        if issubclass(rule, EntryRule):
            seen += _run(rule, partial(rule().check, subject), MOST_OF_A_KIND)
    ignores = tuple(IgnoreRecord(index, ignore.rule) for index, ignore in enumerate(entry.lint_ignore[:MOST_IGNORES]))
    facts = facts_of(entry, source.rel, source.slug, subject.leaves) if in_base else None
    return FileResult(source.rel, located(source.rel, source.text, seen), facts, ignores)


def _run(
    rule: type[Rule], check: Callable[[], Iterator[Observation]], most: int | None = None
) -> list[tuple[type[Rule], Observation]]:
    """What the rule says, at most ``most`` times; when it crashes, what it said until then and how it crashed."""
    seen: list[tuple[type[Rule], Observation]] = []
    try:
        for observation in islice(check(), most):
            seen.append((rule, observation))
    except Exception as error:
        where = traceback.extract_tb(error.__traceback__)[-1]
        message = (
            f"Benchlore failed here, not the entry: the rule {rule.name} ({rule.code}) stopped with"
            f" {type(error).__name__} in {Path(where.filename).name}, line {where.lineno}: {error}"
        )
        seen.append((RuleCrashed, Observation((), message[:500], "Please report this, with the entry if you may.")))
    return seen


def _check_together(
    base: Base, rules: Sequence[type[Rule]], facts: dict[str, Facts]
) -> dict[str, tuple[Finding, ...]]:
    entries = tuple(facts[file] for file in sorted(facts))
    seen: dict[str, list[tuple[type[Rule], Observation]]] = defaultdict(list)
    for rule in rules:
        if issubclass(rule, CollectionRule):
            for by, observation in _run(rule, partial(rule().check, entries)):
                seen[observation.file or (entries[0].file if entries else "")].append((by, observation))
    return {file: located(file, base.read(base.root / file).text, said) for file, said in seen.items()}


def _without_ignored(
    base: Base, result: FileResult, findings: Sequence[Finding], rules: Collection[type[Rule]]
) -> list[Finding]:
    if not result.ignores:
        return list(findings)
    left = apply_ignores(findings, result.ignores, BY_NAME, {rule.code for rule in rules})
    remarks: list[tuple[type[Rule], Observation]] = []
    remarks += [(IgnoreUnknown, remark) for remark in left.unknown if IgnoreUnknown in rules]
    remarks += [(IgnoreUnused, remark) for remark in left.unused if IgnoreUnused in rules]
    if not remarks:
        return list(left.shown)
    source, _ = _source(base, base.root / result.file)
    return [*left.shown, *located(result.file, source.text, remarks)]


def _facts_only(base: Base, path: Path, known: Collection[str]) -> Facts | None:
    """The facts of an entry that was not asked for; None when it was, or cannot be read."""
    source = base.read(path)
    entry = source.parsed.model if source.parsed else None
    return facts_of(entry, source.rel, source.slug) if entry and source.rel not in known else None


def _source(base: Base, path: Path) -> tuple[Source, bool]:
    """The file as read, and whether it lies in the base. A draft elsewhere, named by the user, is read as it is."""
    path = _placed(path)
    if path.is_relative_to(base.root):
        return base.read(path), path.is_relative_to(base.entries_folder)
    real = path.resolve()
    text, digest, problems = read_text(real)
    parsed = parse_entry(text) if text is not None else None
    found = (*problems, *(parsed.problems if parsed else ()))
    return Source(path, path.as_posix(), path.stem, text, digest, parsed, found), False


def _targets(base: Base, paths: Iterable[Path], everything: Sequence[Path]) -> Iterator[Path]:
    seen: set[Path] = set()
    for given in paths:
        path = _placed(given)
        if path.is_dir() and not path.is_symlink():
            inside = [entry for entry in everything if entry.is_relative_to(path)]
            if not path.is_relative_to(base.root):
                inside = sorted(found for found in path.rglob("*") if found.suffix in SUFFIXES)
        elif path.exists() or path.is_symlink():
            inside = [path]
        else:
            raise BenchloreError(f"there is no file or folder {given}", hint="Name entries or folders, or nothing.")
        for found in inside:
            if found not in seen:
                seen.add(found)
                yield found


def _placed(path: Path) -> Path:
    """The path with the links of its folder followed, its own name kept: a link is the reader's to refuse."""
    return path.parent.resolve() / path.name if path.name not in ("", "..") else path.resolve()
