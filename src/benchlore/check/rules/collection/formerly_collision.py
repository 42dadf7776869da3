"""Rule: an old slug that another entry has, or had."""

from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule


class FormerlyCollision(CollectionRule):
    """An old slug that is taken.

    What
        A slug under formerly is the slug of an entry, or stands under formerly of another.
    Why
        The site redirects old slugs; one address cannot lead to two entries.
    Bad
        # file: entries/dehumidifier/relay-chatters-bw-12.yaml
        formerly: [relay-chatters]
        ---
        # file: entries/sewing-machine/relay-chatters.yaml
        # another
        minutes: 40
    Good
        # file: entries/dehumidifier/relay-chatters-bw-12.yaml
        formerly: [bw-12-relay-chatters]
        ---
        # file: entries/sewing-machine/relay-chatters.yaml
        # another
        minutes: 40
    How to mend
        Take the slug out here, or give the other entry another one.
    """

    code = "COL002"
    name = "formerly-collision"
    severity = "error"

    least = 1

    def keys(self, entry: Facts) -> Iterable[str]:
        return {entry.slug, *entry.formerly}

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        current = next((entry.file for entry in reversed(entries) if entry.slug == key), None)
        claimed: str | None = None
        for entry in entries:
            for index, old in enumerate(entry.formerly):
                if old != key:
                    continue
                other = current or claimed
                if other:
                    whose = "this entry's own slug" if other == entry.file else f"taken by {other}"
                    message = f"{old} is {whose}"
                    yield Observation(("formerly", index), message, "Take it out, or rename.", file=entry.file)
                claimed = claimed or entry.file
