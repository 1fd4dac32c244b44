"""Style files of the samples: the outlines as imported from the drawing, marked up by hand."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from app.style.model import (
    ClothData,
    DrillData,
    EdgeData,
    HoldChain,
    HoldLine,
    KeepData,
    LayerData,
    MarkData,
    NotchData,
    PieceData,
    PullAxisData,
    SizeDrawing,
    SizeRun,
    Style,
    UpperMaterial,
)
from geometry.dxf.read import read_drawing
from geometry.piece import DrawnPiece
from geometry.tolerances import CORNER_DEG
from sample_styles.draw.curves import DrawnShape, Points, Segment, curve


def build_style(
    drawing: Path,
    shapes: Sequence[DrawnShape],
    *,
    name: str,
    description: str,
    size_run: SizeRun,
    cloths: tuple[ClothData, ...],
    upper_material: UpperMaterial,
    hold_chains: tuple[HoldChain, ...] = (),
) -> Style:
    """Return the style of a drawing just written: every edge marked as its segment says."""
    drawn = read_drawing(drawing).pieces
    pieces = []
    for shape in shapes:
        found = {p.size or size_run.base: p for p in drawn if p.name == shape.name}
        base = found[size_run.base]
        pieces.append(
            PieceData(
                name=shape.name,
                drawings={size: _size_drawing(p) for size, p in found.items()},
                per_shoe=shape.per_shoe,
                edges=_edges(shape, base),
                pull_axis=PullAxisData(axis_deg=shape.axis_deg, source="person", confirmed=True),
                layers=tuple(_layer(shape, layer) for layer in shape.style.get("layers", ({},))),
                hold_line=_hold_line(shape),
                note=shape.style.get("note", ""),
            )
        )
    return Style(
        name=name,
        description=description,
        size_run=size_run,
        pieces=tuple(pieces),
        cloths=cloths,
        upper_material=upper_material,
        hold_chains=hold_chains,
        drawing=drawing.name,
        note="Sample of an invented workshop; widths, prices, press settings and readings are examples.",
    )


def _size_drawing(piece: DrawnPiece) -> SizeDrawing:
    return SizeDrawing(
        outline_mm=_points(piece.outline.ring_mm),
        holes_mm=tuple(_points(hole) for hole in piece.outline.holes_mm),
        notches=tuple(
            NotchData(
                x_mm=round(n.x_mm, 4),
                y_mm=round(n.y_mm, 4),
                angle_deg=round(n.angle_deg, 3),
                depth_mm=n.depth_mm,
                width_mm=n.width_mm,
                kind=n.kind,
            )
            for n in piece.notches
        ),
        marks=tuple(
            MarkData(points_mm=_points(m.points_mm), kind=m.kind, closed=m.closed) for m in piece.marks
        ),
        drill_holes=tuple(
            DrillData(x_mm=round(d.x_mm, 4), y_mm=round(d.y_mm, 4), diameter_mm=d.diameter_mm)
            for d in piece.drill_holes
        ),
        turn_points_mm=tuple((round(x, 4), round(y, 4)) for x, y in piece.turn_points_mm),
    )


def _points(ring: Points) -> tuple[tuple[float, float], ...]:
    return tuple((round(float(x), 4), round(float(y), 4)) for x, y in ring)


def _edges(shape: DrawnShape, piece: DrawnPiece) -> tuple[EdgeData, ...]:
    """One edge a segment, begun at the vertex where the segment begins; like joins like."""
    whole = shape.unfolded()
    ring = np.asarray(piece.outline.ring_mm)
    edges = []
    for before, segment in zip(whole.segments[-1:] + whole.segments[:-1], whole.segments, strict=True):
        if before.kind == segment.kind and _runs_on(before, segment):
            continue
        away = np.hypot(*(ring - segment.through_mm[0] - np.array(shape.shift_mm)).T)
        if away.min() > 0.01:
            raise ValueError(f"{shape.name}: no vertex where an edge begins ({away.min():.3f} mm off)")
        edges.append(
            EdgeData(
                start=int(away.argmin()),
                kind=segment.kind,
                setback_mm=segment.setback_mm,
                allowance_mm=segment.allowance_mm,
                confirmed=True,
            )
        )
    edges.sort(key=lambda e: e.start)
    holes = [
        EdgeData(ring=i + 1, start=0, kind="raw", allowance_mm=0.0, confirmed=True)
        for i in range(len(piece.outline.holes_mm))
    ]
    return (*edges, *holes)


def _runs_on(before: Segment, after: Segment) -> bool:
    """Whether two segments meet without a corner."""
    a, b = before.sampled(), after.sampled()
    (ax, ay), (bx, by) = a[-1] - a[-2], b[1] - b[0]
    return abs(np.degrees(np.arctan2(ax * by - ay * bx, ax * bx + ay * by))) < CORNER_DEG


def _layer(shape: DrawnShape, layer: dict) -> LayerData:
    keep = layer.get("keep")
    if keep is None:
        return LayerData(cloth=layer.get("cloth", ""))
    if "side" in layer:  # a cut line is drawn as the smooth curve it is cut along
        keep = [(round(float(x), 2), round(float(y), 2)) for x, y in curve("raw", *keep).sampled()]
    return LayerData(
        cloth=layer.get("cloth", ""),
        keep=KeepData(
            points_mm=tuple(_shifted(shape, p) for p in keep),
            closed="side" not in layer,
            side_mm=_shifted(shape, layer["side"]) if "side" in layer else None,
        ),
    )


def _hold_line(shape: DrawnShape) -> HoldLine | None:
    if "hold" not in shape.style:
        return None
    start, end, limit = shape.style["hold"]
    return HoldLine(from_mm=_shifted(shape, start), to_mm=_shifted(shape, end), limit_mm=limit)


def _shifted(shape: DrawnShape, point: tuple[float, float]) -> tuple[float, float]:
    return (round(point[0] + shape.shift_mm[0], 4), round(point[1] + shape.shift_mm[1], 4))
