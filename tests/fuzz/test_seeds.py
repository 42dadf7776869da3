"""What the fuzzer found once holds now; and the fuzzer itself runs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fuzz.lint_fuzz import Trial, corpus, fuzz, seeds


@pytest.mark.parametrize("path", seeds(), ids=lambda path: path.stem)
def test_a_text_that_failed_once(path: Path, tmp_path: Path) -> None:
    Trial(tmp_path).run(path.read_bytes())


def test_the_corpus_starts_from_what_is_here() -> None:
    assert len(corpus()) > 100


def test_a_short_run(capsys: pytest.CaptureFixture[str]) -> None:
    assert fuzz(0.01, 0) > 0
    assert "kept" not in capsys.readouterr().out
