"""Benchmark 6: orders by p/c, with and without teardown groups, against every permutation, on random problems.

Run: ``python -m tests.bench.diagnosis.order_brute_force [--problems 1000]``.
"""

from __future__ import annotations

import argparse
import itertools
import random

from benchlore.answer.next_step import Advisor, Work, best_order, order_cost


def main() -> None:
    """Print on how many problems the order is the best of all."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--problems", type=int, default=1000)
    asked = parser.parse_args()
    rng = random.Random(6)
    for groups in ([""], ["", "g", "h"]):
        same = 0
        for _ in range(asked.problems):
            number = rng.randint(1, 6)
            works = [Work(str(n), rng.uniform(1, 60), rng.choice(groups)) for n in range(number)]
            p = [rng.random() for _ in range(number)]
            openings = {"g": rng.uniform(0, 40), "h": rng.uniform(0, 40)}
            found = order_cost(p, works, best_order(p, works, openings), openings)
            quick = Advisor(works, [], openings).repair_cost(p)
            best = min(order_cost(p, works, o, openings) for o in itertools.permutations(range(number)))
            same += abs(found - best) < 1e-9 * best and abs(quick - best) < 1e-9 * best
        what = "with teardown groups" if len(groups) > 1 else "without groups"
        print(f"{what:22} {same} of {asked.problems} as good as the best of all permutations   goal: all")


if __name__ == "__main__":
    main()
