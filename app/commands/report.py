"""How the commands report findings: all of them as JSON, the ones that matter as lines."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from app.commands import say
from geometry.findings import Finding, Severity
from geometry.said import said


def finding_json(finding: Finding) -> dict[str, Any]:
    """Return a finding as the commands print it."""
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        "piece": finding.piece,
        "size": finding.size,
        "message": finding.message,
        "done": finding.done,
        "advice": finding.advice,
        "where_mm": [list(point) for point in finding.where_mm],
    }


def by_piece(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings with the same one in several sizes told once, all its sizes named.

    Figures may differ from size to size; where one size has several alike, their number is told.
    """
    grouped: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in findings:
        words = re.sub(r"\d+(\.\d+)?", "0", finding.message)
        grouped.setdefault((finding.code, finding.piece, words), []).append(finding)
    told = []
    for same in grouped.values():
        alike = max(Counter(finding.size for finding in same).values())
        sizes = ", ".join(dict.fromkeys(f.size for f in same if f.size))
        message = same[0].message
        if alike > 1:
            message = said("{0} (and {1} more alike)", message, alike - 1)
        told.append(replace(same[0], message=message, size=sizes))
    return tuple(told)


def say_findings(findings: Iterable[Finding]) -> None:
    """Say what needs a person's eye, one line each."""
    for finding in by_piece(findings):
        if finding.severity is not Severity.NOTE:
            say(said("{0}: {1}", finding.severity.value, str(finding)))
