"""Rule: an entry that follows a later one."""

from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule


class FollowsLaterEntry(CollectionRule):
    """An entry that follows a later one.

    What
        The entry named by follows is dated later than this one.
    Why
        follows names the unit's earlier visit; a circle would never end.
    Bad
        # file: entries/dehumidifier/relay-chatters-again.yaml
        date: 2026-01-03
        follows: relay-chatters
        ---
        # file: entries/dehumidifier/relay-chatters.yaml
        date: 2026-02-01
    Good
        # file: entries/dehumidifier/relay-chatters-again.yaml
        date: 2026-05-03
        follows: relay-chatters
        ---
        # file: entries/dehumidifier/relay-chatters.yaml
        date: 2026-02-01
        follow_up: [{date: 2026-05-03, result: same-fault, entry: relay-chatters-again}]
    How to mend
        Correct one of the dates, or let the other entry follow this one.
    """

    code = "COL004"
    name = "follows-later-entry"
    severity = "error"

    def keys(self, entry: Facts) -> Iterable[str]:
        return {entry.slug, *entry.formerly, *((entry.follows,) if entry.follows else ())}

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        by_slug = {slug: entry for entry in entries for slug in (*entry.formerly, entry.slug)}
        earlier = by_slug.get(str(key))
        for entry in entries if earlier else ():
            if entry.follows == key and earlier is not None and earlier.date > entry.date:
                message = f"{entry.follows} is of {earlier.date}, later than this entry of {entry.date}"
                yield Observation(("follows",), message, "Correct one of the dates.", file=entry.file)
