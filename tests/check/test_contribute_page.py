"""The contributor's page shows what really happens: its example is linted, mended and answered as it says."""

from __future__ import annotations

import re
from pathlib import Path

import yaml
from click.testing import CliRunner

from benchlore.check.runner import lint
from benchlore.cli.lint import command
from benchlore.read.base import Base
from tests.check.examples import TODAY, new_base

REPOSITORY = Path(__file__).parents[2]
PAGE = (REPOSITORY / "site_config" / "pages" / "contribute.md").read_text(encoding="utf-8")
NAME = "entries/dehumidifier/bw-16-fan-stops.yaml"


def blocks(kind: str) -> list[str]:
    return re.findall(rf"```{kind}\n(.*?)```", PAGE, flags=re.DOTALL)


def test_the_walk_through_a_failed_check(tmp_path: Path) -> None:
    base = new_base(tmp_path)
    path = base.root / NAME
    path.parent.mkdir()
    entry, answer = blocks("yaml")[:2]
    first, mended, left = blocks("text")
    path.write_text(entry, encoding="utf-8")
    options = ["--base", str(tmp_path), "--no-cache"]
    assert first.strip() in CliRunner().invoke(command, options).output
    output = CliRunner().invoke(command, [*options, "--mend"]).output
    assert mended.strip() in output
    assert left.strip() in output
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    assert sum(line.startswith("root_cause:") for line in lines) == 1
    path.write_text("".join(answer if line.startswith("root_cause:") else line for line in lines), encoding="utf-8")
    assert [f.name for f in lint(Base(tmp_path), today=TODAY).findings if f.severity != "note"] == []


def test_every_command_and_hook_named_is_there() -> None:
    hooks = {hook["id"]: hook for hook in yaml.safe_load((REPOSITORY / ".pre-commit-hooks.yaml").read_text())}
    assert "benchlore-lint" in hooks
    assert re.search(hooks["benchlore-lint"]["files"], NAME)
    assert not re.search(hooks["benchlore-lint"]["files"], "schema/vocabulary/symptoms/noise.yaml")
    known = {option for parameter in command.params for option in parameter.opts}
    for hook in hooks.values():
        assert set(re.findall(r"--[\w-]+", hook["entry"])) <= known
    assert set(re.findall(r"--[a-z][\w-]+", PAGE)) <= known
