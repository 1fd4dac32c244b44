"""What the commands say of findings: once a piece, but nothing left out."""

from __future__ import annotations

from app.commands.report import by_piece
from geometry.findings import Finding, Severity


def _finding(message: str, size: str, piece: str = "Vamp") -> Finding:
    return Finding(code="STEP", severity=Severity.WARNING, message=message, piece=piece, size=size)


def test_the_same_in_several_sizes_is_told_once_with_its_sizes() -> None:
    (told,) = by_piece([_finding("a step of 1.5 mm", "36"), _finding("a step of 1.52 mm", "37")])
    assert str(told) == "Vamp 36, 37: a step of 1.5 mm"


def test_another_message_under_the_same_code_is_told_too() -> None:
    told = by_piece([_finding("a step at the toe", "36"), _finding("a step at the heel", "36")])
    assert [finding.message for finding in told] == ["a step at the toe", "a step at the heel"]


def test_several_alike_in_one_size_are_counted() -> None:
    (told,) = by_piece([_finding(f"a step of {k} mm", size) for size in ("36", "37") for k in (1, 2, 3)])
    assert str(told) == "Vamp 36, 37: a step of 1 mm (and 2 more alike)"
    assert len(by_piece([_finding("a step", "36"), _finding("a step", "36", "Strap")])) == 2
