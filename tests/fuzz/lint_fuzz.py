"""Looks for texts on which lint or mending fails, hangs or contradicts itself: ``python tests/fuzz/lint_fuzz.py``.

Texts are made from the entries and broken entries of this repository, cut, crossed and damaged; the choices come from
hypothesis, so that a failure is shrunk to a small text. What failed once is kept in ``tests/fuzz/seeds`` and tried
first; ``tests/fuzz/test_seeds.py`` runs the seeds with the other tests.
"""

from __future__ import annotations

import argparse
import datetime as dt
import hashlib
import multiprocessing
import sys
import tempfile
import time
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

HERE = Path(__file__).parent
REPOSITORY = HERE.parents[1]
sys.path.insert(0, str(REPOSITORY))

from benchlore.check.mends.mender import Mender  # noqa: E402
from benchlore.check.one_file import check_file, source_of  # noqa: E402
from benchlore.check.registry import RULES  # noqa: E402
from benchlore.check.reports import render  # noqa: E402
from benchlore.check.runner import Report, lint  # noqa: E402
from benchlore.cli.lint import FORMATS  # noqa: E402
from benchlore.read.base import Base  # noqa: E402
from tests.check.examples import MINIMAL, new_base  # noqa: E402

TODAY = dt.date(2026, 11, 1)
SLOW = 3.0
"""Seconds of processor time that one text may take, lint, mending and all reports together."""
NAME = "entries/dehumidifier/fuzzed-entry.yaml"


def corpus() -> list[str]:
    """Texts to start from."""
    paths = [*sorted((REPOSITORY / "tests" / "broken").rglob("*.yaml")), *sorted(REPOSITORY.glob("entries/*/*.yaml"))]
    return [MINIMAL, *(path.read_text(encoding="utf-8") for path in paths)]


class Trial:
    """One base in a folder, in which one text after another is tried."""

    def __init__(self, folder: Path) -> None:
        self.base = new_base(folder)
        self.path = self.base.root / NAME
        self.path.parent.mkdir(parents=True)
        self.slowest = 0.0

    def run(self, content: bytes) -> None:
        """Lint ``content``, mend it, mend it again; raises AssertionError when something does not hold."""
        start = time.process_time()
        self.path.write_bytes(content)
        base = Base(self.base.root)
        report = lint(base, today=TODAY)
        crashed = [finding.message for finding in report.findings if finding.code == "BUG001"]
        assert not crashed, crashed
        text = content.decode("utf-8-sig", "replace")
        lines = text.split("\n")
        for finding in report.findings:
            assert 1 <= finding.line <= len(lines) + 1, finding
            assert finding.column >= 1, finding
            assert (finding.line, finding.column) <= (finding.end_line, finding.end_column), finding
        for form in FORMATS:
            assert "\x1b" not in render(form, Report(report.findings, 1, 1))
        source, in_base = source_of(base, self.path)
        for boldly in (False, True):
            mended = Mender(base, RULES, TODAY, boldly=boldly).mend(source, in_base)
            if mended.text == source.text:
                continue
            self.path.write_text(mended.text, encoding="utf-8", newline="")
            again, _ = source_of(Base(self.base.root), self.path)
            if again.text is not None:
                twice = Mender(base, RULES, TODAY, boldly=boldly).mend(again, in_base)
                assert twice.text == mended.text.removeprefix("\ufeff"), "not idempotent"
            after = check_file(Base(self.base.root), self.path, RULES, TODAY)
            assert not [f.message for f in after.findings if f.code == "BUG001"]
        taken = time.process_time() - start
        self.slowest = max(self.slowest, taken)
        assert taken < SLOW, f"{taken:.1f} s"


SIGNS = st.sampled_from(
    [*"\t\n\r #:,-?&*!|>%@`'\"[]{}~=+.\\/<\0\x1b\x85\ufeff\u200b\u202e\u2028µΩ±°é", "\r\n", ": ", " #", "- ", "---\n",
     "<<: ", "*a", "&a ", "!!x ", "\ud800", "yes", "null", "1e9", "9" * 30, "¹²", "５ Ｖ", "20 C", "1,000 V",
     "2026-13-45", "format", "notes: |\n", "\n  ", "{a: ", "]]]", "x" * 300]
)  # fmt: skip


@st.composite
def contents(draw: st.DrawFn, texts: list[str]) -> bytes:
    """A text of the corpus, or two crossed, with some damage."""
    text = draw(st.sampled_from(texts))
    if draw(st.integers(0, 4)) == 0:
        other = draw(st.sampled_from(texts))
        one, two = text.splitlines(keepends=True), other.splitlines(keepends=True)
        text = "".join(one[: draw(st.integers(0, len(one)))] + two[draw(st.integers(0, len(two))) :])
    for _ in range(draw(st.integers(0, 6))):
        place = draw(st.integers(0, len(text)))
        length = draw(st.sampled_from([0, 0, 0, 1, 1, 2, 5, 20, 100]))
        put = draw(st.one_of(SIGNS, SIGNS, st.text(max_size=8), st.just(text[place : place + 40]), st.just("")))
        text = text[:place] + put + text[place + length :]
    raw = text.encode("utf-8", "surrogatepass")
    if draw(st.integers(0, 30)) == 0:
        place = draw(st.integers(0, len(raw)))
        raw = raw[:place] + draw(st.binary(max_size=6)) + raw[place:]
    return raw


def keep(content: bytes) -> Path:
    """Adds a text to the seeds."""
    path = HERE / "seeds" / f"{hashlib.sha256(content).hexdigest()[:12]}.yaml"
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(content)
    return path


def seeds() -> list[Path]:
    """The texts that failed once."""
    return sorted((HERE / "seeds").glob("*.yaml"))


def fuzz(minutes: float, number: int, failed: multiprocessing.Queue | None = None) -> int:  # type: ignore[type-arg]
    """Tries texts for so long; returns how many. What fails is kept, and raised."""
    tried = 0
    end = time.monotonic() + 60 * minutes
    with tempfile.TemporaryDirectory() as folder:
        trial = Trial(Path(folder))
        texts = corpus()
        last = b""

        @settings(
            max_examples=400, deadline=None, database=None, suppress_health_check=list(HealthCheck),
            phases=[Phase.generate, Phase.shrink], report_multiple_bugs=False,
        )  # fmt: skip
        @given(contents(texts))
        def one_round(content: bytes) -> None:
            nonlocal tried, last
            tried += 1
            try:
                trial.run(content)
            except BaseException:
                last = content
                raise

        rounds = 0
        while time.monotonic() < end:
            rounds += 1
            try:
                one_round()
            except Exception as error:
                print(f"[{number}] kept {keep(last).name}: {type(error).__name__}: {error}", flush=True)
                if failed is not None:
                    failed.put(1)
        print(f"[{number}] {tried:,} texts in {rounds} rounds, slowest {trial.slowest:.2f} s", flush=True)
    return tried


def main() -> int:
    """The seeds first, then so many minutes in so many processes; 1 when anything failed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", type=float, default=10)
    parser.add_argument("--processes", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        trial = Trial(Path(folder))
        for path in seeds():
            trial.run(path.read_bytes())
    print(f"{len(seeds())} seeds hold", flush=True)
    failed: multiprocessing.Queue[int] = multiprocessing.Queue()
    workers = [
        multiprocessing.Process(target=fuzz, args=(options.minutes, number, failed))
        for number in range(options.processes)
    ]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    return 0 if failed.empty() and all(worker.exitcode == 0 for worker in workers) else 1


if __name__ == "__main__":
    sys.exit(main())
