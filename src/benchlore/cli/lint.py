"""``benchlore lint``: check entries by the rules, and say what, where and how to mend."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from benchlore.cli.base_option import base_option

if TYPE_CHECKING:
    from benchlore.check.rule import Rule
    from benchlore.read.base import Base


@click.command(
    epilog="""\b
Examples:
  benchlore lint                                        every entry of the base
  benchlore lint entries/dehumidifier                   those in a folder
  benchlore lint draft.yaml                             a draft anywhere, against this base
  benchlore lint --strict --format json > findings.json
  benchlore lint --select unknown-term --select SAF     one rule, and a family of rules
  benchlore lint --ignore no-proof

\b
Exit codes: 0 nothing but notes, 1 errors or warnings (--strict: notes too), 2 Benchlore itself failed.
More about a rule: benchlore explain CODE
"""
)
@click.argument("paths", nargs=-1, metavar="[PATH]...", type=click.Path(path_type=Path))
@base_option
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--json", "as_json", is_flag=True, help="The same as --format json.")
@click.option("--strict", is_flag=True, help="Notes count as findings for the exit code.")
@click.option("--select", multiple=True, metavar="RULE", help="Only this rule or family: code, name or three letters.")
@click.option("--ignore", multiple=True, metavar="RULE", help="All but this rule or family.")
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
) -> None:
    """Check entries: every problem with its file, line and column, and how to mend it.

    PATH is an entry or a folder; everything in the base when left out. Rules that compare entries always look at the
    whole base, but only findings in PATH are shown.
    """
    from benchlore.check.registry import RULES
    from benchlore.check.reports import json as json_report
    from benchlore.check.reports import text as text_report
    from benchlore.check.runner import lint

    chosen = {rule for name in select for rule in _rules_named(name)} if select else set(RULES)
    chosen -= {rule for name in ignore for rule in _rules_named(name)}
    rules = [rule for rule in RULES if rule in chosen]
    report = lint(base, paths or None, rules=rules, strict=strict)
    click.echo((json_report if as_json or form == "json" else text_report).render(report))
    ctx.exit(report.exit_code)


def _rules_named(text: str) -> list[type[Rule]]:
    from benchlore.check.registry import BY_NAME, RULES
    from benchlore.cli.explain import no_such_rule

    rule = BY_NAME.get(text.lower()) or BY_NAME.get(text.upper())
    found = [rule] if rule else [rule for rule in RULES if rule.code[:3] == text.upper()]
    if not found:
        raise no_such_rule(text)
    return found
