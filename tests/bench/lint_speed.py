"""Prints what lint takes beside what it rests on, in one run: ``python tests/bench/lint_speed.py [COUNT]...``.

For each number of entries (1,000 and 10,000 when left out), with the same number of processes throughout, each as a
command of its own from its start to its end: reading the bytes only; nodes plus pydantic only; the interpreter with
lint's imports and a look at every file's size and times; and ``benchlore lint`` as it is typed: cold, unchanged, and
with one entry changed. The goals stand beside the figures.
"""

from __future__ import annotations

import argparse
import gc
import os
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

import yaml

sys.path.insert(0, str(Path(__file__).parents[2]))

from benchlore.read.base import Base
from benchlore.terms.model import ComponentClass
from tests.index.made_up import made_up, vocabulary


def lay_down(root: Path, count: int) -> None:
    """A base of made-up entries."""
    (root / "site_config").mkdir()
    (root / "site_config" / "shop.yaml").write_text("name: Bench\n", encoding="utf-8")
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    for number, record in enumerate(made_up(count)):
        path = root / record.rel
        path.parent.mkdir(parents=True, exist_ok=True)
        plain = record.entry.model_dump(mode="json", by_alias=True, exclude_defaults=True)
        plain = {"format": 1, **plain}
        if number % 10:
            set_right(plain)
        path.write_text(yaml.dump(plain, Dumper=dumper, allow_unicode=True, sort_keys=False), encoding="utf-8")
    time.sleep(0.1)  # a file changed just now is not told from one changed again


def set_right(plain: dict[str, Any]) -> None:
    """Gives a made-up entry what most entries have: units that fit, designators of the kind, a proof."""
    kind = vocabulary().get_as(ComponentClass, plain["root_cause"]["component_class"])
    letters = kind.designators[0] if kind and kind.designators else "X"
    ref = letters + plain["root_cause"]["component"][1:]
    plain["root_cause"]["component"] = plain["fix"]["actions"][0]["on"] = plain["parts"][0]["ref"] = ref
    for reading in plain["measurements"]:
        reading["before"] = reading["before"].split()[0] + " V"
    plain["parts"][0]["ratings"] = {"capacitance": plain["parts"][0]["ratings"]["capacitance"].split()[0] + " µF"}
    plain["outcome"], plain["verification"] = "repaired", {"result": "holding", "soak": "8 h"}
    plain["verification"]["safety"] = [{"test": "insulation-check", "value": "over 200 MΩ", "result": "pass"}]


def read_only(paths: list[Path]) -> int:
    """Bytes of all files."""
    return sum(len(path.read_bytes()) for path in paths)


def nodes_and_model(paths: list[Path]) -> int:
    """How many files are entries, by the reader alone (the one way that entries are read)."""
    base = Base(paths[0].parents[2])
    return sum(base.read(path).entry is not None for path in paths)


def stat_loop(paths: list[Path]) -> int:
    """How many files are there, by their size and times, with lint's own imports."""
    import benchlore.check.changed
    import benchlore.check.reports.text
    import benchlore.check.runner
    import benchlore.cli.lint  # noqa: F401

    return len([os.lstat(path) for path in paths])


WORK = {"reading": read_only, "parsing": nodes_and_model, "looking": stat_loop}


def part(name: str, root: Path, processes: int) -> None:
    """One of the parts that lint rests on, as a process of its own runs it; prints the sum of what it returned."""
    paths, work = Base(root).entry_paths(), WORK[name]
    if name == "looking":
        print(work(paths))
        return
    chunks = [paths[n : n + 100] for n in range(0, len(paths), 100)]
    with ProcessPoolExecutor(processes, initializer=gc.disable) as pool:
        print(sum(pool.map(work, chunks)))


def timed_part(name: str, root: Path, processes: int) -> tuple[float, int]:
    """Seconds from typing the command to its end, the better of two, and what it printed."""
    arguments = [sys.executable, __file__, "--part", name, str(root), "--processes", str(processes)]
    times = []
    for _ in range(2):
        start = time.perf_counter()
        done = subprocess.run(arguments, capture_output=True, text=True, check=True)
        times.append(time.perf_counter() - start)
    return min(times), int(done.stdout)


def command(root: Path, cache: Path, processes: int, *, best_of: int = 1) -> tuple[float, str]:
    """Seconds of ``benchlore lint`` as it is typed (the best of some), and its last line but one."""
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache)}
    arguments = [sys.executable, "-m", "benchlore", "lint", "--base", str(root), "--processes", str(processes)]
    times = []
    for _ in range(best_of):
        start = time.perf_counter()
        done = subprocess.run(arguments, env=environment, capture_output=True, text=True, check=False)
        times.append(time.perf_counter() - start)
        assert done.returncode in (0, 1), done.stderr
    return min(times), next(line for line in reversed(done.stdout.splitlines()) if "checked:" in line)


def change_one(paths: list[Path], number: int) -> None:
    """Another word in the notes of one entry."""
    path = paths[number]
    path.write_text(path.read_text(encoding="utf-8") + f"# {number}\n", encoding="utf-8")
    time.sleep(0.1)


def run(count: int, processes: int) -> None:
    """All figures for one number of entries."""
    with tempfile.TemporaryDirectory() as folder:
        root, cache = Path(folder) / "base", Path(folder) / "cache"
        root.mkdir()
        lay_down(root, count)
        paths = Base(root).entry_paths()
        reading, size = timed_part("reading", root, processes)
        parsing, entries = timed_part("parsing", root, processes)
        looking, _ = timed_part("looking", root, processes)
        assert entries == count
        cold, said = command(root, cache, processes)
        unchanged, _ = command(root, cache, processes, best_of=3)
        changed = []
        for number in (0, count // 2, count - 1):
            change_one(paths, number)
            changed.append(command(root, cache, processes)[0])
        one = min(changed)
    print(f"\n{count:,} entries of {size / count / 1000:.1f} kB, {processes} processes; {said}")
    for name, seconds, goal in (
        ("reading only", reading, ""),
        ("nodes plus pydantic only", parsing, ""),
        ("interpreter, imports, stat loop", looking, ""),
        ("lint, cold", cold, f"{cold / parsing:.2f} × nodes plus pydantic (goal 4)"),
        ("lint, unchanged", unchanged, f"{unchanged / looking:.2f} × interpreter, imports, stat loop (goal 4)"),
        ("lint, one changed", one, f"{one / unchanged:.2f} × unchanged (goal 1.5)"),
    ):
        print(f"  {name:34} {seconds:8.2f} s   {goal}".rstrip())


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("count", nargs="*", type=int, default=[1_000, 10_000])
    parser.add_argument("--part", nargs=2, help=argparse.SUPPRESS)
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    options = parser.parse_args()
    if options.part:
        part(options.part[0], Path(options.part[1]), options.processes)
    else:
        for number in options.count:
            run(number, options.processes)
