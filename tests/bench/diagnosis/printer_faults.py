"""Benchmarks 1 to 3: causes in the public printer-fault network ``win95pts`` (inside the pgmpy wheel), ours and others.

Run: ``python -m tests.bench.diagnosis.printer_faults [--sets 10] [--cases 10000]``. Needs pgmpy and scikit-learn.

Single-fault cases: one of 30 causes is drawn with P ∝ p / (1 - p), the others are clamped to OK, context from its
priors, forward-sampled; cases with a complaint are kept. The ceiling for symptoms alone is the share of causes among
two million draws with exactly these findings.
"""

from __future__ import annotations

import argparse
import gzip
import tempfile
from collections import Counter, defaultdict
from importlib.resources import files
from pathlib import Path

import networkx as nx
import numpy as np
from pgmpy.readwrite import BIFReader
from sklearn.linear_model import LogisticRegression
from sklearn.naive_bayes import BernoulliNB

from benchlore.answer.cases import Case
from benchlore.answer.causes import CauseModel
from benchlore.answer.hypotheses import Hypothesis
from benchlore.answer.observed import Observed
from benchlore.answer.tallies import Level

CONTEXT = ("NetPrint", "DSApplctn", "PrtPScript", "TrTypFnts")
PROBLEMS = {"Problem1": 1, "Problem2": 1, "Problem3": 0, "Problem4": 0, "Problem5": 0, "Problem6": 1}
"""Complaint to the index of its state."""
GOALS = {
    "symptoms": {100: 1.85, 300: 1.70, 1000: 1.61, 3000: 1.55},
    "tests": {100: 1.46, 300: 1.27, 1000: 1.15, 3000: 1.09},
}


class Network:
    """The network as tables, and draws from it."""

    def __init__(self) -> None:
        packed = files("pgmpy").joinpath("utils/example_models/win95pts.bif.gz").read_bytes()
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "win95pts.bif"
            path.write_bytes(gzip.decompress(packed))
            model = BIFReader(str(path)).get_model()
        names = list(model.nodes())
        self.order = list(nx.topological_sort(model))
        self.tables = {n: (model.get_cpds(n).variables[1:], model.get_cpds(n).values) for n in names}
        self.causes = [n for n in names if not model.get_parents(n) and n not in CONTEXT]
        self.tests = [n for n in names if not model.get_children(n) and n not in PROBLEMS]
        odds = np.array([self.tables[c][1][1] / self.tables[c][1][0] for c in self.causes])
        self.odds = odds / odds.sum()
        self.findings = [*PROBLEMS, *CONTEXT, *self.tests]

    def draw(self, number: int, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
        """(findings, cause) of ``number`` cases with a complaint; findings as 0 and 1, in the order of ``findings``."""
        found, causes, kept = [], [], 0
        while kept < number:
            size = max(2 * number, 2000)
            cause = rng.choice(len(self.causes), size, p=self.odds)
            value = {c: (cause == i).astype(np.int8) for i, c in enumerate(self.causes)}
            for node in self.order:
                if node not in value:
                    parents, table = self.tables[node]
                    chance = table[(1, *(value[p] for p in parents))] if parents else np.full(size, table[1])
                    value[node] = (rng.random(size) < chance).astype(np.int8)
            complaints = [value[p] == state for p, state in PROBLEMS.items()]
            rows = np.stack([*complaints, *(value[c] for c in CONTEXT), *(value[t] for t in self.tests)], 1)
            keep = np.any(complaints, axis=0)
            found.append(rows[keep].astype(np.int8))
            causes.append(cause[keep])
            kept += int(keep.sum())
        return np.concatenate(found)[:number], np.concatenate(causes)[:number]


def ours(train: np.ndarray, labels: np.ndarray, test: np.ndarray, number: int) -> np.ndarray:
    """Shares of the causes for each row of ``test``."""
    causes = [Hypothesis(f"c{i:02}", "part", "failed") for i in range(number)]
    names = [f"f{i:02}" for i in range(train.shape[1])]
    cases = [
        Case(str(n), causes[label], frozenset(f for f, has in zip(names, row, strict=True) if has))
        for n, (row, label) in enumerate(zip(train, labels, strict=True))
    ]
    model = CauseModel(cases, [Level("all")], dict.fromkeys(causes, 1 / number), mention=1, open_world=False)
    known: dict[bytes, np.ndarray] = {}
    for row in test:
        key = row.tobytes()
        if key not in known:
            seen = {f: 1.0 for f, has in zip(names, row, strict=True) if has}
            shares = {r.cause: r.probability for r in model.rank(Observed(seen, frozenset(names) - set(seen)))}
            known[key] = np.array([shares[c] for c in causes])
    return np.array([known[row.tobytes()] for row in test])


def others(name: str, train: np.ndarray, labels: np.ndarray, test: np.ndarray, number: int) -> np.ndarray:
    """Shares by scikit-learn; causes that were never met share a thousandth."""
    model = BernoulliNB(alpha=1.0) if name == "naive Bayes" else LogisticRegression(max_iter=2000)
    model.fit(train, labels)
    shares = np.full((len(test), number), 1e-3 / number)
    shares[:, model.classes_] += (1 - 1e-3) * model.predict_proba(test)
    return shares / shares.sum(1, keepdims=True)


def scores(shares: np.ndarray, labels: np.ndarray) -> np.ndarray:
    """Log loss, top-1, top-3."""
    ranked = np.argsort(-shares, axis=1)[:, :3]
    loss = -np.log(np.maximum(shares[np.arange(len(labels)), labels], 1e-12)).mean()
    return np.array([loss, (ranked[:, 0] == labels).mean(), (ranked == labels[:, None]).any(1).mean()])


def ceiling(network: Network, test: np.ndarray, labels: np.ndarray) -> float:
    """Log loss of the shares among two million draws with the same findings."""
    counted: defaultdict[bytes, Counter[int]] = defaultdict(Counter)
    for part in range(10):
        rows, causes = network.draw(200_000, np.random.default_rng(900 + part))
        for row, cause in zip(rows[:, :10], causes, strict=True):
            counted[row.tobytes()][int(cause)] += 1
    chances = [
        (counted[r.tobytes()][int(c)] + 0.1) / (sum(counted[r.tobytes()].values()) + 3)
        for r, c in zip(test, labels, strict=True)
    ]
    return float(-np.log(chances).mean())


def main() -> None:
    """Print ours beside the others."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sets", type=int, default=10)
    parser.add_argument("--cases", type=int, default=10_000)
    parser.add_argument("--sizes", type=int, nargs="*", default=[30, 100, 300, 1000, 3000])
    asked = parser.parse_args()
    network = Network()
    test, labels = network.draw(asked.cases, np.random.default_rng(0))
    number = len(network.causes)
    print(f"{asked.cases} test cases, {asked.sets} training sets; log loss / top-1 / top-3")
    print(f"ceiling, symptoms alone: {ceiling(network, test[:, :10], labels):.3f}")
    for what, width in (("symptoms", 10), ("tests", 20)):
        for size in asked.sizes:
            found: defaultdict[str, list[np.ndarray]] = defaultdict(list)
            for n in range(asked.sets):
                rows, causes = network.draw(size, np.random.default_rng(100 + n))
                parts = rows[:, :width], causes, np.ascontiguousarray(test[:, :width])
                found["ours"].append(scores(ours(*parts, number), labels))
                for name in ("naive Bayes", "logistic regression"):
                    found[name].append(scores(others(name, *parts, number), labels))
            goal = GOALS[what].get(size, "")
            told = "   ".join(f"{k} {' / '.join(f'{v:.3f}' for v in np.mean(r, 0))}" for k, r in found.items())
            print(f"{what:8} {size:5}  goal {goal!s:5} {told}", flush=True)


if __name__ == "__main__":
    main()
