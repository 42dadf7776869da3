"""The publish and preview commands as they are typed."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.publish.conftest import entry

KEYS = {"out", "start", "entries", "left_out", "pages", "written", "unchanged", "removed", "warnings"}


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "benchlore", *arguments], capture_output=True, text=True, timeout=60, check=False
    )


def test_publish_says_what_it_did_and_where_to_look(base_with: Callable[..., Path]) -> None:
    root = base_with({"one": entry(), "broken": "format: 1\n"})
    done = run("publish", "--base", str(root))
    assert done.returncode == 0, done.stderr
    assert "pages from 1 repair: " in done.stdout
    assert f"Open {root / 'site' / 'index.html'}" in done.stdout
    assert "1 file is left out because of errors; see: benchlore lint" in done.stderr
    again = json.loads(run("publish", "--base", str(root), "--json").stdout)
    assert set(again) == KEYS
    assert (again["written"], again["left_out"], again["entries"]) == (0, 1, 1)


def test_a_folder_of_somebody_else_is_an_error_with_a_way_out(base_with: Callable[..., Path], tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("x", encoding="utf-8")
    done = run("publish", "--base", str(base_with({"one": entry()})), "--out", str(tmp_path / "mine"))
    assert done.returncode == 2
    assert "did not write" in done.stderr
    assert "--out" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="signals differ")
def test_preview_ends_cleanly_at_ctrl_c(base_with: Callable[..., Path]) -> None:
    command = [sys.executable, "-m", "benchlore", "preview", "--base", str(base_with({"one": entry()})), "--port", "0"]
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        # A run started in the background hands down an ignored Ctrl-C; the command is to have the usual one.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL) and None,
    ) as process:
        assert process.stdout is not None and process.stderr is not None
        assert process.stdout.readline().startswith("http://127.0.0.1:")
        process.send_signal(signal.SIGINT)
        try:
            assert process.wait(timeout=10) == 0
        finally:
            process.kill()
        assert "Traceback" not in process.stderr.read()


@pytest.mark.parametrize("command", ["publish", "preview"])
def test_help_has_examples(command: str) -> None:
    assert f"benchlore {command}" in run(command, "--help").stdout.split("Examples:")[1]
