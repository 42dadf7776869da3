"""``benchlore lint``: check entries by the rules, say what, where and how to mend, and mend what has one answer."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.check.mends.run import MendedFile
    from benchlore.check.rule import Rule
    from benchlore.read.base import Base

FORMATS = ("text", "json", "markdown", "sarif", "workflow-commands", "code-quality")
"""Names of the reports; each has its file in ``check/reports``."""


@click.command(
    epilog="""\b
Examples:
  benchlore lint                                        every entry of the base
  benchlore lint entries/dehumidifier                   those in a folder
  benchlore lint draft.yaml                             a draft anywhere, against this base
  benchlore lint --changed-since main                   what a branch has changed
  benchlore lint --mend --dry-run                       show what would be mended
  benchlore lint --mend                                 mend what has one right answer
  benchlore lint --strict --format sarif > lint.sarif
  benchlore lint --select unknown-term --select SAF     one rule, and a family of rules
  benchlore lint --ignore no-proof

\b
Exit codes: 0 nothing but notes, 1 errors or warnings (--strict: notes too), 2 Benchlore itself failed.
With --mend they tell what is left; with --dry-run, 1 also says that something would be mended.
More about a rule: benchlore explain CODE
"""
)
@click.argument("paths", nargs=-1, metavar="[PATH]...", type=click.Path(path_type=Path))
@base_option
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True)
@click.option("--json", "as_json", is_flag=True, help="The same as --format json.")
@click.option("--strict", is_flag=True, help="Notes count as findings for the exit code.")
@click.option("--select", multiple=True, metavar="RULE", help="Only this rule or family: code, name or three letters.")
@click.option("--ignore", multiple=True, metavar="RULE", help="All but this rule or family.")
@click.option("--changed-since", metavar="REV", help="Only files that differ from this git revision, new ones too.")
@click.option("--mend", is_flag=True, help="Mend what has one right answer; comments and the rest stay as they are.")
@click.option("--mend-all", is_flag=True, help="Mend what has a likely answer too, and move files to their place.")
@click.option("--dry-run", is_flag=True, help="With --mend: show the changes as a diff, write nothing.")
@click.option("--processes", type=click.IntRange(1, 64), help="Processes to check with; all processors by default.")
@click.option("--no-cache", is_flag=True, help="Check everything anew, and keep nothing for the next time.")
@click.pass_context
def command(
    ctx: click.Context,
    base: Base,
    paths: tuple[Path, ...],
    form: str,
    as_json: bool,
    strict: bool,
    select: tuple[str, ...],
    ignore: tuple[str, ...],
    changed_since: str | None,
    mend: bool,
    mend_all: bool,
    dry_run: bool,
    processes: int | None,
    no_cache: bool,
) -> None:
    """Check entries: every problem with its file, line and column, and how to mend it.

    PATH is an entry or a folder; everything in the base when left out. Rules that compare entries always look at the
    whole base, but only findings in PATH are shown.
    """
    from benchlore.check.registry import RULES
    from benchlore.check.reports import render
    from benchlore.check.runner import lint, targets_of

    if dry_run and not (mend or mend_all):
        raise click.UsageError("--dry-run goes with --mend or --mend-all.")
    chosen = {rule for name in select for rule in _rules_named(name)} if select else set(RULES)
    chosen -= {rule for name in ignore for rule in _rules_named(name)}
    rules = [rule for rule in RULES if rule in chosen]
    wanted: list[Path] | None = list(paths) or None
    if changed_since is not None:
        from benchlore.check.changed import changed_files

        changed = changed_files(base, changed_since)
        wanted = changed if wanted is None else list(targets_of(base, wanted, base.entry_paths()))
        wanted = [path for path in wanted if path in set(changed)]
    processes, cache = processes or os.cpu_count() or 1, None if no_cache else _cache()
    mended: list[MendedFile] = []
    if mend or mend_all:
        from benchlore.check.mends.run import mend as mend_files

        wanted = None if wanted is None else list(targets_of(base, wanted, base.entry_paths()))
        mended = mend_files(
            base, wanted, rules=rules, boldly=mend_all, dry_run=dry_run, cache=cache, processes=processes
        )
        if not dry_run and wanted is not None:
            moved = {file.path: base.root / file.move_to for file in mended if file.move_to}
            wanted = [moved.get(path, path) for path in wanted]
    report = lint(base, wanted, rules=rules, strict=strict, cache=cache, processes=processes)
    form = "json" if as_json else form
    if mended and form == "text":
        click.echo(_told(mended, dry_run=dry_run))
    click.echo(render(form, report))
    ctx.exit(max(report.exit_code, 1) if mended and dry_run else report.exit_code)


def _told(mended: list[MendedFile], *, dry_run: bool) -> str:
    """What was mended, a line each; the diff instead when nothing was written."""
    from benchlore.check.reports.visible import visible

    lines = []
    for file in mended:
        if dry_run:
            lines += [visible(line) for line in file.diff().split("\n")]
            continue
        for done in file.done:
            lines.append(f"{visible(file.file)}:{done.line}: mended {done.code} {done.name}: {visible(done.said)}")
        if file.move_to:
            lines.append(f"{visible(file.file)}: moved to {file.move_to}")
    return "\n".join([*lines, ""])


def _cache() -> Path:
    import platformdirs

    return platformdirs.user_cache_path("benchlore")


def _rules_named(text: str) -> list[type[Rule]]:
    from benchlore.check.registry import BY_NAME, RULES
    from benchlore.cli.explain import no_such_rule

    rule = BY_NAME.get(text.lower()) or BY_NAME.get(text.upper())
    found = [rule] if rule else [rule for rule in RULES if rule.code[:3] == text.upper()]
    if not found:
        raise no_such_rule(text)
    return found
