"""The command line as a whole: help, exit codes, machine output, and errors that are no tracebacks."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchlore.cli import COMMANDS
from tests.acceptance.command import REPOSITORY, run

SAMPLE = REPOSITORY / "tests" / "sample_base"


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_with_examples(name: str) -> None:
    shown = run(name, "--help")
    assert shown.code == 0
    assert "Examples:" in shown.out
    assert f"benchlore {name}" in shown.out.split("Examples:")[1]


def test_an_unknown_command_is_met_with_a_guess() -> None:
    ran = run("serach", "hum")
    assert ran.code == 2
    assert "'search'" in ran.err


@pytest.mark.parametrize("words", [["lint"], ["search", "hum"], ["publish"]])
def test_outside_a_base_it_says_how_to_get_one(words: list[str], tmp_path: Path) -> None:
    ran = run(*words, cwd=tmp_path)
    assert ran.code == 2
    assert "benchlore start" in ran.err
    assert "Traceback" not in ran.err


def test_search_answers_machines(tmp_path: Path) -> None:
    ran = run("search", "bwc02", "--json", "--base", str(REPOSITORY), cache=tmp_path)
    assert ran.code == 0, ran.err
    answer = json.loads(ran.out)
    assert {"total", "hits", "facets"} <= set(answer)
    assert {"id", "title", "score", "reasons"} <= set(answer["hits"][0])
    assert answer["total"] >= len(answer["hits"]) >= 3


@pytest.mark.parametrize(
    ("words", "first"),
    [
        (["relay", "chatters", "display", "dim"], "bw-12-relay-chatters"),
        (["hums", "on", "anything", "above", "2", "A"], "hg-3005-hums-under-load"),
        (["dead", "after", "thunderstorm"], "bw-16-dead-after-storm"),
        (["472k"], "fc-12-no-lamp"),
        (["0.472", "Mohm"], "fc-12-no-lamp"),
        (["472000", "ohm"], "fc-12-no-lamp"),
    ],
)
def test_the_right_entry_comes_first(words: list[str], first: str, tmp_path: Path) -> None:
    ran = run("search", *words, "--json", cache=tmp_path)
    assert ran.code == 0, ran.err
    assert json.loads(ran.out)["hits"][0]["id"] == first


def test_the_start_of_a_part_number_finds_whoever_fitted_it(tmp_path: Path) -> None:
    ran = run("search", "2N30", "--json", cache=tmp_path)
    assert ran.code == 0, ran.err
    hits = json.loads(ran.out)["hits"]
    assert hits
    assert all("2N3055" in (REPOSITORY / hit["file"]).read_text() for hit in hits)


def test_lint_tells_machines_and_exits_with_one(tmp_path: Path) -> None:
    base = tmp_path / "base"
    assert run("start", str(base), cwd=tmp_path).code == 0
    entry = base / "entries" / "wet-and-dry-vacuum" / "example-cuts-out-hot.yaml"
    entry.write_text(entry.read_text().replace("cuts-out-hot, said", "cuts-out-hto, said"))
    ran = run("lint", "--json", cwd=base)
    assert ran.code == 1
    (finding,) = json.loads(ran.out)["findings"]
    assert {"code", "name", "severity", "file", "line", "column", "message", "hint"} <= set(finding)
    line = entry.read_text().splitlines()[finding["line"] - 1]
    assert line[finding["column"] - 1 :].startswith("cuts-out-hto")
    assert "cuts-out-hot" in finding["message"] + finding["hint"]


def test_try_does_everything_on_a_copy(tmp_path: Path) -> None:
    """In a folder that is no base, it tries the demo base and puts the site there."""
    ran = run("try", cwd=tmp_path, cache=tmp_path / "cache")
    assert ran.code == 0, ran.out + ran.err
    last = ran.out.strip().splitlines()[-1].strip()
    assert last == str(tmp_path.resolve() / "site" / "index.html")
    assert Path(last).is_file()


def test_try_overwrites_nobody_elses_folder(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("mine")
    ran = run("try", cwd=tmp_path, cache=tmp_path / "cache")
    assert ran.code == 2
    assert (tmp_path / "site" / "index.html").read_text() == "mine"
    assert "Traceback" not in ran.err
