"""Mends the text of one file, finding by finding, and takes back whatever does not set its finding right."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from benchlore.check.finding import Finding, Observation
from benchlore.check.ignores import apply_ignores
from benchlore.check.locate import located
from benchlore.check.mends.edit import Edit, Mend, applied, disjoint
from benchlore.check.mends.page import Page
from benchlore.check.one_file import Observed, observe
from benchlore.check.registry import BY_NAME
from benchlore.check.rule import Rule
from benchlore.check.rules.tool.ignore_unknown import IgnoreUnknown
from benchlore.check.rules.tool.ignore_unused import IgnoreUnused
from benchlore.read.base import Base, Source
from benchlore.read.parse import parse_entry
from benchlore.read.problem import Problem

MOST_ROUNDS = 60
"""How often a text is looked at again; YAML that cannot be read shows one defect at a time."""
MOST_MENDS = 300
_OF_THE_FILE = frozenset({"bad-file-name"})


@dataclass(frozen=True, slots=True)
class Done:
    """One finding that was set right: its rule, its line (as the text was then), and what was done."""

    code: str
    name: str
    line: int
    said: str


@dataclass
class Mended:
    """A file's text after mending. ``move_to``: where the file belongs, from the base's root with ``/``."""

    text: str
    done: list[Done] = field(default_factory=list)
    move_to: str | None = None


class Mender:
    """Mends texts of one base. ``boldly``: also where the answer is likely but not certain."""

    def __init__(self, base: Base, rules: Sequence[type[Rule]], today: dt.date, *, boldly: bool) -> None:
        self._base = base
        self._rules = rules
        self._today = today
        self._boldly = boldly

    def mend(self, source: Source, in_base: bool, together: Sequence[Finding] = ()) -> Mended:
        """The text of ``source`` mended; ``together`` holds what the collection rules found in it."""
        result = Mended(source.text or "")
        if source.text is None:
            return result
        refused: set[tuple[Edit, ...]] = set()
        for _ in range(MOST_ROUNDS):
            seen = self._look(source, in_base, together)
            page = Page(source.text or "", source.rel, in_base, self._base.vocabulary, self._base.shop)
            proposed = [(o, m) for o, m in self._proposals(page, seen) if m.edits not in refused or m.move_to]
            result.move_to = next((mend.move_to for _, mend in proposed if mend.move_to), result.move_to)
            chosen = disjoint(mend for _, mend in proposed)
            if not chosen or len(result.done) >= MOST_MENDS:
                break
            now = self._try(source, in_base, seen, chosen, together)
            if now is None and len(chosen) > 1:
                chosen = chosen[:1]
                now = self._try(source, in_base, seen, chosen, together)
            if now is None:
                refused.add(chosen[0].edits)
                continue
            result.done += self._told(page, proposed, chosen)
            result.text = now.text or ""
            source, together = now, self._moved(together, chosen)
        return result

    def _look(self, source: Source, in_base: bool, together: Sequence[Finding]) -> Observed:
        """What the rules say of the text, what is ignored left out."""
        seen = observe(self._base, source, in_base, self._rules, self._today)
        said = list(seen.said)
        for finding in together:
            rule = BY_NAME[finding.code]
            if rule in self._rules:
                said.append((rule, Observation(finding.path, finding.message, instead=finding.instead)))
        if not seen.ignores:
            return Observed(said, seen.subject)
        stamped = located(source.rel, source.text, said)
        left = apply_ignores(stamped, seen.ignores, BY_NAME, {rule.code for rule in self._rules})
        shown = {finding.code for finding in left.shown}
        said = [(rule, observation) for rule, observation in said if rule.code in shown]
        said += [(IgnoreUnknown, remark) for remark in left.unknown if IgnoreUnknown in self._rules]
        said += [(IgnoreUnused, remark) for remark in left.unused if IgnoreUnused in self._rules]
        return Observed(said, seen.subject)

    def _proposals(self, page: Page, seen: Observed) -> Iterator[tuple[tuple[type[Rule], Observation], Mend]]:
        for rule, observation in seen.said:
            mend = rule().mend(page, observation)
            if mend and (mend.sure or self._boldly) and (mend.edits or mend.move_to):
                yield (rule, observation), mend

    def _try(
        self, source: Source, in_base: bool, before: Observed, mends: Sequence[Mend], together: Sequence[Finding]
    ) -> Source | None:
        """The source with ``mends``; None when that makes things no better, or breaks something else."""
        text = applied(source.text or "", [edit for mend in mends for edit in mend.edits])
        if text == source.text:
            return None
        parsed = parse_entry(text)
        of_the_file = tuple(problem for problem in source.problems if problem.kind in _OF_THE_FILE)
        now = replace(source, text=text, parsed=parsed, problems=(*of_the_file, *parsed.problems))
        after = self._look(now, in_base, self._moved(together, mends))
        old, new = Counter(_kinds(before)), Counter(_kinds(after))
        if before.subject is not None:
            return now if after.subject is not None and new.total() < old.total() and not _worse(old, new) else None
        first, later = _first(source.problems), _first(now.problems)
        unread = source.parsed is not None and _unread(source.problems)
        if after.subject is not None:
            return now
        if unread and not _unread(now.problems):
            return now
        if unread:
            return now if later is not None and first is not None and later > first else None
        return now if len(parsed.problems) < len(source.parsed.problems if source.parsed else ()) else None

    def _moved(self, together: Sequence[Finding], mends: Sequence[Mend]) -> Sequence[Finding]:
        """What the collection rules found, without what is mended with ``mends`` (told by what they put in place)."""
        put = {edit.text.strip("\"'") for mend in mends for edit in mend.edits}
        return [finding for finding in together if finding.instead is None or finding.instead not in put]

    def _told(
        self, page: Page, proposed: Sequence[tuple[tuple[type[Rule], Observation], Mend]], chosen: Sequence[Mend]
    ) -> Iterator[Done]:
        for (rule, _), mend in proposed:
            if any(mend is one for one in chosen):
                yield Done(rule.code, rule.name, page.text.count("\n", 0, min(mend.edits).start) + 1, mend.said)


_SYNTAX = frozenset({
    "control-character", "invisible-character", "yaml-syntax", "tab-indentation", "second-colon", "unquoted-start",
    "text-after-quote", "unclosed-quote", "alias", "tag", "several-documents", "too-deep", "too-many-values",
    "too-large",
})  # fmt: skip
"""Problems that keep the rest of a text from being looked at."""


def _unread(problems: Sequence[Problem]) -> bool:
    return any(problem.kind in _SYNTAX for problem in problems)


def _first(problems: Sequence[Problem]) -> tuple[int, int] | None:
    """Where the first of the problems that keep a text from being read stands; fewer at one place is further."""
    places = [problem.offset or 0 for problem in problems if problem.kind in _SYNTAX]
    return (min(places), -len(places)) if places else None


def _kinds(seen: Observed) -> list[str]:
    return [rule.code for rule, _ in seen.said]


def _worse(old: Counter[str], new: Counter[str]) -> bool:
    """Whether a rule says more than before that is an error or a warning."""
    return any(count > old[code] for code, count in new.items() if BY_NAME[code].severity == "error")
