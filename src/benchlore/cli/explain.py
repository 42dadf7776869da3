"""``benchlore explain``: a lint rule's page, or the list of all rules."""

from __future__ import annotations

import json

import click


def no_such_rule(text: str) -> click.UsageError:
    """The error for a rule that does not exist, with the one that was probably meant."""
    from benchlore.check.registry import BY_NAME
    from benchlore.terms.nearest import nearest

    close = nearest(text.lower(), BY_NAME, limit=1) or nearest(text.upper(), BY_NAME, limit=1)
    meant = f" Did you mean {close[0]}?" if close else ""
    return click.UsageError(f"There is no rule {text!r}.{meant} All rules: benchlore explain --list")


@click.command(
    epilog="""\b
Examples:
  benchlore explain TRM001
  benchlore explain unknown-term
  benchlore explain --list
  benchlore explain --list --json
"""
)
@click.argument("rule", required=False, metavar="[CODE|NAME]")
@click.option("--list", "as_list", is_flag=True, help="All rules, one a line.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for machines.")
def command(rule: str | None, as_list: bool, as_json: bool) -> None:
    """What a lint rule looks for, why, how it looks bad and good, and how to mend it."""
    from benchlore.check.explain import list_text, page_record, page_text
    from benchlore.check.registry import BY_NAME, RULES
    from benchlore.check.reports.visible import visible

    if as_list == (rule is not None):
        raise click.UsageError("Name one rule, such as TRM001 or unknown-term; or ask for the --list.")
    if rule is None:
        records = [page_record(each) for each in RULES]
        click.echo(json.dumps({"rules": records}, indent=2) if as_json else list_text(RULES))
        return
    found = BY_NAME.get(rule.upper()) or BY_NAME.get(rule.lower())
    if found is None:
        raise no_such_rule(rule)
    if as_json:
        click.echo(json.dumps(page_record(found), indent=2))
    else:
        click.echo("\n".join(visible(line.replace("\t", "⇥")) for line in page_text(found).splitlines()))
