"""Mends the files of a base: finds what can be mended, and writes it back without touching anything else."""

from __future__ import annotations

import datetime as dt
import os
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import unified_diff
from pathlib import Path

from benchlore.check.finding import Finding
from benchlore.check.mends.mender import Done, Mender
from benchlore.check.one_file import source_of
from benchlore.check.registry import BY_NAME, RULES
from benchlore.check.rule import CollectionRule, Rule
from benchlore.check.runner import lint, targets_of
from benchlore.errors import BenchloreError
from benchlore.read.base import Base

_BOM = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True)
class MendedFile:
    """One file that mending changes. ``move_to`` is where it goes, from the base's root; None when it stays."""

    path: Path
    file: str
    before: str
    after: str
    done: tuple[Done, ...]
    move_to: str | None = None

    def diff(self) -> str:
        """What changes, as a unified diff."""
        to = self.move_to or self.file
        lines = unified_diff(
            self.before.split("\n"), self.after.split("\n"), f"a/{self.file}", f"b/{to}", lineterm="", n=2
        )
        said = [line.rstrip("\r") for line in lines]
        if self.move_to:
            said = [f"rename from {self.file}", f"rename to {self.move_to}", *said]
        return "\n".join(said)


def mend(
    base: Base,
    paths: Iterable[Path] | None = None,
    *,
    rules: Sequence[type[Rule]] = RULES,
    today: dt.date | None = None,
    boldly: bool = False,
    dry_run: bool = False,
    cache: Path | None = None,
    processes: int = 1,
) -> list[MendedFile]:
    """Mend ``paths`` (everything when left out) by ``rules``; what a person has to decide stays as it is.

    ``boldly`` also does what is likely but not certain. With ``dry_run`` nothing is written. Raises
    :class:`BenchloreError` when a file cannot be written, or was changed by somebody else meanwhile.
    """
    today = today or dt.date.today()
    everything = base.entry_paths()
    targets = everything if paths is None else list(targets_of(base, paths, everything))
    report = lint(base, targets, rules=rules, today=today, cache=cache, processes=processes)
    found: dict[str, list[Finding]] = {}
    for finding in report.findings:
        found.setdefault(finding.file, []).append(finding)
    mender = Mender(base, rules, today, boldly=boldly)
    mended = []
    for path in targets:
        source, in_base = source_of(base, path)
        findings = found.get(source.rel, [])
        if not findings or source.text is None or path.is_symlink():
            continue
        together = [finding for finding in findings if issubclass(BY_NAME[finding.code], CollectionRule)]
        result = mender.mend(source, in_base, together)
        move_to = result.move_to if result.move_to and not (base.root / result.move_to).exists() else None
        if result.text == source.text and not move_to:
            continue
        mended.append(MendedFile(path, source.rel, source.text, result.text, tuple(result.done), move_to))
    for file in mended if not dry_run else ():
        _write(base, file)
    return mended


def _write(base: Base, file: MendedFile) -> None:
    """Puts the new text in place in one step; keeps a byte-order mark and the file's mode."""
    try:
        bytes_now = file.path.read_bytes()
        mark = _BOM if bytes_now.startswith(_BOM) else b""
        if bytes_now.removeprefix(_BOM) != file.before.encode("utf-8"):
            raise BenchloreError(f"{file.file} was changed meanwhile", hint="Run it again.")
        if file.after != file.before:
            _replace(file.path, mark + file.after.encode("utf-8"))
        if file.move_to:
            to = base.root / file.move_to
            to.parent.mkdir(parents=True, exist_ok=True)
            os.link(file.path, to)  # fails when somebody else has put a file there
            file.path.unlink()
    except OSError as error:
        raise BenchloreError(f"{file.file} cannot be written: {error.strerror or error}") from None


def _replace(path: Path, content: bytes) -> None:
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".new")
    try:
        with os.fdopen(handle, "wb") as new:
            new.write(content)
            new.flush()
            os.fsync(new.fileno())
        Path(temporary).chmod(path.stat().st_mode & 0o7777)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
