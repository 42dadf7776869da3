"""Rule: one board marking, maker or model in two spellings."""

from collections import Counter, defaultdict
from collections.abc import Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation, Path
from benchlore.check.rule import CollectionRule
from benchlore.terms.fold import compact


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

    def check(self, entries: tuple[Facts, ...]) -> Iterator[Observation]:
        named = [(entry, place) for entry in entries for place in _names(entry)]
        spellings: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
        for _, (what, _, written) in named:
            spellings[what, compact(written)][written] += 1
        for entry, (what, path, written) in named:
            found = spellings[what, compact(written)]
            usual = max(sorted(found), key=lambda spelling: found[spelling])
            if written != usual and compact(written):
                message = f"this {what} is written {usual} in {found[usual]} other place{'s'[: found[usual] > 1]}"
                yield Observation(path, message, "Write it as it is printed.", file=entry.file)


def _names(entry: Facts) -> Iterator[tuple[str, Path, str]]:
    if entry.maker:
        yield "maker", ("equipment", "maker"), entry.maker
    if entry.model:
        yield "model", ("equipment", "model"), entry.model
    for index, marking in enumerate(entry.boards):
        yield "board", ("equipment", "boards", index, "marking"), marking
