"""Runs the rules that compare entries: those that share a key are looked at together, so that after a change only the
groups that it touches need to be looked at again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence

from benchlore.check.facts import Facts
from benchlore.check.finding import Finding, Observation
from benchlore.check.locate import located
from benchlore.check.one_file import crash
from benchlore.check.rule import CollectionRule, Rule
from benchlore.check.rules.tool.rule_crashed import RuleCrashed
from benchlore.read.base import Base

Together = dict[str, dict[str | int, tuple[Finding, ...]]]
"""Findings by the code of their rule and the key of their group; groups without findings are left out."""


def check_together(base: Base, rules: Sequence[type[Rule]], facts: Mapping[str, Facts]) -> Together:
    """What the collection rules among ``rules`` find in all of ``facts`` (by file)."""
    entries = [facts[file] for file in sorted(facts)]
    slugs = _slugs(entries)
    found: Together = {}
    for rule in _collection(rules):
        groups: dict[str | int, list[Facts]] = defaultdict(list)
        for entry in entries:
            for key in rule().keys(entry):
                groups[key].append(entry)
        found[rule.code] = _looked_at(base, rule, groups, slugs)
    return found


def check_again(
    base: Base,
    rules: Sequence[type[Rule]],
    facts: Mapping[str, Facts],
    before: Together,
    changed: Iterable[Facts],
) -> Together:
    """What :func:`check_together` would find, from what it found ``before``: ``changed`` holds the facts, as they
    were and as they are, of every entry that was changed, added or taken away since.
    """
    entries = [facts[file] for file in sorted(facts)]
    slugs = _slugs(entries)
    changed = list(changed)
    found: Together = {}
    for rule in _collection(rules):
        keys, kept = rule().keys, before.get(rule.code, {})
        touched = {key for entry in changed for key in keys(entry)}
        if rule.asks_all:
            touched |= kept.keys()
        groups: dict[str | int, list[Facts]] = defaultdict(list)
        for entry in entries if touched else ():
            for key in keys(entry):
                if key in touched:
                    groups[key].append(entry)
        again = _looked_at(base, rule, groups, slugs)
        found[rule.code] = {key: said for key, said in kept.items() if key not in touched} | again
    return found


def _collection(rules: Sequence[type[Rule]]) -> list[type[CollectionRule]]:
    return [rule for rule in rules if issubclass(rule, CollectionRule)]


def _slugs(entries: Sequence[Facts]) -> Collection[str]:
    return {slug for entry in entries for slug in (entry.slug, *entry.formerly)}


def _looked_at(
    base: Base, rule: type[CollectionRule], groups: Mapping[str | int, Sequence[Facts]], slugs: Collection[str]
) -> dict[str | int, tuple[Finding, ...]]:
    found: dict[str | int, tuple[Finding, ...]] = {}
    for key, entries in groups.items():
        if len(entries) < rule.least:
            continue
        said: list[tuple[type[Rule], Observation]] = []
        try:
            for observation in rule().check(key, tuple(entries), slugs):
                said.append((rule, observation))
        except Exception as error:
            said.append((RuleCrashed, crash(rule, error)))
        if said:
            found[key] = _placed(base, entries[0].file, said)
    return found


def _placed(base: Base, first: str, said: Sequence[tuple[type[Rule], Observation]]) -> tuple[Finding, ...]:
    by_file: dict[str, list[tuple[type[Rule], Observation]]] = defaultdict(list)
    for rule, observation in said:
        by_file[observation.file or first].append((rule, observation))
    return tuple(
        finding
        for file, of_file in by_file.items()
        for finding in located(file, base.read(base.root / file).text, of_file)
    )
