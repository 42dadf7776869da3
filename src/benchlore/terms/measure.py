"""How well the phrase recogniser finds the symptoms meant in sentences that people judged."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from benchlore.terms.recogniser import Recogniser


class Judged(BaseModel):
    """A sentence and the symptoms it means: ``symptoms`` are there, ``not_seen`` are said not to be."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    text: Annotated[str, Field(min_length=1, max_length=1000)]
    symptoms: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    said_by: str = "customer"
    half: str = "check"


@dataclass(frozen=True, slots=True)
class Miss:
    """A sentence that was not read as meant: symptoms not found, and symptoms found that were not meant."""

    text: str
    missed: tuple[str, ...]
    wrong: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Measured:
    """Counts over the sentences. A symptom said to be absent is one more to find, and absent is what must be found."""

    sentences: int
    meant: int
    found: int
    right: int
    misses: tuple[Miss, ...]

    @property
    def recall(self) -> float:
        """Share of the symptoms meant that were found; 1 where none was meant."""
        return self.right / self.meant if self.meant else 1.0

    @property
    def wrong(self) -> float:
        """Share of the symptoms found that were not meant; 0 where none was found."""
        return (self.found - self.right) / self.found if self.found else 0.0


def measure(recogniser: Recogniser, sentences: Iterable[Judged]) -> Measured:
    """Reads every sentence and compares with what was meant."""
    count = meant = found = right = 0
    misses: list[Miss] = []
    for sentence in sentences:
        wanted = {*sentence.symptoms, *(f"not {term}" for term in sentence.not_seen)}
        read = {
            f"not {one.id}" if one.negated else one.id for one in recogniser.find_in(sentence.text, kinds=("symptom",))
        }
        count += 1
        meant += len(wanted)
        found += len(read)
        right += len(wanted & read)
        if wanted != read:
            misses.append(Miss(sentence.text, tuple(sorted(wanted - read)), tuple(sorted(read - wanted))))
    return Measured(count, meant, found, right, tuple(misses))
