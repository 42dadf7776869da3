"""``start``: a new base that lints clean and publishes, from every way of installing Benchlore."""

from __future__ import annotations

import json
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

from tests.acceptance.command import REPOSITORY, run


def _lints_and_publishes(base: Path, python: str = sys.executable) -> None:
    lint = run("lint", cwd=base, python=python)
    assert lint.code == 0, lint.out + lint.err
    assert "nothing found" in lint.out.lower()
    published = run("publish", cwd=base, python=python)
    assert published.code == 0, published.err
    assert (base / "site" / "index.html").is_file()
    assert (base / "site" / "e" / "example-cuts-out-hot.html").is_file()
    assert (base / "site" / "about.html").is_file()


def test_a_new_base_lints_clean_and_publishes(tmp_path: Path) -> None:
    started = run("start", "my-shop", "--name", 'The "Corner" workshop: tools', "--author", "sam-b", cwd=tmp_path)
    assert started.code == 0, started.err
    _lints_and_publishes(tmp_path / "my-shop")
    assert "The &#34;Corner&#34; workshop" in (tmp_path / "my-shop/site/index.html").read_text(encoding="utf-8")


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "work.txt").write_text("mine")
    refused = run("start", "mine", cwd=tmp_path)
    assert refused.code == 2
    assert "not empty" in refused.err
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["work.txt"]


def test_a_fresh_repository_may_be_there(tmp_path: Path) -> None:
    subprocess.run(["git", "init", "-q", "shop"], cwd=tmp_path, check=True)
    (tmp_path / "shop" / "README.md").write_text("our own\n")
    started = run("start", "shop", "--json", cwd=tmp_path)
    assert started.code == 0, started.err
    assert "entries/wet-and-dry-vacuum/example-cuts-out-hot.yaml" in json.loads(started.out)["files"]
    assert (tmp_path / "shop" / "README.md").read_text() == "our own\n"


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The wheel and the sdist of this checkout."""
    out = tmp_path_factory.mktemp("dist")
    subprocess.run(
        [sys.executable, "-m", "build", "--outdir", str(out), str(REPOSITORY)], check=True, capture_output=True
    )
    return {"wheel": next(out.glob("*.whl")), "sdist": next(out.glob("*.tar.gz"))}


@pytest.mark.parametrize("kind", ["wheel", "sdist", "editable"])
def test_from_every_way_of_installing(kind: str, built: dict[str, Path], tmp_path: Path) -> None:
    """The wheel goes into an empty environment with all it asks for; the others borrow the dependencies from here."""
    venv = tmp_path / "venv"
    subprocess.run([sys.executable, "-m", "venv", str(venv)], check=True)
    python = str(venv / ("Scripts" if sys.platform == "win32" else "bin") / "python")
    pip = [python, "-m", "pip", "install", "-q", "--disable-pip-version-check"]
    if kind == "wheel":
        subprocess.run([*pip, str(built["wheel"])], check=True)
    else:
        site_packages = subprocess.run(
            [python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
            check=True, capture_output=True, text=True,
        ).stdout.strip()
        Path(site_packages, "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n")
        source = ["-e", str(REPOSITORY)] if kind == "editable" else [str(built["sdist"])]
        subprocess.run([*pip, "--no-deps", *source], check=True)
    started = run("start", "my-shop", cwd=tmp_path, python=python)
    assert started.code == 0, started.err
    _lints_and_publishes(tmp_path / "my-shop", python)
