"""Made-up entries in the words of the vocabulary: the same seed gives the same entries. For tests and benchmarks."""

from __future__ import annotations

import datetime as dt
import hashlib
import random
from functools import cache
from typing import Any

from benchlore import data
from benchlore.read.base import Record
from benchlore.read.entry import FaultEntry
from benchlore.terms.model import Block, ComponentClass, EquipmentClass
from benchlore.terms.vocabulary import Vocabulary, load

MAKERS = ("Brackwater", "Tarnwick", "Holmgate", "Fenwright", "Sallowby", "Quillstead", "Orrin & Dace", "Veltmoor")
WORDS = """
    after again bench bracket brown burnt cable cap case clamp clean cold connector cover crack damp dark dead dented
    dim drip dust earth edge fan faint fixing flex foot frame fuse glue green grease guard heat hinge hot housing hum
    intermittent iron joint kettle knock label lamp leak lever lid loose low lug main moist motor mount nut oil pad
    paper pin plate play plug pulley pump quiet rail rattle relay rust scorch screw seal shaft sharp sleeve slow smell
    smoke solder spring squeal stain steam stiff strap swollen tab tap tight trace trip turn vent vibration wash water
    wear weld wheel white winding wire wobble yellow
""".split()  # noqa: SIM905 - a list of words reads best as words


@cache
def vocabulary() -> Vocabulary:
    """The vocabulary that comes with Benchlore."""
    return load(data.folder("schema") / "vocabulary")


def record(slug: str, **fields: Any) -> Record:
    """An entry of few lines, with what ``fields`` say in place of the defaults (keys as in YAML)."""
    raw: dict[str, Any] = {
        "format": "1",
        "title": "Nothing particular",
        "outcome": "repaired",
        "date": "2026-01-15",
        "equipment": {"class": "dehumidifier"},
        "symptoms": [{"note": "odd"}],
        **fields,
    }
    entry = FaultEntry.model_validate(raw)
    digest = hashlib.sha256(repr(raw).encode()).hexdigest()
    return Record(slug, f"entries/{entry.equipment.class_}/{slug}.yaml", digest, entry)


def made_up(count: int, seed: int = 1) -> list[Record]:
    """So many entries of different equipment, with symptoms, tests, readings, parts and notes."""
    made = _Maker(random.Random(seed))
    return [made.record(number) for number in range(count)]


class _Maker:
    def __init__(self, chance: random.Random) -> None:
        self._chance = chance
        terms = vocabulary()
        self._classes = [i for i, t in terms.terms("class").items() if isinstance(t, EquipmentClass)]
        self._symptoms = list(terms.terms("symptom"))
        self._tests = list(terms.terms("test"))
        self._actions = list(terms.terms("action"))

    def _sentence(self, low: int, high: int) -> str:
        # Few words are common and most are rare, as in real text.
        count = self._chance.randint(low, high)
        picked = [WORDS[min(int(self._chance.expovariate(0.06)), len(WORDS) - 1)] for _ in range(count)]
        return " ".join(picked).capitalize()

    def _phrase(self) -> str:
        term = vocabulary().get("symptom", self._chance.choice(self._symptoms))
        assert term
        return self._chance.choice([term.label, *term.phrases])

    def _value(self) -> str:
        number = self._chance.choice(["1", "1.5", "2.2", "3.3", "4.7", "6.8"])
        return f"{number} {self._chance.choice(['V', 'kΩ', 'µF', 'nF'])}"

    def _test(self, block: str) -> dict[str, Any]:
        test, note = self._chance.choice(self._tests), self._sentence(3, 9)
        return {"test": test, "target": block, "outcome": "normal", "note": note}

    def record(self, number: int) -> Record:
        chance = self._chance
        class_id = chance.choice(self._classes)
        class_ = vocabulary().get_as(EquipmentClass, class_id)
        assert class_
        block_id = chance.choice(class_.blocks)
        block = vocabulary().get_as(Block, block_id)
        components = list(block.components) if block and block.components else ["solder-joint"]
        component_id = chance.choice(components)
        component = vocabulary().get_as(ComponentClass, component_id)
        modes = list(component.failure_modes) if component else ["open"]
        model_number = chance.randint(1, 200)
        seen, *unseen = chance.sample(self._symptoms, 4)
        ref = f"C{chance.randint(1, 40)}"
        return record(
            f"{class_id}-{number:05d}",
            title=f"{self._phrase()}; {self._sentence(4, 9)}",
            outcome=chance.choice(["repaired", "repaired", "repaired", "not-repaired", "partly-repaired"]),
            date=(dt.date(2023, 1, 1) + dt.timedelta(days=number % 1200)).isoformat(),
            author="ines-w",
            licence="CC-BY-SA-4.0",
            equipment={
                "class": class_id,
                "maker": MAKERS[model_number % len(MAKERS)],
                "model": f"{chance.choice(['BW', 'QV', 'HG'])}-{model_number}",
                "boards": [{"marking": f"PCB-{model_number // 3}", "function": "control"}],
            },
            symptoms=[{"term": seen, "said_by": "customer", "note": self._sentence(3, 10)}],
            not_seen=unseen[:2],
            tests=[self._test(block_id) for _ in range(chance.randint(1, 4))],
            measurements=[
                {"point": f"{ref} {self._sentence(1, 3)}", "quantity": "dc-voltage", "before": self._value()}
                for _ in range(2)
            ],
            root_cause={
                "block": block_id,
                "component": ref,
                "component_class": component_id,
                "failure_mode": chance.choice(modes),
                "confidence": "confirmed",
                "confirm_by": self._sentence(4, 10),
            },
            fix={"actions": [{"do": chance.choice(self._actions), "on": ref}], "steps": [self._sentence(8, 20)]},
            minutes=chance.randint(5, 180),
            parts=[{"ref": ref, "type": f"IRF{chance.randint(100, 999)}", "ratings": {"capacitance": self._value()}}],
            notes=f"{self._sentence(30, 80)}. {self._phrase()}.",
        )
