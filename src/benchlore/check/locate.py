"""Observations to findings: stamped with their rule's code and severity, placed by line and column."""

from __future__ import annotations

from collections.abc import Sequence

from benchlore.check.finding import Finding, Observation
from benchlore.check.rule import Rule
from benchlore.read.problem import Problem
from benchlore.read.span import Span, locate

LONGEST = 400
"""Characters of a message; more could only be a text from the entry repeated."""


def located(file: str, text: str | None, seen: Sequence[tuple[type[Rule], Observation]]) -> tuple[Finding, ...]:
    """A finding for each observation, in their order. The text is composed again only when there is one.

    What has no place in the text (a file's name, a file that cannot be read) stands at line 1, column 1.
    """
    if not seen:
        return ()
    targets = [Problem("", o.path, o.message, "", o.offset, o.end, o.on_key) for _, o in seen]
    shown = (text or "").removeprefix("\ufeff").split("\n")
    findings = []
    for (rule, said), span in zip(seen, locate(text or "", targets, file), strict=True):
        whole = text is None or (not said.path and said.offset is None)
        if whole:
            span = Span(file, 1, 1, 1, 1, "")
        elif said.excerpt:
            span = _narrowed(shown, span, said.excerpt)
        findings.append(
            Finding(
                code=rule.code,
                name=rule.name,
                severity=rule.severity,
                file=file,
                line=span.line,
                column=span.column,
                end_line=span.end_line,
                end_column=span.end_column,
                message=said.message if len(said.message) <= LONGEST else said.message[: LONGEST - 1] + "…",
                hint=said.hint,
                text="" if whole else shown[span.line - 1].rstrip("\r"),
                path=said.path,
                instead=said.instead,
            )
        )
    return tuple(findings)


def _narrowed(shown: Sequence[str], span: Span, excerpt: str) -> Span:
    """The first place of ``excerpt`` within ``span``; the span itself where quoting or folding has changed the text."""
    for number in range(span.line, span.end_line + 1):
        line = shown[number - 1]
        first = span.column - 1 if number == span.line else 0
        last = span.end_column - 1 if number == span.end_line else len(line)
        at = line.find(excerpt, first, last)
        if at >= 0:
            return Span(span.file, number, at + 1, number, at + 1 + len(excerpt), excerpt)
    return span
