"""Findings for people: errors first, each with its place, its line with a caret, and how to mend it."""

from __future__ import annotations

from collections.abc import Iterator

from benchlore.check.finding import SEVERITIES, Finding
from benchlore.check.registry import BY_NAME
from benchlore.check.reports.visible import visible, width
from benchlore.check.runner import Report

_LINE_ROOM = 96
_BEFORE_CARET = 60


def render(report: Report) -> str:
    """The whole report, without a newline at its end."""
    worst_first = sorted(report.findings, key=lambda finding: SEVERITIES.index(finding.severity))
    lines: list[str] = []
    for finding in worst_first:
        lines += [*_of(finding), ""]
    lines += _summary(report)
    mendable = sum(BY_NAME[finding.code].may_mend() for finding in worst_first if finding.code in BY_NAME)
    if mendable:
        found = _counted(mendable, "finding")
        lines.append(f"{found} may be mended for you; to see how: benchlore lint --mend --dry-run")
    if worst_first:
        lines.append(f"More about a rule: benchlore explain {worst_first[0].code}")
    return "\n".join(lines)


def _of(finding: Finding) -> Iterator[str]:
    place = f"{visible(finding.file)}:{finding.line}:{finding.column}"
    yield f"{place}: {finding.severity} {finding.code} {finding.name}: {visible(finding.message)}"
    if finding.text.strip():
        yield from _pointed(finding)
    for line in finding.hint.splitlines():
        yield f"    {visible(line)}"


def _pointed(finding: Finding) -> Iterator[str]:
    """The offending line and a caret under the place, cropped around it when the line is long."""
    start = finding.column - 1
    end = finding.end_column - 1 if finding.end_line == finding.line else len(finding.text)
    indent = len(finding.text) - len(finding.text.lstrip())
    first = min(indent, start) if start - indent <= _BEFORE_CARET else start - _BEFORE_CARET
    last = min(len(finding.text), first + _LINE_ROOM)
    before = ("…" if first > indent else "") + visible(finding.text[first:start])
    marked = visible(finding.text[start : min(max(end, start), last)])
    after = visible(finding.text[min(max(end, start), last) : last]) + ("…" if last < len(finding.text) else "")
    yield f"    | {before}{marked}{after}".rstrip()
    yield f"    | {' ' * width(before)}{'^' * max(1, width(marked.rstrip()))}"


def _summary(report: Report) -> Iterator[str]:
    files = _counted(report.files_checked, "file")
    counts = [_counted(n, severity) for severity in SEVERITIES if (n := report.count(severity))]
    if not report.findings:
        yield f"{files} checked: nothing found."
    else:
        yield f"{files} checked: {', '.join(counts)}."
    if report.tool_failed:
        yield "Benchlore itself failed on the way; the entries are not at fault for that. Please report it."


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
