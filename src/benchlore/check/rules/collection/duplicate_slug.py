"""Rule: two entries with the same slug."""

from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule


class DuplicateSlug(CollectionRule):
    """Two entries with the same slug.

    What
        Two files in different folders have the same name.
    Why
        The slug is the entry's id and address, whatever its class: only the first could be published.
    Bad
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
        ---
        # file: entries/sewing-machine/relay-chatters.yaml
        # another
        minutes: 40
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
        ---
        # file: entries/sewing-machine/skips-stitches.yaml
        # another
        minutes: 40
    How to mend
        Rename the newer one.
    """

    code = "COL001"
    name = "duplicate-slug"
    severity = "error"

    def keys(self, entry: Facts) -> Iterable[str]:
        return (entry.slug,)

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        for entry in entries[1:]:
            message = f"{entries[0].file} has the same slug, {entry.slug}"
            yield Observation((), message, "Rename the newer of the two.", file=entry.file)
