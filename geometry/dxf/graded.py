"""A piece drawn in the sample size and its grade rules -> the piece in every size of the rules.

Points with a rule move as it says. Between two of them along the outline the move is shared out
by the length walked, and what lies on or in the piece without a rule of its own goes with the
nearest place of the outline: a convention of ours, which leaves lines parallel to an edge parallel.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from geometry.dxf.grade_rules import GradeRules
from geometry.dxf.lines.collect import DrawnText
from geometry.dxf.lines.curves import Points
from geometry.errors import OutlineError
from geometry.findings import Finding, Severity
from geometry.outline import Outline, Ring, ring_area_mm2, rotation
from geometry.piece import DrawnPiece, DrillHole, Mark
from geometry.said import said

_NUMBERED = re.compile(r"^\s*#\s*(\S+)\s*$")
_AT_MM = 1.0  # how far the number of a rule may stand from its point: drawings put it on it


@dataclass(frozen=True)
class RulePoint:
    """A place that the drawing gives a rule."""

    rule: str
    x_mm: float
    y_mm: float


def rule_points(texts: Sequence[DrawnText]) -> tuple[RulePoint, ...]:
    """Return the places that texts like ``# 12`` give a rule."""
    found = ((_NUMBERED.match(text.text), text.anchors[0]) for text in texts if text.anchors)
    return tuple(RulePoint(match.group(1), *at) for match, at in found if match)


def grade(
    piece: DrawnPiece,
    points: Sequence[RulePoint],
    rules: GradeRules,
    lines: Sequence[Points],
    fold: Points | None,
) -> tuple[dict[str, tuple[DrawnPiece, Points | None]], tuple[Finding, ...]]:
    """Return the piece, and its fold line, in each size but the sample's, and what was noticed.

    ``lines`` are the grade reference lines of the drawing, in its order. Nothing is graded, with
    an error among the findings, where a rule is missing or fewer than two points of the outline
    have one.
    """
    findings: list[Finding] = []
    missing = sorted({point.rule for point in points} - rules.deltas_mm.keys())
    ring = piece.outline.ring_mm
    on: dict[int, str] = {}
    for point in points:
        off = np.hypot(*(ring - (point.x_mm, point.y_mm)).T)
        if off.min() <= _AT_MM:
            on[int(off.argmin())] = point.rule
    if missing or len(on) < 2:
        why = f"rule {', '.join(missing)} is not in the table" if missing else (
            f"{len(on)} points of the outline have a grade rule" if points else "no point has a grade rule"
        )  # fmt: skip
        return {}, (_ungraded(why),)
    turn, doubt = _direction(lines)
    findings += doubt
    sizes: dict[str, tuple[DrawnPiece, Points | None]] = {}
    for size in rules.sizes:
        if size == rules.sample:
            continue
        moves = {rule: rotation(turn) @ np.array(by_size[size]) for rule, by_size in rules.deltas_mm.items()}
        field = _Field.of(ring, {at: moves[rule] for at, rule in on.items()}, points, moves)
        try:
            sizes[size] = _in_size(piece, size, field), None if fold is None else field.moved(fold)
        except OutlineError as error:
            findings.append(_ungraded(f"in size {size} {error.message}"))
    return sizes, tuple(findings)


@dataclass(frozen=True, eq=False)
class _Field:
    """How every place of a piece moves: known on the outer ring, and at places with rules."""

    ring: Ring
    ring_moves: Points
    spots: Points
    spot_moves: Points

    @staticmethod
    def of(
        ring: Ring,
        known: Mapping[int, NDArray[np.float64]],
        points: Sequence[RulePoint],
        moves: Mapping[str, NDArray[np.float64]],
    ) -> _Field:
        """Share the moves out along the ring by the length walked."""
        walked = np.concatenate([[0.0], np.hypot(*np.diff(np.vstack([ring, ring[:1]]), axis=0).T).cumsum()])
        at = sorted(known)
        shared = [
            np.interp(walked[:-1], walked[at], [known[i][axis] for i in at], period=float(walked[-1]))
            for axis in (0, 1)
        ]
        spots = np.array([(p.x_mm, p.y_mm) for p in points])
        return _Field(ring, np.column_stack(shared), spots, np.array([moves[p.rule] for p in points]))

    def moved(self, places: Points) -> Points:
        """Return places where they lie in the other size."""
        return np.array([place + self._move(place) for place in places])

    def _move(self, place: Points) -> Points:
        off = np.hypot(*(self.spots - place).T)
        if off.min() <= _AT_MM:
            return np.asarray(self.spot_moves[int(off.argmin())])
        step = np.roll(self.ring, -1, axis=0) - self.ring
        length2 = np.maximum((step**2).sum(axis=1), 1e-300)
        share = np.clip(((place - self.ring) * step).sum(axis=1) / length2, 0.0, 1.0)
        i = int(np.hypot(*(place - self.ring - share[:, None] * step).T).argmin())
        start, end = self.ring_moves[i], self.ring_moves[(i + 1) % len(self.ring)]
        return np.asarray(start + share[i] * (end - start))

    def holes(self, holes: Sequence[Ring]) -> list[Points]:
        """Return cut-outs moved: as a whole where no point of theirs has a rule."""
        out = []
        for hole in holes:
            ruled = np.hypot(*(hole[:, None] - self.spots[None]).transpose(2, 0, 1)).min(axis=1) <= _AT_MM
            out.append(self.moved(hole) if ruled.any() else hole + self._move(hole.mean(axis=0)))
        return out


def _in_size(piece: DrawnPiece, size: str, field: _Field) -> DrawnPiece:
    ring, holes = piece.outline.ring_mm + field.ring_moves, field.holes(piece.outline.holes_mm)
    if not Polygon(ring, holes).is_valid or ring_area_mm2(ring) <= 0.0:
        raise OutlineError("the outline would cross itself")
    drills = [(d, field.moved(np.array([(d.x_mm, d.y_mm)]))[0]) for d in piece.drill_holes]
    nicks = [(n, field.moved(np.array([(n.x_mm, n.y_mm)]))[0]) for n in piece.notches]
    turns = field.moved(np.array(piece.turn_points_mm)).tolist() if piece.turn_points_mm else []
    return replace(
        piece,
        size=size,
        outline=Outline.make(ring, holes),
        notches=tuple(replace(n, x_mm=float(x), y_mm=float(y)) for n, (x, y) in nicks),
        drill_holes=tuple(DrillHole(float(x), float(y), d.diameter_mm) for d, (x, y) in drills),
        marks=tuple(Mark(field.moved(m.points_mm), m.kind, m.closed) for m in piece.marks),
        turn_points_mm=tuple((float(x), float(y)) for x, y in turns),
    )


def _direction(lines: Sequence[Points]) -> tuple[float, list[Finding]]:
    """Return the angle of the rules' x axis; what is not along the drawing's own x is asked."""
    if not lines:
        return 0.0, []
    way = lines[0][-1] - lines[0][0]
    angle = float(np.degrees(np.arctan2(way[1], way[0])))
    if len(lines) == 1 and abs(angle) < 1e-3:
        return 0.0, []
    told = "there are several grade reference lines" if len(lines) > 1 else "the grade reference line"
    return angle, [
        Finding(
            code="GRADE_REFERENCE",
            severity=Severity.QUESTION,
            message=said("{0}{1}", told, "" if len(lines) > 1 else " is not drawn along x"),
            done=said(
                "the rules' x axis is taken along the first, from its start to its end ({0} deg)",
                f"{angle:.1f}",
            ),
            advice="check that the sizes grow the right way",
        )
    ]


def _ungraded(why: str) -> Finding:
    return Finding(
        code="NOT_GRADED",
        severity=Severity.ERROR,
        message=said("the grade rules do not fit: {0}", why),
        done="no size was made from them",
        advice="correct the drawing or its rule file, or grade by the last (give the style its sizes)",
    )
