"""How well diagnosis does on a base: each entry predicted from the others, or from those before it.

A cause that no other entry teaches counts as foreseen only through "not seen before": its share is what "not seen
before" and that very cause got together. Figures: mean log loss (natural), top-1, top-3, and how the probability of the
leading answer compares with how often it was right (expected calibration error).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from benchlore.answer.cases import Case
from benchlore.answer.causes import CauseModel
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis, base_shares
from benchlore.answer.observed import Observed
from benchlore.answer.tallies import Level
from benchlore.terms.vocabulary import Vocabulary

BINS = 5
_LEAST = 1e-9


class Prediction(NamedTuple):
    """One entry predicted: the share given to the truth, its rank from 1, the leading share, whether that was right."""

    id: str
    equipment_class: str
    share: float
    rank: int
    lead: float
    is_right: bool
    is_new: bool
    """Whether no other entry of the class had this cause."""
    frequency_share: float
    """The share that counting causes alone would have given."""


class Bin(NamedTuple):
    """Predictions whose leading share lies between two bounds: how many, the mean share, how often right."""

    low: float
    high: float
    entries: int
    said: float
    right: float


@dataclass(frozen=True, slots=True)
class Measured:
    """Figures over predictions."""

    predictions: tuple[Prediction, ...]

    @property
    def count(self) -> int:
        """How many entries were predicted."""
        return len(self.predictions)

    @property
    def new(self) -> int:
        """How many had a cause that nothing learned from had."""
        return sum(p.is_new for p in self.predictions)

    @property
    def known(self) -> Measured:
        """Those whose cause was there to be learned."""
        return Measured(tuple(p for p in self.predictions if not p.is_new))

    def as_data(self) -> dict[str, object]:
        """The figures as plain data."""
        if not self.count:
            return {"count": 0}
        return {
            "count": self.count, "new": self.new, "top_1": self.top(1), "top_3": self.top(3),
            "log_loss": self.log_loss, "log_loss_counting_causes": self.frequency_loss,
            "calibration_error": self.calibration_error, "calibration": [b._asdict() for b in self.bins],
            "top_1_known": self.known.top(1) if self.known.count else None,
            "top_3_known": self.known.top(3) if self.known.count else None,
        }  # fmt: skip

    @property
    def log_loss(self) -> float:
        """Mean of -ln(share given to the truth)."""
        return _mean([-math.log(max(_LEAST, p.share)) for p in self.predictions])

    @property
    def frequency_loss(self) -> float:
        """The same for counting causes alone, symptoms not looked at."""
        return _mean([-math.log(max(_LEAST, p.frequency_share)) for p in self.predictions])

    def top(self, number: int) -> float:
        """Share of entries whose truth was among the first ``number`` answers."""
        return _mean([float(p.rank <= number) for p in self.predictions])

    @property
    def bins(self) -> tuple[Bin, ...]:
        """The calibration table, by the share of the leading answer."""
        table = []
        for n in range(BINS):
            low, high = n / BINS, (n + 1) / BINS
            here = [p for p in self.predictions if low <= p.lead < high or (n == BINS - 1 and p.lead >= 1)]
            if here:
                said, right = _mean([p.lead for p in here]), _mean([float(p.is_right) for p in here])
                table.append(Bin(low, high, len(here), said, right))
        return tuple(table)

    @property
    def calibration_error(self) -> float:
        """Expected calibration error: |said - right| weighed by count."""
        return _mean([]) if not self.count else sum(b.entries * abs(b.said - b.right) for b in self.bins) / self.count


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values) if values else math.nan


def leave_one_out(
    cases: Sequence[Case], vocabulary: Vocabulary, classes: frozenset[str] = frozenset()
) -> Measured:
    """Each entry predicted from all the others; ``classes`` limits which are predicted."""
    return _measured(cases, vocabulary, classes, lambda case: [c for c in cases if c.id != case.id])


def in_date_order(
    cases: Sequence[Case], vocabulary: Vocabulary, classes: frozenset[str] = frozenset()
) -> Measured:
    """Each entry predicted from those of earlier dates; then learned."""
    return _measured(cases, vocabulary, classes, lambda case: [c for c in cases if c.date < case.date])


def _measured(
    cases: Sequence[Case],
    vocabulary: Vocabulary,
    classes: frozenset[str],
    learned: Callable[[Case], list[Case]],
) -> Measured:
    bases = _Bases(vocabulary)
    return Measured(tuple(_predictions(cases, classes, learned, bases)))


class _Bases:
    def __init__(self, vocabulary: Vocabulary) -> None:
        self._vocabulary = vocabulary
        self._known: dict[str, dict[Hypothesis, float]] = {}

    def of(self, class_id: str) -> dict[Hypothesis, float]:
        if class_id not in self._known:
            self._known[class_id] = base_shares(class_id, self._vocabulary)
        return self._known[class_id]


def _predictions(
    cases: Sequence[Case],
    classes: frozenset[str],
    learned: Callable[[Case], list[Case]],
    bases: _Bases,
) -> Iterator[Prediction]:
    for case in cases:
        class_id = case.equipment_class
        if not case.has_symptoms or not case.seen or (classes and class_id not in classes):
            continue
        yield predict(case, class_id, learned(case), bases.of(class_id))


def predict(
    case: Case, class_id: str, learned: Sequence[Case], base: dict[Hypothesis, float]
) -> Prediction:
    """One case predicted from ``learned`` by its symptoms alone (its tests were made to find the cause)."""
    levels = [Level("all equipment"), Level("class", (f"class:{class_id}",))]
    for kind in ("board:", "model:"):
        scopes = tuple(sorted(s for s in case.scopes if s.startswith(kind)))
        if scopes:
            levels.append(Level(kind[:-1], scopes))
    model = CauseModel(learned, levels, base)
    ranked = model.rank(Observed(dict.fromkeys(sorted(case.seen), 1.0), case.absent))
    shares = {r.cause: r.probability for r in ranked}
    known = {c.cause for c in learned if f"class:{class_id}" in c.scopes}
    is_new = case.cause not in known
    share = shares.get(case.cause, 0.0) + (shares[NOT_SEEN_BEFORE] if is_new else 0.0)
    right = {case.cause, NOT_SEEN_BEFORE} if is_new else {case.cause}
    rank = next(n for n, r in enumerate(ranked, start=1) if r.cause in right)
    prior = model.prior(case.cause) if case.cause in model.base else 0.0
    return Prediction(
        case.id, class_id, share, rank, ranked[0].probability, ranked[0].cause in right, is_new,
        prior + (model.prior(NOT_SEEN_BEFORE) if is_new else 0.0),
    )  # fmt: skip
