"""Lays down a new knowledge base: configuration, hand-written pages, the schema for editors, one example entry."""

from __future__ import annotations

import datetime as dt
import json
import re
import shutil
import tempfile
from pathlib import Path

from benchlore import data
from benchlore.errors import BenchloreError

_FILES = Path(__file__).parent / "files"
_HARMLESS = {".git", ".gitignore", ".gitattributes", "README.md", "LICENSE"}
"""What may already be there: a repository just made on a forge. Nothing of it is overwritten."""


def lay_down(target: Path, *, shop: str, author: str, currency: str, today: dt.date) -> list[Path]:
    """Writes a base into ``target`` and returns the new files, relative to it.

    Built beside the target and moved in, so that a crash leaves no half base. Raises BenchloreError when the folder
    has anything in it that could be a base or somebody's work.
    """
    if target.exists() and not target.is_dir():
        raise BenchloreError(f"{target} is a file", hint="Name a folder that does not exist yet.")
    there = {path.name for path in target.iterdir()} if target.exists() else set()
    if there - _HARMLESS:
        raise BenchloreError(
            f"{target} is not empty ({', '.join(sorted(there - _HARMLESS)[:4])} ...)",
            hint="Name a folder that does not exist yet, or an empty one.",
        )
    target.parent.mkdir(parents=True, exist_ok=True)
    values = {"shop": shop, "author": author, "currency": currency, "date": today.isoformat()}
    staging = Path(tempfile.mkdtemp(prefix=".benchlore-start-", dir=target.parent))
    try:
        _write(staging, values)
        new = sorted(path.relative_to(staging) for path in staging.rglob("*") if path.is_file())
        target.mkdir(exist_ok=True)
        for path in sorted(staging.iterdir()):
            if not (target / path.name).exists():
                path.replace(target / path.name)
        return [path for path in new if path.parts[0] not in there]
    finally:
        shutil.rmtree(staging, ignore_errors=True)


def _write(staging: Path, values: dict[str, str]) -> None:
    for source in sorted(path for path in _FILES.rglob("*") if path.is_file()):
        relative = Path(*(part.replace("dot-", ".") for part in source.relative_to(_FILES).parts))
        into = staging / relative
        into.parent.mkdir(parents=True, exist_ok=True)
        text = source.read_text(encoding="utf-8")
        for name, value in values.items():
            quoted = json.dumps(value, ensure_ascii=False) if source.suffix in {".yaml", ".yml"} else value
            text = text.replace(f"@{name}@", quoted)
        into.write_text(text, encoding="utf-8")
    _copy_shared(staging, values["shop"])


def _copy_shared(staging: Path, shop: str) -> None:
    """What a new base shares with the demo: the hand-written pages, how they are built, and the schema for editors."""
    demo, config = data.folder("site_config"), staging / "site_config"
    shutil.copytree(demo / "pages", config / "pages")
    built = (demo / "mkdocs.yml").read_text(encoding="utf-8")
    built = re.sub(r"(?m)^site_name:.*$", lambda _: f"site_name: {json.dumps(shop, ensure_ascii=False)}", built)
    (config / "mkdocs.yml").write_text(built, encoding="utf-8")
    (staging / "schema").mkdir()
    shutil.copyfile(data.folder("schema") / "fault-entry.schema.json", staging / "schema" / "fault-entry.schema.json")
