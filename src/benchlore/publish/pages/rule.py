"""The lint rules: the list by family, and a page for each, from the rules' own documentation."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchlore.check.registry import RULES
from benchlore.check.rule import Rule
from benchlore.publish.page import Page
from benchlore.publish.site_data import SiteData
from benchlore.publish.urls import RULES as RULES_URL
from benchlore.publish.urls import address

SEVERITIES = {
    "error": "error: wrong, or dangerous for who follows it",
    "warning": "warning: probably wrong, or something important is missing",
    "note": "note: a matter of style",
}


@dataclass(frozen=True, slots=True)
class RuleLine:
    """A rule in the list."""

    code: str
    name: str
    title: str
    severity: str
    url: str


def pages(site: SiteData) -> Iterator[Page]:
    """The list of rules and the page of each."""
    rules = sorted(RULES, key=lambda rule: rule.code)
    families: dict[str, list[RuleLine]] = {}
    for rule in rules:
        line = RuleLine(rule.code, rule.name, rule.page().title.rstrip("."), rule.severity, _url(rule))
        families.setdefault(rule.code[:3], []).append(line)
    yield Page(
        url=RULES_URL,
        title="Lint rules",
        template="rules.html",
        data={"families": tuple((family, tuple(lines)) for family, lines in sorted(families.items()))},
        description="What is checked in every entry, why, and how to mend it.",
        section=RULES_URL,
    )
    for rule in rules:
        yield _rule_page(rule)


def _url(rule: type[Rule]) -> str:
    return f"r/{address(rule.code)}.html"


def _rule_page(rule: type[Rule]) -> Page:
    page = rule.page()
    return Page(
        url=_url(rule),
        title=f"{rule.code} {rule.name}",
        template="rule.html",
        data={
            "code": rule.code,
            "name": rule.name,
            "rule_title": page.title.rstrip("."),
            "severity": SEVERITIES[rule.severity],
            "scope": "one entry by itself" if rule.scope == "entry" else "all entries together",
            "sections": page.sections,
            "as_code": rule.shown_by_files,
            "ignorable": rule.ignorable,
        },
        description=page.title,
        section=RULES_URL,
    )
