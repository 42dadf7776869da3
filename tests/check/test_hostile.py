"""Every hostile kind gets its finding with a place, soon and in little memory, and the other files are still linted.

Each runs ``benchlore lint`` as a process of its own, whose memory is limited by the system and whose time is measured.
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.check.examples import laid_over, new_base
from tests.check.hostile import FOLDER, GOOD, KINDS

SECONDS = 2.0
"""Of processor time, so that a busy machine does not fail the test; a run that hangs is stopped after a minute."""
MEGABYTES = 300


def _limited() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (2 * 1024 * MEGABYTES * 1024,) * 2)
    resource.setrlimit(resource.RLIMIT_CPU, (20, 20))


PROGRAM = """
import resource, sys
from benchlore.cli import group
try:
    group(standalone_mode=False)
finally:
    used = resource.getrusage(resource.RUSAGE_SELF)
    print(used.ru_maxrss // 1024, used.ru_utime + used.ru_stime, file=sys.stderr)
"""


def run(root: Path, *arguments: str) -> tuple[str, float, float]:
    """What lint printed, the megabytes it took at most, and its seconds of processor time."""
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, "lint", "--base", str(root), "--no-cache", *arguments],
        capture_output=True, timeout=60, preexec_fn=_limited, check=False,
        env={**os.environ, "PYTHONUTF8": "1"},
    )  # fmt: skip
    said = done.stderr.decode("utf-8", "replace")
    assert "Traceback" not in said, said
    assert "itself failed" not in said, said
    megabytes, seconds = map(float, said.splitlines()[-1].split())
    return done.stdout.decode("utf-8"), megabytes, seconds


@pytest.fixture(scope="module")
def at_rest(tmp_path_factory: pytest.TempPathFactory) -> float:
    """Seconds of processor time that lint takes for one harmless entry: start, imports, vocabulary."""
    base = new_base(tmp_path_factory.mktemp("rest"))
    (base.root / FOLDER).mkdir()
    (base.root / GOOD).write_text(laid_over("hazards: [nonsense, mains]\n"), encoding="utf-8")
    return run(base.root, "--json")[2]


@pytest.mark.parametrize("kind", KINDS)
def test_a_hostile_file(kind: str, tmp_path: Path, at_rest: float) -> None:
    make, rule = KINDS[kind]
    base = new_base(tmp_path / "base")
    (base.root / FOLDER).mkdir()
    (base.root / GOOD).write_text(laid_over("hazards: [nonsense, mains]\n"), encoding="utf-8")
    (tmp_path / "secret.yaml").write_text("secret: kept\n", encoding="utf-8")
    make(base.root)
    start = time.monotonic()
    printed, megabytes, seconds = run(base.root, "--json")
    assert seconds - at_rest < SECONDS, f"{seconds:.2f} s of processor time, {time.monotonic() - start:.2f} s"
    assert megabytes < MEGABYTES
    report = json.loads(printed)
    assert not report["tool_failed"], printed[:2000]
    assert "secret: kept" not in printed
    assert any(f["file"] == GOOD and f["name"] == "unknown-term" for f in report["findings"])
    about = [finding for finding in report["findings"] if finding["file"] != GOOD]
    if rule is not None:
        assert rule in {finding["name"] for finding in about}, about[:5]
    for finding in about:
        assert finding["line"] >= 1
        assert finding["column"] >= 1


def test_a_link_up_and_out_is_refused_and_what_it_leads_to_is_not_told(tmp_path: Path) -> None:
    base = new_base(tmp_path / "base")
    (base.root / FOLDER).mkdir()
    (tmp_path / "secret.yaml").write_text("secret: kept\n", encoding="utf-8")
    KINDS["link up and out"][0](base.root)
    printed, *_ = run(base.root)
    assert "kept" not in printed
    assert "link-outside" in printed


@pytest.mark.parametrize("form", ["text", "markdown", "sarif", "workflow-commands", "code-quality"])
def test_every_report_of_hostile_names_and_texts_is_harmless(form: str, tmp_path: Path) -> None:
    base = new_base(tmp_path / "base")
    (base.root / FOLDER).mkdir()
    for kind in ("name with an escape", "name with a line break", "terminal escape", "script in the notes"):
        KINDS[kind][0](base.root)
    printed, *_ = run(base.root, "--format", form)
    assert "\x1b" not in printed
    assert "\n::error::b" not in printed
    if form == "markdown":
        assert "<script" not in printed
