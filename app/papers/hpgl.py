"""A drawing to HP-GL for plotters and cutters: 40 units a mm, nothing but IN SP PA PU PD PG.

One unit is 0.025 mm exactly (HP-GL/2 and HP RTL Reference Guide). Classic controllers count in
16 bits, so no coordinate passes 32,767 units = 819.175 mm (from memory): what is larger is split
into frames that overlap, each starting at its own origin, with crosses to lay them together.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

import numpy as np
import shapely
from numpy.typing import NDArray

from app.papers.drawing import Box, Circle, Drawing, Line, Mark, Place, Points, Text
from app.papers.paper_file import write_text
from app.papers.strokes import dashed, letter_strokes

UNITS_PER_MM = 40
LIMIT_UNITS = 32767
FRAME_MM = 800.0
"""Longest side of a frame: round, and 19 mm below the limit."""
OVERLAP_MM = 20.0
"""What two neighbouring frames show both; the crosses stand in the middle of it."""

DRAWN_FIRST = ("text", "axis", "mark", "setback", "overlay", "roll-edge", "flaw", "check")
CUT_LAST = ("drill", "notch", "upper", "backing", "cut")
"""Order of work: what is drawn, with pen 2, before what is cut, with pen 1, inside before outside."""

_POINTS_A_LINE = 100  # several controllers hold no more of one instruction (common practice, no source)


def write_hpgl(
    frames: Sequence[tuple[Drawing, Box]],
    path: Path,
    *,
    layers: Collection[str] = DRAWN_FIRST + CUT_LAST,
    split: bool = True,
) -> Path:
    """Write drawings, one after the other, each as far as it lies in its box (mm).

    With ``split`` a box larger than a frame is written as several, row by row; without, in one
    piece with large coordinates, for controllers that count further (HP-GL/2).
    """
    out = ["IN;"]
    for drawing, box in frames:
        strokes = _strokes_of(drawing, layers)
        parts = frames_of(box) if split else [[box]]
        many = len(parts) * len(parts[0]) > 1
        for row, line in enumerate(parts):
            for column, window in enumerate(line):
                if len(out) > 1:
                    out.append("PG;")
                name = (
                    f"FRAME {chr(65 + row)}{column + 1} OF {chr(64 + len(parts))}{len(line)}" if many else ""
                )
                out.extend(_frame(strokes, window, name))
    return write_text(path, "\n".join(out) + "\n")


def frames_of(box: Box) -> list[list[Box]]:
    """Return the windows that cover a box, rows from the bottom, each no longer than a frame."""
    x0, y0, x1, y1 = box
    return [[(a, c, b, d) for a, b in _spans(x0, x1)] for c, d in _spans(y0, y1)]


def _spans(start: float, end: float) -> list[tuple[float, float]]:
    if end - start <= FRAME_MM:
        return [(start, end)]
    step = FRAME_MM - OVERLAP_MM
    count = math.ceil((end - start - OVERLAP_MM) / step)
    return [(start + i * step, min(start + i * step + FRAME_MM, end)) for i in range(count)]


@dataclass(frozen=True, eq=False)
class _Strokes:
    """Polylines of a layer: points, where they are moved to, and their extents (n, 4)."""

    points: list[Points]
    moved: list[tuple[float, float]]
    boxes: NDArray[np.float64]


def _strokes_of(drawing: Drawing, layers: Collection[str]) -> dict[str, _Strokes]:
    """Return what is drawn, by layer, in the order of work; a shape placed often is worked out once."""
    known: dict[tuple[int, float], list[tuple[str, Points]]] = {}
    points: dict[str, list[Points]] = {layer: [] for layer in DRAWN_FIRST + CUT_LAST if layer in layers}
    moved: dict[str, list[tuple[float, float]]] = {layer: [] for layer in points}

    def take(drawing: Drawing, x: float, y: float, scale: float) -> None:
        key = (id(drawing), scale)
        if key not in known:
            known[key] = [
                (mark.layer, line)  # type: ignore[union-attr]
                for mark in Drawing([m for m in drawing.marks if not isinstance(m, Place)]).walk(0, 0, scale)
                if getattr(mark, "layer", "") in points
                for line in _pen_lines(mark)
            ]
        for layer, line in known[key]:
            points[layer].append(line)
            moved[layer].append((x, y))
        for mark in drawing.marks:
            if isinstance(mark, Place):
                take(mark.drawing, x + mark.x_mm * scale, y + mark.y_mm * scale, scale * mark.scale)

    take(drawing, 0.0, 0.0, 1.0)
    boxes: dict[int, NDArray[np.float64]] = {}
    out = {}
    for layer, lines in points.items():
        for line in lines:
            if id(line) not in boxes:
                boxes[id(line)] = np.concatenate([line.min(axis=0), line.max(axis=0)])
        own = np.array([boxes[id(line)] for line in lines]).reshape(-1, 4)
        out[layer] = _Strokes(lines, moved[layer], own + np.tile(np.array(moved[layer]).reshape(-1, 2), 2))
    return out


def _pen_lines(mark: Mark) -> Iterator[Points]:
    """Yield a mark as a pen draws it: dashes apart, circles as polygons, letters in strokes."""
    if isinstance(mark, Line):
        dash = mark.pen.dash_mm if mark.layer not in CUT_LAST else ()
        yield from dashed(mark.points_mm, dash, closed=mark.closed)
    elif isinstance(mark, Circle):
        turn = np.linspace(0.0, 2.0 * np.pi, 49)
        ring = np.column_stack([np.cos(turn), np.sin(turn)]) * max(mark.radius_mm, 0.25)
        yield ring + (mark.x_mm, mark.y_mm)
    elif isinstance(mark, Text):
        yield from letter_strokes(mark)


def _frame(strokes: dict[str, _Strokes], window: Box, name: str) -> Iterator[str]:
    pen = 0
    for layer in strokes:
        lines = _inside(strokes[layer], window)
        if layer == "text" and name:
            lines = chain(lines, _alignment(window, name))
        for points in lines:
            wanted = 1 if layer in CUT_LAST else 2
            if wanted != pen:
                pen = wanted
                yield f"PU;SP{pen};PA;"
            yield from _polyline(points, window)
    yield "PU;SP0;"


def _inside(strokes: _Strokes, window: Box) -> Iterator[Points]:
    """Yield the parts of polylines inside the window, in order."""
    x0, y0, x1, y1 = window
    b = strokes.boxes
    for k in np.flatnonzero((b[:, 0] <= x1) & (b[:, 1] <= y1) & (b[:, 2] >= x0) & (b[:, 3] >= y0)).tolist():
        points = strokes.points[k] + strokes.moved[k]
        if b[k, 0] >= x0 and b[k, 1] >= y0 and b[k, 2] <= x1 and b[k, 3] <= y1:
            yield points
            continue
        cut = shapely.clip_by_rect(shapely.LineString(points), x0, y0, x1, y1)
        for part in shapely.get_parts(cut):
            if part.geom_type == "LineString" and part.length > 0.0:
                yield np.asarray(part.coords)


def _polyline(points: Points, window: Box) -> Iterator[str]:
    units = np.rint((points - window[:2]) * UNITS_PER_MM).astype(np.int64)
    keep = np.concatenate([[True], (np.diff(units, axis=0) != 0).any(axis=1)])
    units = units[keep]
    yield f"PU{units[0, 0]},{units[0, 1]};"
    rest = units[1:] if len(units) > 1 else units
    for at in range(0, len(rest), _POINTS_A_LINE):
        yield "PD" + ",".join(map(str, rest[at : at + _POINTS_A_LINE].ravel().tolist())) + ";"


def _alignment(window: Box, name: str) -> Iterator[Points]:
    """Crosses half an overlap in from every corner of a frame, and the frame's name.

    Neighbouring frames draw the same crosses, at the same place of the whole.
    """
    x0, y0, x1, y1 = window
    half = OVERLAP_MM / 2.0
    for x in (x0 + half, x1 - half):
        for y in (y0 + half, y1 - half):
            yield np.array([(x - 5.0, y), (x + 5.0, y)])
            yield np.array([(x, y - 5.0), (x, y + 5.0)])
    yield from letter_strokes(Text(x0 + half + 7.0, y0 + half + 1.0, name, 5.0, "text"))
