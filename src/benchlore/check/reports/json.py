"""Findings for machines: one JSON object with stable keys, in ASCII."""

from __future__ import annotations

import json

from benchlore.check.finding import SEVERITIES
from benchlore.check.runner import Report


def render(report: Report) -> str:
    """The whole report. Lines and columns count from 1; ``end_column`` is one past the last character."""
    return json.dumps(
        {
            "findings": [
                {
                    "code": finding.code,
                    "name": finding.name,
                    "severity": finding.severity,
                    "file": finding.file,
                    "line": finding.line,
                    "column": finding.column,
                    "end_line": finding.end_line,
                    "end_column": finding.end_column,
                    "path": list(finding.path),
                    "message": finding.message,
                    "hint": finding.hint,
                }
                for finding in report.findings
            ],
            "counts": {severity: report.count(severity) for severity in SEVERITIES},
            "files_checked": report.files_checked,
            "entries_checked": report.entries_checked,
            "tool_failed": report.tool_failed,
        },
        indent=2,
    )
