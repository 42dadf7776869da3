"""Rule: a second visit that the first entry does not know of."""

from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule


class FollowUpNotNoted(CollectionRule):
    """A second visit that the first entry does not know of.

    What
        This entry follows another, and that one has no follow_up that names it.
    Why
        Whoever reads the first entry should see that the unit came back; whether repairs hold is counted there.
    Bad
        # file: entries/dehumidifier/relay-chatters-again.yaml
        follows: relay-chatters
        ---
        # file: entries/dehumidifier/relay-chatters.yaml
        date: 2026-02-01
    Good
        # file: entries/dehumidifier/relay-chatters-again.yaml
        follows: relay-chatters
        ---
        # file: entries/dehumidifier/relay-chatters.yaml
        date: 2026-02-01
        follow_up: [{date: 2026-05-03, result: same-fault, entry: relay-chatters-again}]
    How to mend
        Add to the earlier entry: follow_up: [{date: ..., result: ..., entry: this slug}].
    """

    code = "COL005"
    name = "follow-up-not-noted"
    severity = "note"

    def keys(self, entry: Facts) -> Iterable[str]:
        return {entry.slug, *entry.formerly, *((entry.follows,) if entry.follows else ())}

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        by_slug = {slug: entry for entry in entries for slug in (*entry.formerly, entry.slug)}
        earlier = by_slug.get(str(key))
        for entry in entries if earlier else ():
            if entry.follows != key or earlier is None or earlier.slug == entry.slug or earlier.date > entry.date:
                continue
            if not {entry.slug, *entry.formerly} & {slug for _, slug in earlier.visits}:
                message = f"{earlier.file} does not say that the unit came back"
                hint = f"Add there: follow_up: [{{date: {entry.date}, result: ..., entry: {entry.slug}}}]."
                yield Observation(("follows",), message, hint, file=entry.file)
