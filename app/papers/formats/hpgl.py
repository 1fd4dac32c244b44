"""A drawing to HP-GL for plotters and cutters: 40 units per mm, nothing but IN SP PA PU PD PG.

One unit is 0.025 mm exactly (HP-GL/2 and HP RTL Reference Guide). Classic controllers count in
16 bits, so no coordinate passes 32,767 units = 819.175 mm (from memory): what is larger is split
into frames that overlap, each starting at its own origin, with crosses to lay them together.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import numpy as np
import shapely
from numpy.typing import NDArray

from app.papers.formats.drawing import Box, Circle, Drawing, Line, Mark, Place, Points, Text
from app.papers.formats.paper_file import write_text
from app.papers.formats.strokes import dashed, letter_strokes

UNITS_PER_MM = 40
FRAME_MM = 800.0
"""Longest side of a frame: round, and 19 mm below 32,767 units, where whole numbers of 16 bits end."""
OVERLAP_MM = 20.0
"""What two neighbouring frames show both; the crosses stand in the middle of it."""

BAND_MM = 150.0
"""Shapes are worked in bands of this width: about the length of a piece, which keeps travel short."""

DRAWN_FIRST = ("text", "axis", "mark", "setback", "both", "roll-edge", "flaw", "check")
CUT_LAST = ("drill", "notch", "upper", "backing", "cut")
"""Order of work: what is drawn, with pen 2, before what is cut, with pen 1, inside before outside."""

_ROUNDING_MM = 0.4 / UNITS_PER_MM  # a shape that ends on the frame's edge is not cut in two there
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
class _Group:
    """The polylines of one shape on one layer, end to end: ``starts`` is where each begins."""

    points: Points
    starts: NDArray[np.int64]
    box: NDArray[np.float64]

    @staticmethod
    def of(lines: Sequence[Points]) -> _Group:
        """Put polylines together."""
        points = np.concatenate(lines)
        starts = np.cumsum([0, *(len(line) for line in lines[:-1])])
        return _Group(points, starts, np.concatenate([points.min(axis=0), points.max(axis=0)]))


Moved = list[tuple[_Group, tuple[float, float]]]
"""Groups, and where each is moved to."""

_Strokes = dict[str, tuple[Moved, NDArray[np.float64]]]
"""What is drawn, by layer in the order of work, with the extents (n, 4) as moved."""


def _strokes_of(drawing: Drawing, layers: Collection[str]) -> _Strokes:
    """Return a drawing as strokes; a shape placed often is worked out once."""
    known: dict[tuple[int, float], list[tuple[str, _Group]]] = {}
    strokes: dict[str, Moved] = {layer: [] for layer in DRAWN_FIRST + CUT_LAST if layer in layers}

    def take(drawing: Drawing, x: float, y: float, scale: float) -> None:
        key = (id(drawing), scale)
        if key not in known:
            lines: dict[str, list[Points]] = {}
            own = Drawing([mark for mark in drawing.marks if not isinstance(mark, Place)])
            for mark in own.walk(0.0, 0.0, scale):
                layer = getattr(mark, "layer", "")
                if layer in strokes:
                    lines.setdefault(layer, []).extend(_pen_lines(mark))
            known[key] = [(layer, _Group.of(some)) for layer, some in lines.items() if some]
        for layer, group in known[key]:
            strokes[layer].append((group, (x, y)))
        for mark in drawing.marks:
            if isinstance(mark, Place):
                take(mark.drawing, x + mark.x_mm * scale, y + mark.y_mm * scale, scale * mark.scale)

    take(drawing, 0.0, 0.0, 1.0)
    return {layer: _along_the_roll(groups) for layer, groups in strokes.items()}


def _along_the_roll(groups: Moved) -> tuple[Moved, NDArray[np.float64]]:
    """Return groups with their extents, in bands across the drawing, up one and down the next.

    The tool never comes back to a band it has left, and travels little between two shapes.
    """
    boxes = np.array([group.box + (*at, *at) for group, at in groups]).reshape(-1, 4)
    middle = (boxes[:, :2] + boxes[:, 2:]) / 2.0
    band = np.floor(middle[:, 0] / BAND_MM).astype(np.int64)
    order = np.lexsort((np.where(band % 2 == 0, middle[:, 1], -middle[:, 1]), band))
    return [groups[k] for k in order.tolist()], boxes[order]


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


def _frame(strokes: _Strokes, window: Box, name: str) -> Iterator[str]:
    x0, y0, x1, y1 = window
    pen = 0
    for layer, (groups, boxes) in strokes.items():
        near = (boxes[:, 0] <= x1) & (boxes[:, 1] <= y1) & (boxes[:, 2] >= x0) & (boxes[:, 3] >= y0)
        here = [groups[k] for k in np.flatnonzero(near).tolist()]
        if layer == "text" and name:
            here.append((_Group.of(list(_alignment(window, name))), (0.0, 0.0)))
        wanted = 1 if layer in CUT_LAST else 2
        for group, moved in here:
            for instruction in _group_inside(group, moved, window):
                if wanted != pen:
                    pen = wanted
                    yield f"PU;SP{pen};PA;"
                yield instruction
    yield "PU;SP0;"


def _group_inside(group: _Group, moved: tuple[float, float], window: Box) -> Iterator[str]:
    """Yield the strokes of a group as far as they lie in the window."""
    x0, y0, x1, y1 = window
    bx0, by0, bx1, by1 = (group.box + (*moved, *moved)).tolist()
    points = group.points + moved
    if (
        bx0 >= x0 - _ROUNDING_MM
        and by0 >= y0 - _ROUNDING_MM
        and bx1 <= x1 + _ROUNDING_MM
        and by1 <= y1 + _ROUNDING_MM
    ):
        yield from _instructions(points, group.starts, window)
        return
    for line in np.split(points, group.starts[1:]):
        cut = shapely.clip_by_rect(shapely.LineString(line), x0, y0, x1, y1)
        for part in shapely.get_parts(cut):
            if part.geom_type == "LineString" and part.length > 0.0:
                yield from _instructions(np.asarray(part.coords), np.zeros(1, dtype=np.int64), window)


def _instructions(points: Points, starts: NDArray[np.int64], window: Box) -> Iterator[str]:
    """Yield PU and PD for polylines set end to end; points that round to the same unit are one."""
    units = np.rint((points - window[:2]) * UNITS_PER_MM).astype(np.int64)
    first = np.zeros(len(units), dtype=bool)
    first[starts] = True
    keep = first.copy()
    keep[1:] |= (np.diff(units, axis=0) != 0).any(axis=1)
    at = np.flatnonzero(first[keep]).tolist()
    words = [f"{x},{y}" for x, y in units[keep].tolist()]
    for start, end in pairwise([*at, len(words)]):
        yield f"PU{words[start]};"
        line = words[start + 1 : end] or words[start:end]
        for k in range(0, len(line), _POINTS_A_LINE):
            yield f"PD{','.join(line[k : k + _POINTS_A_LINE])};"


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
