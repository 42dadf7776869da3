"""Rule: one model under two makers."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator

from benchlore.check.facts import Facts
from benchlore.check.finding import Observation
from benchlore.check.rule import CollectionRule


class ModelUnderTwoMakers(CollectionRule):
    """One model under two makers.

    What
        Entries of one equipment class name the same model under different makers.
    Why
        A unit is looked for by maker and model. Where one is a slip, half of what is known of it is not found; where
        it really is sold under two names, the board joins them.
    Bad
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
        ---
        # file: entries/dehumidifier/fan-stopped.yaml
        title: Fan does not start after a fall; plug of the fan had come off
        equipment: {class: dehumidifier, maker: Tarnwick, model: BW-12}
        root_cause: {component_class: connector, failure_mode: disconnected, confidence: probable}
    Good
        # file: entries/dehumidifier/relay-chatters.yaml
        minutes: 60
    How to mend
        Look at the rating plate and correct the maker or the model. If both are right, ignore the rule with that reason
        and give the board's marking.
    """

    code = "COL008"
    name = "model-under-two-makers"
    severity = "note"

    def keys(self, entry: Facts) -> Iterable[str]:
        maker, model = _maker(entry), next((name for name in entry.names if name.what == "model"), None)
        telling = model and len(model.folded) >= 3 and any(character.isdigit() for character in model.folded)
        return (f"{entry.equipment_class} {model.folded}",) if maker and model and telling else ()

    def check(self, key: str | int, entries: tuple[Facts, ...], slugs: Collection[str]) -> Iterator[Observation]:
        makers = Counter(_maker(entry) for entry in entries)
        if len(makers) < 2:
            return
        usual = max(makers, key=lambda maker: makers[maker])
        written = next(name.written for e in entries if _maker(e) == usual for name in e.names if name.what == "maker")
        for entry in entries:
            if _maker(entry) != usual:
                message = f"this model is under the maker {written} in {makers[usual]} other entries"
                message = message.replace("1 other entries", "another entry")
                yield Observation(("equipment", "maker"), message, "Look at the rating plate.", file=entry.file)


def _maker(entry: Facts) -> str:
    """The folded maker; empty when it is not known."""
    maker = next((name.folded for name in entry.names if name.what == "maker"), "")
    return "" if maker == "unknown" else maker
