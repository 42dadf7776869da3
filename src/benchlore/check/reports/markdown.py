"""Findings as a Markdown summary: for the page of a build, or a comment on a change."""

from __future__ import annotations

from itertools import groupby

from benchlore.check.finding import SEVERITIES, Finding
from benchlore.check.reports.visible import visible
from benchlore.check.runner import Report

_MOST = 200
"""Findings listed; build pages have a limit of size."""
_SIGNS = frozenset("\\`*_{}[]<>()#+-.!|~&@:/")


def render(report: Report) -> str:
    """A line of counts, then the findings file by file, errors first within each."""
    counts = [f"{n} {severity}{'s'[: n != 1]}" for severity in SEVERITIES if (n := report.count(severity))]
    files = f"{report.files_checked} file{'s'[: report.files_checked != 1]}"
    lines = [f"### Lint: {', '.join(counts) or 'nothing found'}", "", f"{files} checked.", ""]
    if report.tool_failed:
        lines += ["Benchlore itself failed on the way; the entries are not at fault for that.", ""]
    for file, group in groupby(report.findings[:_MOST], key=lambda finding: finding.file):
        lines += [f"**{_plain(file)}**", ""]
        lines += [_item(f) for f in sorted(group, key=lambda finding: SEVERITIES.index(finding.severity))]
        lines.append("")
    if len(report.findings) > _MOST:
        lines += [f"… and {len(report.findings) - _MOST} more.", ""]
    return "\n".join(lines).rstrip("\n")


def _item(finding: Finding) -> str:
    said = " ".join(filter(None, (f"{finding.message}.", *finding.hint.splitlines())))
    return f"- line {finding.line}: **{finding.severity}** {finding.code} {finding.name}: {_plain(said)}"


def _plain(text: str) -> str:
    """``text`` from an entry so that Markdown shows it letter by letter: no markup, no link, no mention."""
    return "".join(f"&#{ord(c)};" if c in _SIGNS and c not in ".-():/" else c for c in _unlinked(visible(text)))


def _unlinked(text: str) -> str:
    return text.replace("://", ":\u200b//").replace("www.", "www\u200b.")
