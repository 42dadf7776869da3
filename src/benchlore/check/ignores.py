"""Applies an entry's ``lint_ignore``: hides the findings it names with a reason, and remarks on ignores themselves."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from benchlore.check.finding import Finding, Observation
from benchlore.check.rule import Rule
from benchlore.terms.nearest import nearest


@dataclass(frozen=True, slots=True)
class IgnoreRecord:
    """One item of ``lint_ignore``: its place in the list, and the rule it names."""

    index: int
    rule: str


@dataclass(frozen=True, slots=True)
class Ignored:
    """What ignoring left: the findings to show, and remarks on ignores that are unknown or hide nothing."""

    shown: tuple[Finding, ...]
    unknown: tuple[Observation, ...]
    unused: tuple[Observation, ...]


def apply_ignores(
    findings: Sequence[Finding],
    ignores: Sequence[IgnoreRecord],
    known: Mapping[str, type[Rule]],
    ran: Collection[str],
) -> Ignored:
    """Hides the findings of one file that its ignores name, by code or name.

    ``known`` maps codes and names to rules. ``ran`` holds the codes of the rules that were run: an ignore for a rule
    that was not run cannot be called unused.
    """
    unknown: list[Observation] = []
    unused: list[Observation] = []
    raised = {finding.code for finding in findings}
    hiding: set[str] = set()
    for ignore in ignores:
        rule = known.get(ignore.rule)
        if rule is None or not rule.ignorable:
            unknown.append(_cannot_name(ignore, rule, known))
            continue
        if rule.code in ran and (rule.code in hiding or rule.code not in raised):
            again = " a second time" if rule.code in hiding else ""
            message = f"{rule.name} is ignored{again}, but there is nothing to ignore"
            unused.append(Observation(("lint_ignore", ignore.index), message, "Take this ignore out."))
        hiding.add(rule.code)
    return Ignored(tuple(f for f in findings if f.code not in hiding), tuple(unknown), tuple(unused))


def _cannot_name(ignore: IgnoreRecord, rule: type[Rule] | None, known: Mapping[str, type[Rule]]) -> Observation:
    path = ("lint_ignore", ignore.index, "rule")
    if rule is not None:
        return Observation(path, f"the rule {rule.name} cannot be ignored", "Mend what it found instead.")
    close = nearest(ignore.rule, known, limit=1)
    meant = f"Did you mean {close[0]}? " if close else ""
    return Observation(path, f"there is no rule “{ignore.rule}”", f"{meant}All rules: benchlore explain --list")
