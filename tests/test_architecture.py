"""The rooms of the package and the one direction in which they may import each other."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "src" / "benchlore"

MAY_IMPORT = {
    "cli": {
        "publish", "write_up", "index", "answer", "check", "read", "terms", "quantity", "starter", "data", "errors",
    },
    "publish": {"index", "answer", "check", "read", "terms", "quantity", "data", "errors"},
    "write_up": {"index", "answer", "check", "read", "terms", "quantity", "data", "errors"},
    "starter": {"read", "data", "errors"},
    "index": {"read", "terms", "quantity", "data", "errors"},
    "answer": {"read", "terms", "quantity", "errors"},
    "check": {"answer", "read", "terms", "quantity", "data", "errors"},
    "read": {"terms", "quantity", "data", "errors"},
    "terms": {"data", "errors"},
    "quantity": {"data", "errors"},
    "data": set(),
    "errors": set(),
}
ONLY_IN = {
    "mkdocs": "publish/mkdocs_plugin.py",
    "whoosh": "index/whoosh_store.py",
}


def modules() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        yield path.relative_to(PACKAGE).as_posix(), ast.parse(path.read_text(encoding="utf-8"))


def imported(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute"
            yield node.module or ""
            if node.module == "benchlore":
                yield from (f"benchlore.{alias.name}" for alias in node.names)


def test_imports_run_one_way() -> None:
    wrong = []
    for name, tree in modules():
        room = name.split("/")[0].removesuffix(".py")
        if room in {"__init__", "__main__"}:
            continue
        for target in imported(tree):
            parts = target.split(".")
            if parts[0] == "benchlore" and len(parts) > 1 and parts[1] != room and parts[1] not in MAY_IMPORT[room]:
                wrong.append(f"{name} imports {target}")
    assert wrong == []


@pytest.mark.parametrize(("library", "home"), ONLY_IN.items())
def test_a_library_that_may_be_replaced_is_imported_in_one_place(library: str, home: str) -> None:
    users = {name for name, tree in modules() if any(t.split(".")[0] == library for t in imported(tree))}
    assert users == {home}


def test_click_stays_in_the_command_line() -> None:
    users = {name for name, tree in modules() if any(t.split(".")[0] == "click" for t in imported(tree))}
    assert users
    assert all(name.startswith("cli/") for name in users)


def test_every_module_says_its_job() -> None:
    silent = [name for name, tree in modules() if not ast.get_docstring(tree)]
    assert silent == []


def test_no_drawer_for_everything() -> None:
    names = {name.rsplit("/", 1)[-1] for name, _ in modules()}
    assert not names & {"utils.py", "util.py", "helpers.py", "misc.py", "common.py"}
