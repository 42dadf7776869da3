"""The README's examples: every ``$ benchlore ...`` in a console block is run, and what it printed stands below it.

``python -m tests.documents.readme`` writes the output anew.
"""

from __future__ import annotations

import re
import shlex
import shutil
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from tests.acceptance.command import REPOSITORY, run

README = REPOSITORY / "README.md"
_BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)


@dataclass(frozen=True)
class Example:
    """A command with the lines that the README shows of its output; ``first`` cuts a long output short."""

    command: str
    shown: str
    first: int | None


def examples(text: str) -> list[Example]:
    """The commands of all console blocks, in order."""
    found = []
    for block in _BLOCK.findall(text):
        for chunk in re.split(r"(?m)^(?=\$ )", block):
            if not chunk.startswith("$ "):
                continue
            command, _, shown = chunk.partition("\n")
            command, _, remark = command.partition("   # ")
            cut = re.fullmatch(r"first (\d+) lines", remark.strip())
            found.append(Example(command[2:].strip(), shown.rstrip("\n"), int(cut[1]) if cut else None))
    return found


def scratch_base(folder: Path) -> Path:
    """A copy of the demo base to run the examples in, so that they write nothing here."""
    for name in ("entries", "site_config", "schema"):
        shutil.copytree(REPOSITORY / name, folder / name)
    return folder


def output_of(example: Example, cwd: Path) -> str:
    """What the command prints on its standard output, with what differs from run to run taken out."""
    words = shlex.split(example.command)
    assert words[0] == "benchlore", example.command
    ran = run(*words[1:], cwd=cwd, cache=cwd / ".cache")
    assert ran.code in (0, 1), ran.err
    text = ran.out.replace(str(cwd), "…").replace("\u00a0", " ").replace("\u202f", " ")
    text = re.sub(r"\b\d+\.\d s\b", "0.0 s", text)
    lines = [line.rstrip() for line in text.rstrip("\n").split("\n")]
    if example.first and len(lines) > example.first:
        lines = [*lines[: example.first], "..."]
    return "\n".join(lines)


def refreshed(text: str, cwd: Path) -> str:
    """The README with the output of every command as it is now."""

    def block(match: re.Match[str]) -> str:
        parts = []
        for example in examples(match[0]):
            remark = f"   # first {example.first} lines" if example.first else ""
            output = output_of(example, cwd)
            parts.append(f"$ {example.command}{remark}\n" + (output + "\n" if output else ""))
        return "```console\n" + "\n".join(parts) + "```"

    return _BLOCK.sub(block, text)


def main() -> int:
    """Write the README anew."""
    with tempfile.TemporaryDirectory() as folder:
        README.write_text(refreshed(README.read_text(encoding="utf-8"), scratch_base(Path(folder).resolve())), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
