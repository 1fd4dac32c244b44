"""How large a drawing is: what its unit is judged by, and its contents in mm near the origin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely

from geometry.dxf.lines.collect import Curve, DrawnPoint, DrawnSpace, DrawnText
from geometry.dxf.units import MM_PER, UnitChoice
from geometry.piece import DrawnPiece

_MOVE_BEYOND_MM = 1e5
"""Drawings further than this from the origin are worked on at a local one: geographic offsets
of 5,000 km leave nine digits, too few for intersections at a micrometre."""

_SAME_END = 1e-5
"""Ends of lines this share of the drawing apart are one place while its unit is open: 3 µm of 300 mm (our own
choice, no source)."""


def largest_side(sheet: DrawnSpace) -> float:
    """Longest side, in drawing units, of the largest thing that can be a piece.

    That is a closed curve, a ring of lines that end on each other, or what stands in one block; else the
    whole drawing.
    """
    sizes = [float(np.ptp(c.points, axis=0).max()) for c in sheet.curves if c.closed]
    sizes += _ring_sides([c.points for c in sheet.curves if not c.closed and not c.scope])
    groups: dict[tuple[int, ...], list[np.ndarray]] = {}
    for curve in sheet.curves:
        if curve.scope and not curve.closed:
            groups.setdefault(curve.scope, []).append(curve.points)
    sizes += [float(np.ptp(np.vstack(parts), axis=0).max()) for parts in groups.values()]
    if sizes:
        return max(sizes)
    if not sheet.curves:
        return 0.0
    return float(np.ptp(np.vstack([c.points for c in sheet.curves]), axis=0).max())


def _ring_sides(lines: list[np.ndarray]) -> list[float]:
    """Longest sides of the rings that lines make end to end: single lines are not a closed curve."""
    usable = [points for points in lines if len(points) > 1 and np.isfinite(points).all()]
    if not usable:
        return []
    grid = max(float(np.ptp(np.vstack(usable), axis=0).max()) * _SAME_END, 1e-12)
    merged = shapely.line_merge(
        shapely.multilinestrings([shapely.linestrings(np.round(points / grid) * grid) for points in usable])
    )
    rings = shapely.get_parts(merged)
    boxes = shapely.bounds(rings[shapely.is_closed(rings)])
    return [float(max(x1 - x0, y1 - y0)) for x0, y0, x1, y1 in boxes.tolist()]


def unit_choices_of(sheet: DrawnSpace) -> tuple[UnitChoice, ...]:
    """The size in mm that the whole drawing would have in each unit."""
    if not sheet.curves:
        return ()
    low = np.min([c.points.min(axis=0) for c in sheet.curves], axis=0)
    high = np.max([c.points.max(axis=0) for c in sheet.curves], axis=0)
    width, height = (high - low).tolist()
    return tuple(UnitChoice(unit, width * mm, height * mm) for unit, mm in MM_PER.items())


def in_mm(sheet: DrawnSpace, mm: float) -> tuple[DrawnSpace, np.ndarray]:
    """Return the sheet in mm near the origin, and the move that takes it back."""
    shift = np.zeros(2)
    if sheet.curves:
        low = np.min([c.points.min(axis=0) for c in sheet.curves], axis=0) * mm
        high = np.max([c.points.max(axis=0) for c in sheet.curves], axis=0) * mm
        if max(np.abs(low).max(), np.abs(high).max()) > _MOVE_BEYOND_MM:
            shift = np.round((low + high) / 2)
    if mm == 1.0 and not shift.any():
        return sheet, shift
    curves = [Curve(c.points * mm - shift, c.closed, c.layer, c.kind, c.scope) for c in sheet.curves]
    points = [
        DrawnPoint(
            p.x * mm - shift[0],
            p.y * mm - shift[1],
            p.layer,
            p.scope,
            p.depth * mm,
            p.width * mm,
            p.angle_deg,
        )
        for p in sheet.points
    ]
    texts = [
        DrawnText(
            t.text,
            tuple((x * mm - shift[0], y * mm - shift[1]) for x, y in t.anchors),
            t.height * mm,
            t.layer,
            t.scope,
            t.tag,
        )
        for t in sheet.texts
    ]
    return DrawnSpace(curves=curves, points=points, texts=texts, blocks=sheet.blocks), shift


def moved(piece: DrawnPiece, shift: np.ndarray) -> DrawnPiece:
    """Return a piece with all that is drawn on it moved by a shift in mm, (2,)."""
    dx, dy = float(shift[0]), float(shift[1])
    return replace(
        piece,
        outline=piece.outline.moved(dx, dy),
        notches=tuple(replace(n, x_mm=n.x_mm + dx, y_mm=n.y_mm + dy) for n in piece.notches),
        marks=tuple(replace(m, points_mm=m.points_mm + shift) for m in piece.marks),
        drill_holes=tuple(replace(d, x_mm=d.x_mm + dx, y_mm=d.y_mm + dy) for d in piece.drill_holes),
        turn_points_mm=tuple((x + dx, y + dy) for x, y in piece.turn_points_mm),
    )
