"""Benchmarks 7 and 9: a noisy synthetic shop log with its truth kept; prediction in date order, and the estimate.

Run: ``python -m tests.bench.diagnosis.shop_log [--logs 5]``. Needs numpy and scikit-learn.

The generator (its truth is kept, so the perfect model can be scored): 24 causes in 8 blocks with Zipf-like shares, 20
symptoms. Each cause shows 3 symptoms often (.6 to .95) and the others rarely (.02 to .1). Fault chains: some causes
take a second part with them, whose symptoms show as well. Of what is there, a technician writes down four fifths; of
what is not there a fifth is stated absent; one complaint in ten is wrong. Minutes are log-normal by cause.
"""

from __future__ import annotations

import argparse
import math
from collections import defaultdict

import numpy as np
from sklearn.naive_bayes import BernoulliNB

from benchlore.answer.cases import Case
from benchlore.answer.causes import CauseModel
from benchlore.answer.estimate import Amounts, estimate
from benchlore.answer.hypotheses import Hypothesis
from benchlore.answer.observed import Observed
from benchlore.answer.tallies import Level

CAUSES, SYMPTOMS, BLOCKS = 24, 20, 8
SIZES = (30, 60, 100, 300)
AHEAD = 200
"""Entries after each size that are predicted."""
MENTION, STATED, WRONG = 0.8, 0.2, 0.1
NAMES = [f"s{n:02}" for n in range(SYMPTOMS)]


class Shop:
    """The truth: shares, symptom rates with fault chains worked in, minutes."""

    def __init__(self, seed: int) -> None:
        self.rng = np.random.default_rng(seed)
        shares = 1 / np.arange(1, CAUSES + 1)
        self.shares = self.rng.permutation(shares / shares.sum())
        own = self.rng.uniform(0.02, 0.1, (CAUSES, SYMPTOMS))
        for cause in range(CAUSES):
            own[cause, self.rng.choice(SYMPTOMS, 3, replace=False)] = self.rng.uniform(0.6, 0.95, 3)
        self.own = own
        self.follows = [int(self.rng.integers(CAUSES)) if n % 4 == 0 else -1 for n in range(CAUSES)]
        self.minutes = self.rng.normal(math.log(50), 0.6, CAUSES)
        self.spread = self.rng.uniform(0.3, 0.6, CAUSES)
        self.causes = [Hypothesis(f"b{n % BLOCKS}", f"part{n:02}", "failed") for n in range(CAUSES)]

    def entry(self, number: int) -> tuple[Case, int]:
        """One repair as written up, and its true cause."""
        cause = int(self.rng.choice(CAUSES, p=self.shares))
        there = self.rng.random(SYMPTOMS) < self.own[cause]
        other = self.follows[cause]
        if other >= 0 and self.rng.random() < 0.4:
            there |= self.rng.random(SYMPTOMS) < self.own[other]
        told = there & (self.rng.random(SYMPTOMS) < MENTION)
        stated = ~there & (self.rng.random(SYMPTOMS) < STATED)
        if self.rng.random() < WRONG:
            wrong = int(self.rng.integers(SYMPTOMS))
            told[wrong], stated[wrong] = True, False
        seen = frozenset(n for n, has in zip(NAMES, told, strict=True) if has)
        absent = frozenset(n for n, has in zip(NAMES, stated, strict=True) if has)
        minutes = float(np.exp(self.rng.normal(self.minutes[cause], self.spread[cause])))
        return Case(f"e{number:05}", self.causes[cause], seen, absent, frozenset({"class:x"}), minutes=minutes), cause

    def perfect(self, case: Case) -> np.ndarray:
        """The shares of the causes by the generator itself (the rare wrong complaint worked in)."""
        logs = np.log(self.shares)
        for cause in range(CAUSES):
            alone = self._likelihood(case, self.own[cause])
            other = self.follows[cause]
            if other >= 0:
                both = 1 - (1 - self.own[cause]) * (1 - self.own[other])
                alone = 0.6 * alone + 0.4 * self._likelihood(case, both)
            logs[cause] += math.log(alone)
        shares = np.exp(logs - logs.max())
        return shares / shares.sum()

    def _likelihood(self, case: Case, rates: np.ndarray) -> float:
        told, stated = rates * MENTION, (1 - rates) * STATED
        silent = 1 - told - stated
        each = np.array([
            told[n] if name in case.seen else stated[n] if name in case.absent else silent[n]
            for n, name in enumerate(NAMES)
        ])  # fmt: skip
        plain = float(np.prod(each))
        wrong = sum(plain / each[n] for n, name in enumerate(NAMES) if name in case.seen) / SYMPTOMS
        return (1 - WRONG) * plain + WRONG * wrong


def predict(shop: Shop, learned: list[Case], asked: list[Case]) -> np.ndarray:
    """Ours: shares of the causes; "not seen before" is spread over those that nobody met."""
    base = dict.fromkeys(shop.causes, 1 / CAUSES)
    model = CauseModel(learned, [Level("all"), Level("class", ("class:x",))], base)
    met = {case.cause for case in learned}
    rows = []
    for case in asked:
        observed = Observed(dict.fromkeys(sorted(case.seen), 1.0), case.absent)
        shares = {r.cause: r.probability for r in model.rank(observed)}
        row = np.array([shares[c] for c in shop.causes])
        new = [n for n, c in enumerate(shop.causes) if c not in met]
        room = 1 - row.sum()
        row[new or slice(None)] += room / (len(new) or CAUSES)
        rows.append(row / row.sum())
    return np.array(rows)


def naive(learned: list[Case], labels: list[int], asked: list[Case]) -> np.ndarray:
    """scikit-learn's naive Bayes on reported symptoms; causes never met share a hundredth."""
    def table(cases: list[Case]) -> np.ndarray:
        return np.array([[name in case.seen for name in NAMES] for case in cases])

    model = BernoulliNB().fit(table(learned), labels)
    shares = np.full((len(asked), CAUSES), 0.01 / CAUSES)
    shares[:, model.classes_] += 0.99 * model.predict_proba(table(asked))
    return shares / shares.sum(1, keepdims=True)


def calibration(shares: np.ndarray, truth: np.ndarray) -> float:
    """Expected calibration error of the leading answer, five bins."""
    lead, right = shares.max(1), shares.argmax(1) == truth
    bins = np.minimum((lead * 5).astype(int), 4)
    return float(sum(abs(lead[bins == b].sum() - right[bins == b].sum()) for b in range(5)) / len(lead))


def main() -> None:
    """Print log losses and calibration by size, then coverage of the estimate."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--logs", type=int, default=5)
    asked = parser.parse_args()
    loss: defaultdict[tuple[int, str], list[float]] = defaultdict(list)
    error: defaultdict[tuple[int, str], list[float]] = defaultdict(list)
    covered: defaultdict[int, list[float]] = defaultdict(list)
    for seed in range(asked.logs):
        shop = Shop(seed)
        log = [shop.entry(n) for n in range(max(SIZES) + AHEAD)]
        for size in SIZES:
            learned, ahead = [c for c, _ in log[:size]], [c for c, _ in log[size : size + AHEAD]]
            labels, truth = [t for _, t in log[:size]], np.array([t for _, t in log[size : size + AHEAD]])
            counted = (np.bincount(labels, minlength=CAUSES) + 0.5) / (size + CAUSES / 2)
            answers = {
                "ours": predict(shop, learned, ahead),
                "class frequency": np.tile(counted, (len(ahead), 1)),
                "naive Bayes": naive(learned, labels, ahead),
                "perfect model": np.array([shop.perfect(c) for c in ahead]),
            }
            for name, shares in answers.items():
                loss[size, name] += list(-np.log(np.maximum(shares[np.arange(len(truth)), truth], 1e-12)))
                error[size, name].append(calibration(shares, truth))
            amounts: dict[Hypothesis, list[float]] = {}
            for case in learned:
                amounts.setdefault(case.cause, []).append(case.minutes or 0.0)
            pool = Amounts(amounts)
            for case, row in zip(ahead, answers["ours"], strict=True):
                figures = estimate(dict(zip(shop.causes, row, strict=True)), pool)
                covered[size].append(float(figures is not None and (case.minutes or 0) <= figures.p90))
    for size in SIZES:
        told = "   ".join(f"{n} {np.mean(loss[size, n]):.3f} (off {np.mean(error[size, n]):.3f})" for n in answers)
        print(f"{size:4} entries  log loss: {told}")
    print("goal: below class frequency and naive Bayes everywhere; at 300, off within .05 of the perfect model's")
    for size in SIZES:
        print(f"{size:4} entries  P90 of the estimate covers {np.mean(covered[size]):.3f}   goal: .85 to .95")


if __name__ == "__main__":
    main()
