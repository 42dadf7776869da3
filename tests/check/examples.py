"""Entries in a temporary base: whole, or as fragments laid over a minimal valid entry, as rules' documents show them.

An example is one or more YAML documents parted by ``---``. Comments at the top of a document steer it:

    # file: entries/<class>/<slug>.yaml   where it goes (else example-entry.yaml in the folder of its class)
    # whole                               a whole entry; else its top-level keys replace those of the minimal entry
    # another                             laid over another minimal entry, of a sewing machine
    # photo: c1.jpg                       a picture that lies beside it
"""

from __future__ import annotations

import datetime as dt
import re
from itertools import takewhile
from pathlib import Path

from benchlore.check.runner import Report, lint
from benchlore.read.base import Base

HERE = Path(__file__).parent
MINIMAL = (HERE / "minimal.yaml").read_text(encoding="utf-8")
ANOTHER = (HERE / "another.yaml").read_text(encoding="utf-8")
TODAY = dt.date(2026, 11, 1)


def new_base(folder: Path) -> Base:
    """An empty base with the shop of these tests and the vocabulary that comes with Benchlore."""
    (folder / "site_config").mkdir(parents=True, exist_ok=True)
    (folder / "site_config" / "shop.yaml").write_bytes((HERE / "shop.yaml").read_bytes())
    (folder / "entries").mkdir(exist_ok=True)
    return Base(folder)


def blocks(text: str) -> dict[str, str]:
    """The top-level keys of a YAML text, each with the lines that belong to it."""
    found: dict[str, str] = {}
    key = ""
    for line in text.splitlines(keepends=True):
        match = re.match(r"[A-Za-z_]+(?=:)", line)
        key = match[0] if match else key
        found[key] = found.get(key, "") + line
    return found


def laid_over(fragment: str, whole: str = MINIMAL) -> str:
    """``whole`` with the top-level keys of ``fragment`` in place of its own; new ones are added at the end."""
    merged = blocks(whole)
    for key, lines in blocks(fragment).items():
        merged[key] = lines if lines.endswith("\n") else lines + "\n"
    return "".join(merged.values())


def write_example(base: Base, example: str) -> None:
    """Lay down the files of an example."""
    for document in re.split(r"^---\n", example, flags=re.MULTILINE):
        lines = document.splitlines(keepends=True)
        head = [line.strip() for line in takewhile(lambda line: line.startswith("#"), lines)]
        body = "".join(lines[len(head) :])
        steer = dict(line.removeprefix("# ").partition(": ")[::2] for line in head)
        whole = body if "whole" in steer else laid_over(body, ANOTHER if "another" in steer else MINIMAL)
        kind = re.search(r"\bclass: ([a-z-]+)", whole)
        path = base.root / steer.get("file", f"entries/{kind[1] if kind else 'dehumidifier'}/example-entry.yaml")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(whole, encoding="utf-8")
        if "photo" in steer:
            (path.parent / steer["photo"]).write_bytes(b"picture")


def lint_example(folder: Path, example: str) -> Report:
    """What lint says about an example, all rules asked."""
    base = new_base(folder)
    write_example(base, example)
    return lint(base, today=TODAY)
