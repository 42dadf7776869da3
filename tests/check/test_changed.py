"""``lint --changed-since``: what git says has changed, and nothing that a revision could smuggle in."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from benchlore.check.changed import changed_files
from benchlore.errors import BenchloreError
from benchlore.read.base import Base
from tests.check.examples import MINIMAL, new_base

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")


def git(root: Path, *arguments: str) -> None:
    identity = ("-c", "user.name=t", "-c", "user.email=t@example.org", "-c", "commit.gpgsign=false")
    environment = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
    subprocess.run(["git", *identity, *arguments], cwd=root, check=True, capture_output=True, env=environment)


@pytest.fixture(params=["", "below"])
def base(request: pytest.FixtureRequest, tmp_path: Path) -> Base:
    """A base with three entries in a repository, at its top or in a folder of it."""
    made = new_base(tmp_path / request.param)
    folder = made.entries_folder / "dehumidifier"
    folder.mkdir()
    for name in ("one", "two", "three"):
        (folder / f"entry-{name}.yaml").write_text(MINIMAL, encoding="utf-8")
    with (folder / "entry-two.yaml").open("a", encoding="utf-8") as file:
        file.write("photos: [{file: c1.jpg, shows: fault, of: C1}]\n")
    (folder / "c1.jpg").write_bytes(b"picture")
    git(tmp_path, "init", "-q", "-b", "main")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "first")
    return made


def names(base: Base, revision: str) -> list[str]:
    return [path.name for path in changed_files(base, revision)]


def test_changed_new_and_gone(base: Base) -> None:
    folder = base.entries_folder / "dehumidifier"
    assert names(base, "HEAD") == []
    (folder / "entry-one.yaml").write_text(MINIMAL + "notes: more\n", encoding="utf-8")
    (folder / "brand new ü.yaml").write_text(MINIMAL, encoding="utf-8")
    (folder / "entry-three.yaml").unlink()
    (base.root / "README").write_text("no entry", encoding="utf-8")
    assert names(base, "HEAD") == ["brand new ü.yaml", "entry-one.yaml"]
    git(base.root, "add", ".")
    git(base.root, "commit", "-q", "-m", "second")
    assert names(base, "HEAD") == []
    assert names(base, "HEAD~1") == ["brand new ü.yaml", "entry-one.yaml"]


def test_an_entry_counts_as_changed_when_its_photo_is(base: Base) -> None:
    (base.entries_folder / "dehumidifier" / "c1.jpg").write_bytes(b"another picture")
    assert names(base, "main") == ["entry-two.yaml"]


NO_REVISIONS = ("--output=owned", "-h", "--exec=touch owned", "", "nope", "HEAD:README", "a\nb", "a b", "\0", "x" * 999)


@pytest.mark.parametrize("revision", NO_REVISIONS)
def test_what_is_no_revision_is_refused(base: Base, revision: str) -> None:
    with pytest.raises(BenchloreError, match="no git revision"):
        changed_files(base, revision)
    assert not (base.root / "owned").exists()


def test_no_program_of_the_repository_is_run(base: Base) -> None:
    path = base.entries_folder / "dehumidifier" / "entry-one.yaml"
    (base.root / ".gitattributes").write_text("*.yaml diff=own\n", encoding="utf-8")
    for key in ("diff.own.textconv", "diff.own.command", "diff.external", "core.pager", "core.fsmonitor"):
        git(base.root, "config", key, "touch owned; cat")
    path.write_text(MINIMAL + "notes: more\n", encoding="utf-8")
    assert names(base, "HEAD") == ["entry-one.yaml"]
    assert not (base.root / "owned").exists()


def test_outside_a_repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    with pytest.raises(BenchloreError, match="no git repository"):
        changed_files(new_base(tmp_path), "HEAD")


def test_without_git(base: Base, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    with pytest.raises(BenchloreError, match="not installed"):
        changed_files(base, "HEAD")
