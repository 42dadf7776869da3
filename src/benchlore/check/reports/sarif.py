"""Findings as SARIF 2.1.0 (OASIS standard, 27 March 2020), which code hosts and editors read."""

from __future__ import annotations

import hashlib
import json
from importlib.metadata import PackageNotFoundError, version
from typing import Any
from urllib.parse import quote

from benchlore.check.finding import Finding
from benchlore.check.registry import BY_NAME
from benchlore.check.rule import Rule
from benchlore.check.runner import Report

_LEVELS = {"error": "error", "warning": "warning", "note": "note"}


def render(report: Report) -> str:
    """The whole report as one SARIF log with one run. Columns count Unicode code points."""
    used = sorted({finding.code for finding in report.findings})
    position = {code: index for index, code in enumerate(used)}
    run = {
        "tool": {
            "driver": {
                "name": "benchlore",
                "version": _version(),
                "rules": [_rule(BY_NAME[code]) for code in used],
            }
        },
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {"BASE": {"description": {"text": "The knowledge base's folder."}}},
        "invocations": [{"executionSuccessful": not report.tool_failed}],
        "results": [_result(finding, position[finding.code]) for finding in report.findings],
    }
    log = {
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "version": "2.1.0",
        "runs": [run],
    }
    return json.dumps(log, indent=2)


def _version() -> str:
    try:
        return version("benchlore")
    except PackageNotFoundError:
        return "0"


def _rule(rule: type[Rule]) -> dict[str, Any]:
    page = rule.page()
    return {
        "id": rule.code,
        "name": "".join(word.capitalize() for word in rule.name.split("-")),
        "shortDescription": {"text": page.title},
        "fullDescription": {"text": " ".join(page.sections["What"].split())},
        "help": {"text": "\n\n".join((page.sections["Why"], page.sections["How to mend"]))},
        "defaultConfiguration": {"level": _LEVELS[rule.severity]},
        "properties": {"tags": [rule.scope, rule.code[:3]]},
    }


def _result(finding: Finding, index: int) -> dict[str, Any]:
    said = f"{finding.message}. {finding.hint}" if finding.hint else finding.message
    region: dict[str, Any] = {
        "startLine": finding.line,
        "startColumn": finding.column,
        "endLine": finding.end_line,
        "endColumn": finding.end_column,
    }
    if finding.text:
        region["snippet"] = {"text": finding.text}
    artifact = {"uri": quote(finding.file, safe="/", errors="surrogatepass")}
    if not finding.file.startswith("/"):
        artifact["uriBaseId"] = "BASE"
    else:
        artifact["uri"] = "file://" + artifact["uri"]
    return {
        "ruleId": finding.code,
        "ruleIndex": index,
        "level": _LEVELS[finding.severity],
        "message": {"text": said},
        "locations": [{"physicalLocation": {"artifactLocation": artifact, "region": region}}],
        "partialFingerprints": {"benchlore/v1": fingerprint(finding)},
    }


def fingerprint(finding: Finding) -> str:
    """What stays the same of a finding while lines move: its rule, file, place in the entry and message."""
    parts = (finding.code, finding.file, *map(str, finding.path), finding.message)
    return hashlib.sha256("\0".join(parts).encode("utf-8", "surrogatepass")).hexdigest()[:32]


