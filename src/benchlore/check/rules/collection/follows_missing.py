"""Rule: a slug that leads to no entry."""

from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation, Path
from benchlore.check.mends.likeness import surely
from benchlore.check.rule import CollectionRule
from benchlore.check.wording import one_of
from benchlore.terms.nearest import nearest


class FollowsMissing(CollectionRule):
    """A slug that leads to no entry.

    What
        follows, or entry under follow_up, names an entry that is not there, or the entry itself.
    Why
        What came back and why is read along these links.
    Bad
        # file: entries/dehumidifier/relay-chatters-again.yaml
        follows: relay-chaters
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
        Write the slug of the other entry: its file's name without .yaml.
    """

    code = "COL003"
    name = "follows-missing"
    severity = "error"
    names_answer = True

    least = 1
    asks_all = True

    def keys(self, entry: Facts) -> Iterable[str]:
        named = (slug for _, slug in entry.visits)
        return {entry.slug, *entry.formerly, *named, *((entry.follows,) if entry.follows else ())}

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        known = any(key == entry.slug or key in entry.formerly for entry in entries)
        for entry in entries:
            named: list[tuple[Path, str]] = [(("follows",), entry.follows)] if entry.follows else []
            named += [(("follow_up", index, "entry"), slug) for index, slug in entry.visits]
            for path, slug in named:
                if slug != key:
                    continue
                if slug == entry.slug:
                    hint = "Name the entry of the other visit."
                    yield Observation(path, "this is the entry itself", hint, file=entry.file)
                elif not known:
                    others = set(slugs) - {entry.slug}
                    close = nearest(slug, sorted(others))
                    hint = f"Did you mean {one_of(close)}?" if close else "Write the name of its file without .yaml."
                    meant = surely(slug, others)
                    yield Observation(path, f"there is no entry {slug}", hint, file=entry.file, instead=meant)
