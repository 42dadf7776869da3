"""Lints a knowledge base: one file at a time, then all together; applies ignores and sorts what is left."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from benchlore.check.facts import Facts
from benchlore.check.finding import Finding, Observation, Severity
from benchlore.check.ignores import apply_ignores
from benchlore.check.kept import Kept
from benchlore.check.locate import located
from benchlore.check.one_file import FileResult, placed, source_of
from benchlore.check.registry import BY_NAME, RULES
from benchlore.check.rule import CollectionRule, Rule
from benchlore.check.rules.tool.ignore_unknown import IgnoreUnknown
from benchlore.check.rules.tool.ignore_unused import IgnoreUnused
from benchlore.check.rules.tool.rule_crashed import RuleCrashed
from benchlore.check.spread import check_files
from benchlore.check.together import Together, check_again, check_together
from benchlore.errors import BenchloreError
from benchlore.read.base import SUFFIXES, Base


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
    processes: int = 1,
    cache: Path | None = None,
) -> Report:
    """Check ``paths`` (files or folders; everything under ``entries/`` when left out) by ``rules``.

    Collection rules look at the whole base, but only findings in the files asked for are reported. ``today`` is the
    system's date when left out. ``cache`` is a folder of the user's own where results are kept between runs.
    Raises :class:`BenchloreError` for a path that is not there.
    """
    today = today or dt.date.today()
    everything = base.entry_paths()
    targets = everything if paths is None else list(targets_of(base, paths, everything))
    kept = Kept.load(base, cache, today) if cache and set(rules) <= set(RULES) else None
    run = RULES if kept else rules
    with_others = any(issubclass(rule, CollectionRule) for rule in rules)
    results = _results(base, targets, run, today, processes, kept)
    if with_others:
        others = [path for path in everything if path not in results]
        results |= _results(base, others, run if kept else (), today, processes, kept)  # without rules: their facts
    asked = {results[path].file: results[path] for path in targets}
    findings: dict[str, list[Finding]] = defaultdict(list)
    for file, result in asked.items():
        findings[file] += result.findings
    if with_others:
        for file, found in _compared(base, rules, everything, results, kept).items():
            if file in asked:
                findings[file] += found
    if kept:
        kept.save()
    codes = {rule.code for rule in rules} | {RuleCrashed.code}
    shown: list[Finding] = []
    for file, result in asked.items():
        shown += _without_ignored(base, result, [f for f in findings[file] if f.code in codes], rules)
    return Report(
        tuple(sorted(shown, key=lambda f: (f.file, f.line, f.column, f.code, f.message))),
        len(asked),
        sum(result.readable for result in asked.values()),
        strict,
    )


def _results(
    base: Base, paths: Sequence[Path], rules: Sequence[type[Rule]], today: dt.date, processes: int, kept: Kept | None
) -> dict[Path, FileResult]:
    """A result for each path, as kept or as checked now."""
    found = {path: result for path in paths if (result := kept.get(path))} if kept else {}
    missing = [path for path in paths if path not in found]
    if kept and missing:
        _prepare_vocabulary(base, kept)
    for path, result in zip(missing, check_files(base, missing, rules, today, processes), strict=True):
        found[path] = result
        if kept:
            kept.put(path, result)
    return found


def _prepare_vocabulary(base: Base, kept: Kept) -> None:
    """Gives ``base`` its vocabulary as it is kept, or keeps it."""
    if "vocabulary" in vars(base):
        return
    vocabulary = kept.vocabulary()
    if vocabulary is None:
        kept.put_vocabulary(base.vocabulary)
    else:
        vars(base)["vocabulary"] = vocabulary  # where the cached property keeps it


def _compared(
    base: Base,
    rules: Sequence[type[Rule]],
    everything: Sequence[Path],
    results: dict[Path, FileResult],
    kept: Kept | None,
) -> dict[str, list[Finding]]:
    """What the collection rules find, by file."""
    before = kept.together() if kept else None
    changed = kept.changed(everything) if kept else []
    if before is not None and not changed:
        found: Together = before
    else:
        known: dict[str, Facts] = {}
        for path in everything:
            facts = results[path].facts or (kept.facts(path) if kept else None)
            if facts:
                known[facts.file] = facts
        together = RULES if kept else rules
        if before is None:
            found = check_together(base, together, known)
        else:
            found = check_again(base, together, known, before, changed)
        if kept:
            kept.put_together(found)
    by_file: dict[str, list[Finding]] = defaultdict(list)
    for rule in rules:
        for findings in found.get(rule.code, {}).values():
            for finding in findings:
                by_file[finding.file].append(finding)
    return by_file


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
    source, _ = source_of(base, base.root / result.file)
    return [*left.shown, *located(result.file, source.text, remarks)]


def targets_of(base: Base, paths: Iterable[Path], everything: Sequence[Path]) -> Iterator[Path]:
    """The files that ``paths`` name, each once; raises :class:`BenchloreError` for a path that is not there."""
    seen: set[Path] = set()
    for given in paths:
        path = placed(given)
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
