"""Observations to findings: stamped with their rule's code and severity, placed by line and column."""

from __future__ import annotations

from collections.abc import Sequence

from benchlore.check.finding import Finding, Observation
from benchlore.check.rule import Rule
from benchlore.read.problem import Problem
from benchlore.read.span import locate


def located(file: str, text: str | None, seen: Sequence[tuple[type[Rule], Observation]]) -> tuple[Finding, ...]:
    """A finding for each observation, in their order. The text is composed again only when there is one.

    What has no place in the text (a file's name, a file that cannot be read) stands at line 1, column 1.
    """
    if not seen:
        return ()
    spans = locate(
        text or "",
        [Problem("", o.path, o.message, "", o.offset, o.end, o.on_key) for _, o in seen],
        file,
    )
    lines = (text or "").removeprefix("\ufeff").split("\n")
    findings = []
    for (rule, said), span in zip(seen, spans, strict=True):
        whole = text is None or (not said.path and said.offset is None)
        line, column, end_line, end_column = (
            (1, 1, 1, 1) if whole else (span.line, span.column, span.end_line, span.end_column)
        )
        shown = "" if whole else lines[line - 1].rstrip("\r")
        findings.append(
            Finding(
                code=rule.code,
                name=rule.name,
                severity=rule.severity,
                file=file,
                line=line,
                column=column,
                end_line=end_line,
                end_column=end_column,
                message=said.message,
                hint=said.hint,
                text=shown,
                path=said.path,
            )
        )
    return tuple(findings)
