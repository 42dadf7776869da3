"""Rule: an entry that is nearly word for word another one."""

from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule

_LIKE = 0.85
"""Share of three-word runs in common (estimated from sketches) from which two entries count as one text."""
_LEAST_WORDS = 20
"""Runs of three words below which an entry is too short to tell."""
_KEYS = 6
_LOOK_BACK = 8
"""How many sketch values bring two entries together, and with how many earlier ones each is compared for each."""


class NearDuplicateEntry(CollectionRule):
    """An entry that is nearly another one.

    What
        The words of two entries are nearly the same.
    Why
        The same repair written up twice counts twice: in the causes, in the estimate, in what to keep in stock.
    Bad
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
        ---
        # file: entries/dehumidifier/relay-chatters-copy.yaml
        minutes: 60
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
    How to mend
        Delete one. Two units with the same fault are two entries, each in the words of its own repair; what they share
        need not be copied.
    """

    code = "COL006"
    name = "near-duplicate-entry"
    severity = "warning"

    def keys(self, entry: Facts) -> Iterable[int]:
        return entry.sketch[:_KEYS] if entry.words >= _LEAST_WORDS else ()

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        ordered = sorted(entries, key=lambda entry: (entry.date, entry.slug, entry.file))
        for position, entry in enumerate(ordered):
            before = ordered[max(0, position - _LOOK_BACK) : position]
            near = [other for other in before if _of_a_length(entry, other) and _first_met(entry, other) == key]
            near = [other for other in near if other.slug != entry.slug and not _is_visit_of(entry, other)]
            likest = max(near, key=lambda other: (_likeness(entry, other), other.file), default=None)
            if likest is not None and _likeness(entry, likest) >= _LIKE:
                message = f"this is nearly word for word {likest.file}"
                yield Observation((), message, "Delete one of the two, or say what was different.", file=entry.file)


def _of_a_length(one: Facts, other: Facts) -> bool:
    """Whether the texts are near enough in length to be alike at all; soon told."""
    return 4 * one.words >= 3 * other.words and 4 * other.words >= 3 * one.words


def _first_met(one: Facts, other: Facts) -> int | None:
    """The first of the groups that both are in, so that two entries are compared in one of them only."""
    return min({*one.sketch[:_KEYS]} & {*other.sketch[:_KEYS]}, default=None)


def _is_visit_of(one: Facts, other: Facts) -> bool:
    """Whether the two are visits of the same unit, whose texts are naturally alike."""
    return one.follows == other.slug or other.follows == one.slug


def _likeness(one: Facts, other: Facts) -> float:
    """The estimated share of runs of words in common (bottom-k sketches; Broder 1997); 0 where it is below _LIKE."""
    size = max(len(one.sketch), len(other.sketch))
    common = {*one.sketch} & {*other.sketch}
    if len(common) < _LIKE * size:
        return 0.0
    smallest = sorted({*one.sketch, *other.sketch})[:size]
    return sum(value in common for value in smallest) / len(smallest)
