"""Rule: one board marking, maker or model in two spellings."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule


class OneNameTwoSpellings(CollectionRule):
    """One name in two spellings.

    What
        A board marking, maker or model is written in another way than in most entries: BWC02 beside BWC-02.
    Why
        They are compared with case, spaces and punctuation folded, so nothing is lost; but lists look untidy, and one
        of the two is not what is printed.
    Bad
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
        ---
        # file: entries/sewing-machine/skips-stitches.yaml
        # another
        equipment: {class: sewing-machine, maker: brackwater, model: S-210}
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
        ---
        # file: entries/sewing-machine/skips-stitches.yaml
        # another
        equipment: {class: sewing-machine, maker: Brackwater, model: S-210}
    How to mend
        Write it as it is printed, in all entries alike.
    """

    code = "COL007"
    name = "one-name-two-spellings"
    severity = "note"
    names_answer = True

    def keys(self, entry: Facts) -> Iterable[str]:
        return {name.key for name in entry.names if name.folded}

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        named = [(entry, name) for entry in entries for name in entry.names if name.key == key]
        found = Counter(name.written for _, name in named)
        usual = max(sorted(found), key=lambda spelling: found[spelling])
        clear = usual if 2 * found[usual] > found.total() else None
        for entry, name in named:
            if name.written != usual:
                others = f"{found[usual]} other place{'s'[: found[usual] > 1]}"
                message = f"this {name.what} is written {usual} in {others}"
                yield Observation(name.path, message, "Write it as it is printed.", file=entry.file, instead=clear)
