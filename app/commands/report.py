"""How the commands tell of findings: all of them as JSON, the ones that matter as lines."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from app.commands import say
from geometry.findings import Finding, Severity


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
    """Return findings with the same one in several sizes told once, all its sizes named."""
    grouped: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        grouped.setdefault((finding.code, finding.piece), []).append(finding)
    return tuple(
        replace(same[0], size=", ".join(dict.fromkeys(f.size for f in same if f.size)))
        for same in grouped.values()
    )


def say_findings(findings: Iterable[Finding]) -> None:
    """Say what needs a person's eye, one line each."""
    for finding in by_piece(findings):
        if finding.severity is not Severity.NOTE:
            say(f"{finding.severity}: {finding}")
