"""A rule's page as text, and the list of all rules: what ``benchlore explain`` shows."""

from __future__ import annotations

from collections.abc import Iterable

from benchlore.check.finding import SEVERITIES
from benchlore.check.rule import HEADINGS, Rule


def page_text(rule: type[Rule]) -> str:
    """The rule's page for a terminal."""
    page = rule.page()
    scope = "looks at one entry" if rule.scope == "entry" else "looks at all entries together"
    lines = [f"{rule.code} {rule.name}: {page.title}", f"{rule.severity}; {scope}", ""]
    for heading in HEADINGS:
        lines += [heading, *(f"    {line}".rstrip() for line in page.sections[heading].splitlines()), ""]
    lines.append(
        f"To keep an entry as it is, write in it: lint_ignore: [{{rule: {rule.name}, reason: ...}}]"
        if rule.ignorable
        else "This rule cannot be ignored."
    )
    if rule.may_mend():
        lines.append("benchlore lint --mend mends it where only one thing can have been meant.")
    return "\n".join(lines)


def page_record(rule: type[Rule]) -> dict[str, object]:
    """The rule's page as plain data, for ``--json``."""
    page = rule.page()
    return {
        "code": rule.code,
        "name": rule.name,
        "severity": rule.severity,
        "scope": rule.scope,
        "ignorable": rule.ignorable,
        "may_mend": rule.may_mend(),
        "title": page.title,
        **{heading.lower().replace(" ", "_"): page.sections[heading] for heading in HEADINGS},
    }


def list_text(rules: Iterable[type[Rule]]) -> str:
    """One line for each rule, by code."""
    rules = sorted(rules, key=lambda rule: rule.code)
    widths = max(len(rule.name) for rule in rules), max(map(len, SEVERITIES))
    return "\n".join(
        f"{rule.code}  {rule.name:<{widths[0]}}  {rule.severity:<{widths[1]}}  {rule.page().title}" for rule in rules
    )
