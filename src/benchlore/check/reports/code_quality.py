"""Findings as a code-quality report: a JSON list that a forge reads from a job's artifacts and shows in a change."""

from __future__ import annotations

import json

from benchlore.check.reports.sarif import fingerprint
from benchlore.check.runner import Report

_SEVERITIES = {"error": "major", "warning": "minor", "note": "info"}


def render(report: Report) -> str:
    """The list. A fingerprint stays the same while lines move; the second finding with the same one gets a number."""
    seen: dict[str, int] = {}
    issues = []
    for finding in report.findings:
        mark = fingerprint(finding)
        seen[mark] = seen.get(mark, 0) + 1
        issues.append(
            {
                "description": f"{finding.message}. {finding.hint}" if finding.hint else finding.message,
                "check_name": f"{finding.code} {finding.name}",
                "fingerprint": mark if seen[mark] == 1 else f"{mark}-{seen[mark]}",
                "severity": _SEVERITIES[finding.severity],
                "location": {
                    "path": finding.file,
                    "lines": {"begin": finding.line, "end": finding.end_line},
                },
            }
        )
    return json.dumps(issues, indent=2)
