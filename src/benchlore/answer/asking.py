"""Puts questions about a unit to a knowledge base: what its entries teach, read once, then asked as often as needed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from benchlore.answer.cases import Case, cases_of
from benchlore.answer.causes import CauseModel
from benchlore.answer.diagnose import Diagnosis, diagnose
from benchlore.answer.evidence import Result
from benchlore.answer.question import KnownUnit, Question, identified, known_units, read_words
from benchlore.answer.tallies import Level
from benchlore.answer.typed import term_of
from benchlore.errors import BenchloreError
from benchlore.read.base import Base
from benchlore.terms.vocabulary import Vocabulary


@dataclass(frozen=True)
class Asker:
    """Cases and known units of a base. ``minute_cost`` is money for a minute of work."""

    vocabulary: Vocabulary
    cases: Sequence[Case]
    units: Sequence[KnownUnit]
    minute_cost: float = 0.0
    models: dict[tuple[Level, ...], CauseModel] = field(default_factory=dict, compare=False)

    @classmethod
    def of_base(cls, base: Base) -> Asker:
        """Read a base; entries that are not valid are left out."""
        records = base.records()
        return cls(
            base.vocabulary,
            cases_of(records, base.shop.currency),
            known_units(records),
            float(base.shop.labour_rate) / 60,
        )

    def class_of(self, text: str) -> str:
        """The class that a word or phrase stands for. Raises BenchloreError."""
        return term_of("class", text, self.vocabulary)

    def read(self, text: str, given: Question) -> Question:
        """``given`` with what plain words add to it."""
        return read_words(text, self.vocabulary, self.units, given)

    def with_results(self, question: Question, results: Sequence[Result]) -> Question:
        """The question with tests and readings added."""
        return replace(question, results=(*question.results, *results))

    def complete(self, question: Question) -> Question:
        """The question with its class known and something to go by. Raises BenchloreError where that fails."""
        question = identified(question, self.units)
        if not question.equipment_class:
            named = question.model or ", ".join(question.boards)
            what = f"Nothing is known of {named}" if named else "It does not say what kind of equipment this is"
            raise BenchloreError(f"{what}.", hint="Name the class (--class dehumidifier), or a known model or board.")
        return question

    def answer(self, question: Question, worth: float | None = None) -> Diagnosis:
        """The diagnosis; ``worth`` is what a repair may cost, in money of the shop."""
        hand_back = worth / self.minute_cost if worth is not None and self.minute_cost > 0 else None
        return diagnose(
            question, self.cases, self.units, self.vocabulary, minute_cost=self.minute_cost, hand_back=hand_back,
            models=self.models,
        )  # fmt: skip

    def next_question(self, diagnosis: Diagnosis, asked: set[str]) -> tuple[str, str, str] | None:
        """The most useful thing to ask: (kind, term, words); None when nothing tells any more.

        An unpowered test that is next comes before symptoms; a symptom before anything powered.
        """
        step = diagnosis.steps[0] if diagnosis.steps else None
        test = None
        if step is not None and step.kind == "test":
            place = self.vocabulary.label("block", step.target).lower() if step.target else "unit"
            label = self.vocabulary.label("test", step.test).lower()
            test = ("test", f"{step.test}@{step.target}", f"{label.capitalize()} ({place}): normal?")
        for symptom in diagnosis.worth_asking:
            if f"symptom:{symptom}" not in asked:
                return ("symptom", symptom, f"{self.vocabulary.label('symptom', symptom)}: seen?")
        if test is not None and f"{test[0]}:{test[1]}" not in asked:
            return test
        return None

    def told(self, question: Question, kind: str, term_id: str, said: str) -> Question:
        """The question with an answer to :meth:`next_question`: yes, no, or (anything else) not known."""
        yes, no = said.startswith("y"), said.startswith("n")
        if not (yes or no):
            return question
        if kind == "symptom":
            if yes:
                return replace(question, seen={**question.seen, term_id: 1.0})
            return replace(question, absent=question.absent | {term_id})
        test, _, target = term_id.partition("@")
        return self.with_results(question, [Result(test, target, "normal" if yes else "abnormal", text="answered")])
