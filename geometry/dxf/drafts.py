"""Rings -> drafts of pieces: which ring is an outline, which its cut-out, and what must be asked."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry import tolerances
from geometry.dxf.lines.collect import DrawnText
from geometry.dxf.lines.effort import spend
from geometry.dxf.lines.rings import Loop, Nested, drawn_twice, nest
from geometry.errors import OutlineError
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.paper import PAPERS
from geometry.piece import DrawnPiece, DrillHole, Mark, Notch
from geometry.said import said


@dataclass
class Made:
    """Pieces, what was noticed and what was left out, with counts."""

    pieces: list[DrawnPiece] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    left_out: Counter[tuple[str, str]] = field(default_factory=Counter)


@dataclass
class Draft:
    """A piece being put together."""

    loop: Loop
    outline: Outline
    polygon: Polygon
    cover: Polygon
    texts: list[DrawnText] = field(default_factory=list)
    notches: list[Notch] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    drill_holes: list[DrillHole] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


FrameAnswer = Literal["ask", "keep", "drop"]
"""What becomes of a rectangle that looks like a sheet's frame: asked about (and left out meanwhile), kept as
a piece with what it holds as cut-outs, or left out."""


def drafts_of(loops: list[Loop], made: Made, answer: FrameAnswer = "ask") -> list[Draft]:
    """Return the pieces that simple, distinct rings bound; what must be asked goes into ``made``."""
    if not loops:
        return []
    nested = nest(loops)
    for a, b in nested.crossing:
        made.findings.append(
            Finding(
                code="CROSSING_OUTLINES",
                severity=Severity.WARNING,
                message=said(
                    "outlines on layers {0} and {1} overlap in part", loops[a].layer, loops[b].layer
                ),
                done="kept as two pieces",
                advice="draw the pieces apart if they are two, or join them if they are one",
                where_mm=(loops[a].place_mm, loops[b].place_mm),
            )
        )
    frame = -1 if answer == "keep" else _frame(loops, nested)
    if frame >= 0:
        made.findings.append(
            Finding(
                code="FRAME",
                severity=Severity.QUESTION if answer == "ask" else Severity.NOTE,
                message=said(
                    "the rectangle on layer {0} around everything looks like a frame", loops[frame].layer
                ),
                done="left out, and what lies inside it read as pieces",
                advice="for a frame give --frame drop, for a piece --frame keep",
                where_mm=(loops[frame].place_mm,),
            )
        )
        made.left_out["frame", "a rectangle around all pieces"] += 1
        loops = loops[:frame] + loops[frame + 1 :]
        nested = nest(loops)
    if nested.stacked:
        made.findings.append(
            Finding(
                code="STACKED_BLOCKS",
                severity=Severity.QUESTION,
                message=said(
                    "outlines of {0} blocks lie over each other, like sizes",
                    len({i for pair in nested.stacked for i in pair}),
                ),
                done="each is read as a piece, none as a cut-out",
                advice="state which sizes they are",
                where_mm=tuple(loops[i].place_mm for _, i in nested.stacked),
            )
        )
    if any(loop.face for loop in loops):
        shared = [loop for loop in loops if loop.face]
        made.findings.append(
            Finding(
                code="SHARED_LINE",
                severity=Severity.QUESTION,
                message=said("{0} closed areas share lines", len(shared)),
                done="each area is read as a piece of its own",
                advice="if a line only marks a piece, draw it on another layer",
                where_mm=tuple(loop.place_mm for loop in shared),
            )
        )
    drafts: list[Draft] = []
    cut_outs: dict[int, list[Loop]] = defaultdict(list)
    for hole, parent in zip(loops, nested.parent, strict=True):
        cut_outs[parent].append(hole)
    for i, loop in enumerate(loops):
        if nested.depth[i] % 2:
            continue
        holes = cut_outs[i]
        spend(400.0 + 100.0 * len(holes) + 3.0 * len(loop.points))
        holes = _true_cut_outs(loop, holes, made)
        drafts += _draft(loop, holes, made)
    return drafts


def _true_cut_outs(loop: Loop, holes: list[Loop], made: Made) -> list[Loop]:
    """Drop a second drawing of the outline itself; ask about a cut-out that takes most of it."""
    kept: list[Loop] = []
    for hole in holes:
        if drawn_twice(loop, hole):
            made.left_out["outline", "drawn twice, a fraction of a millimetre apart"] += 1
            made.findings.append(
                Finding(
                    code="DRAWN_TWICE",
                    severity=Severity.WARNING,
                    message=said("an outline on layer {0} is drawn twice, slightly apart", loop.layer),
                    done="the outer one is kept",
                    advice="delete the wrong one in the drawing",
                    where_mm=(loop.place_mm,),
                )
            )
            continue
        kept.append(hole)
        if hole.layer != loop.layer and hole.area_mm2 > 0.5 * loop.area_mm2:
            made.findings.append(
                Finding(
                    code="LARGE_CUT_OUT",
                    severity=Severity.QUESTION,
                    message=said(
                        "a closed line on layer {0} inside the outline on layer {1} takes {2} % of its area",
                        hole.layer,
                        loop.layer,
                        f"{100 * hole.area_mm2 / loop.area_mm2:.0f}",
                    ),
                    done="read as a cut-out",
                    advice="if it is a stitch or feather line, leave it open or switch its layer off",
                    where_mm=(hole.place_mm,),
                )
            )
    return kept


def _draft(loop: Loop, holes: list[Loop], made: Made) -> list[Draft]:
    """One piece, or the parts that are left when a cut-out meets the outline."""
    try:
        outline = Outline.make(loop.points, [hole.points for hole in holes])
    except OutlineError as error:
        made.left_out["outline", error.message] += 1
        return []
    polygon = outline.polygon
    findings: list[Finding] = []
    gaps = [gap for part in (loop, *holes) for gap in part.gaps]
    if gaps:
        widest = max(gap.width_mm for gap in gaps)
        spots = ", ".join(f"({x:.2f}, {y:.2f})" for x, y in [gap.place_mm for gap in gaps[:4]])
        if len(gaps) > 1:
            many = "{0} gaps closed, the widest {1} mm, at {2}" + (" and more" if len(gaps) > 4 else "")
            message = said(many, len(gaps), f"{widest:.3g}", spots)
        else:
            message = said("a gap of {0} mm closed at {1}", f"{widest:.2g}", spots)
        findings.append(
            Finding(
                code="GAP_CLOSED",
                severity=Severity.WARNING if widest > 0.1 else Severity.NOTE,
                message=message,
                done="the ends were brought together",
                where_mm=tuple(gap.place_mm for gap in gaps),
            )
        )
    if polygon.is_valid:
        return [Draft(loop, outline, polygon, Polygon(outline.ring_mm), findings=findings)]
    freed = _freed(loop, holes)
    if freed is not None:
        findings.append(
            Finding(
                code="CUT_OUT_TOUCHES",
                severity=Severity.WARNING,
                message="a cut-out touches the outline or another cut-out: no material is left between them",
                done="the cut-outs were made smaller by less than a hair's breadth",
                advice="check that the piece is drawn as intended",
                where_mm=(loop.place_mm,),
            )
        )
        return [Draft(loop, freed, freed.polygon, Polygon(freed.ring_mm), findings=findings)]
    rest = Polygon(loop.points)
    for hole in holes:
        rest = shapely.difference(rest, Polygon(hole.points))
    parts = [p for p in shapely.get_parts(rest).tolist() if p.geom_type == "Polygon" and p.area > 0.0]
    findings.append(
        Finding(
            code="CUT_OUT_AT_EDGE",
            severity=Severity.WARNING,
            message="a cut-out meets the outline or another cut-out",
            done=said("taken off the piece, {0} left", len(parts)),
            advice="check that the piece is drawn as intended",
            where_mm=(loop.place_mm,),
        )
    )
    drafts = []
    for part in parts:
        outline = Outline.of_polygon(part)
        drafts.append(Draft(loop, outline, part, Polygon(outline.ring_mm), findings=findings))
        findings = []
    return drafts


def _freed(loop: Loop, holes: list[Loop]) -> Outline | None:
    """Return the outline with its cut-outs drawn in a hair, None where they actually overlap."""
    for inset in (tolerances.FREE_MM, 4.0 * tolerances.FREE_MM, 10.0 * tolerances.FREE_MM):
        inner = [shapely.buffer(Polygon(hole.points), -inset, join_style="mitre") for hole in holes]
        if any(hole.geom_type != "Polygon" or hole.is_empty for hole in inner):
            return None
        outline = Outline.make(loop.points, [np.asarray(hole.exterior.coords)[:-1] for hole in inner])
        if outline.polygon.is_valid:
            return outline
    return None


def _frame(loops: list[Loop], nested: Nested) -> int:
    """Return the ring that is a sheet's frame, -1 for none.

    A rectangle square to the axes around rings of piece size that is either on a layer of its own with two
    such rings in it, or as large as a standard sheet (or the frame printed in it) with much room left. Left
    to the person as a question.
    """
    roots = [i for i in range(len(loops)) if nested.depth[i] == 0]
    for i in roots:
        ring = loops[i].points
        if len(ring) != 4 or any(min(abs(a[0] - b[0]), abs(a[1] - b[1])) > 1e-6 for a, b in _sides(ring)):
            continue
        inner = [k for k in range(len(loops)) if nested.parent[k] == i]
        large = [
            k for k in inner if np.ptp(loops[k].points, axis=0).max() >= tolerances.PLAUSIBLE_PIECE_MM[0]
        ]
        if not large:
            continue
        apart = all(loops[k].layer != loops[i].layer for k in inner)
        held = np.ptp(np.vstack([loops[k].points for k in inner]), axis=0)
        roomy = bool((held < tolerances.FRAME_ROOM * np.ptp(ring, axis=0)).all())
        if (apart and len(large) >= 2) or (roomy and _is_sheet(np.ptp(ring, axis=0))):
            return i
    return -1


SHEETS_MM = tuple((paper.width_mm, paper.height_mm) for paper in PAPERS if paper.series in ("ISO A", "ANSI"))
"""Sheets that drawings are framed on: ISO 216 (A0 to A4) and ASME Y14.1 (A to E)."""

FRAME_INSETS_MM = (0.0, 10.0, 20.0)
"""A printed frame stands so far in from the sheet's edge on all sides (ISO 5457: 10 mm, A4 and up)."""


def _is_sheet(size_mm: np.ndarray) -> bool:
    low, high = sorted(float(side) for side in size_mm)
    return any(
        abs(low - (a - 2 * inset)) <= tolerances.SHEET_SHARE * a
        and abs(high - (b - 2 * inset)) <= tolerances.SHEET_SHARE * b
        for a, b in SHEETS_MM
        for inset in FRAME_INSETS_MM
    )


def _sides(ring: np.ndarray) -> list[tuple[np.ndarray, np.ndarray]]:
    return list(zip(ring, np.roll(ring, -1, axis=0), strict=True))
