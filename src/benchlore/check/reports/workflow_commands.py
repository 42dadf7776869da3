"""Findings as workflow commands, ``::error file=…,line=…::message``: a forge's runner reads them from a job's output
and shows them beside the lines of a change.
"""

from __future__ import annotations

from benchlore.check.finding import SEVERITIES, Finding
from benchlore.check.reports.visible import visible
from benchlore.check.runner import Report

_COMMANDS = {"error": "error", "warning": "warning", "note": "notice"}


def render(report: Report) -> str:
    """One command a finding, errors first, since runners show only the first few; then a plain line of counts."""
    worst_first = sorted(report.findings, key=lambda finding: SEVERITIES.index(finding.severity))
    counts = ", ".join(f"{report.count(severity)} {severity}s" for severity in SEVERITIES)
    return "\n".join([*(_command(finding) for finding in worst_first), f"benchlore lint: {counts}"])


def _command(finding: Finding) -> str:
    place = {
        "file": finding.file,
        "line": str(finding.line),
        "col": str(finding.column),
        "endLine": str(finding.end_line),
        "title": f"{finding.code} {finding.name}",
    }
    if finding.end_line == finding.line:
        place["endColumn"] = str(finding.end_column)
    properties = ",".join(f"{key}={_property(value)}" for key, value in place.items())
    said = "\n".join(visible(line) for line in (finding.message, *finding.hint.splitlines()) if line)
    return f"::{_COMMANDS[finding.severity]} {properties}::{_data(said)}"


def _data(text: str) -> str:
    """A message: per cent signs and line ends escaped, so that no entry can start a command of its own."""
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(visible(text)).replace(":", "%3A").replace(",", "%2C")
