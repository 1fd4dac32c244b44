"""Writes shapes as drawings, the ways real drawings come. ezdxf writes the files."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Literal

import ezdxf
import numpy as np
from ezdxf.document import Drawing
from ezdxf.layouts import BaseLayout

from sample_styles.draw.curves import DrawnShape, Points, Segment, bulges

ezdxf.options.write_fixed_meta_data_for_testing = True  # no dates, no random ids: same bytes

TICK_MM = 4.0
INCH_MM = 25.4


def write_drawing(
    path: Path,
    shapes: Sequence[DrawnShape],
    *,
    outlines: Literal["bulges", "loose"],
    unit: Literal["mm", "in"] = "mm",
) -> None:
    """Write one drawing: outlines as polylines with bulges or as loose LINE, ARC and SPLINE.

    Notches are short ticks into the material, drill holes POINTs, names TEXT inside the piece.
    """
    document = ezdxf.new("R2010", units=4 if unit == "mm" else 1)
    for layer, colour in (("CUT", 7), ("NOTCH", 1), ("DRILL", 3), ("LINES", 5), ("NAMES", 8)):
        document.layers.add(layer, color=colour)
    space = document.modelspace()
    k = 1.0 if unit == "mm" else 1.0 / INCH_MM
    for shape in shapes:
        shift = np.array(shape.shift_mm)
        if outlines == "bulges":
            chain = [p for s in shape.segments for p in bulges(s)]
            points = [(*((np.array(p[:2]) + shift) * k), p[2]) for p in chain]
            space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": "CUT"})
        else:
            for segment in shape.segments:
                _add_segment(space, segment, shift, k, "CUT")
        for x, y, rx, ry in shape.cutouts:
            space.add_ellipse(
                ((x + shift[0]) * k, (y + shift[1]) * k),
                major_axis=(rx * k, 0),
                ratio=ry / rx,
                dxfattribs={"layer": "CUT"},
            )
        for nick in shape.nicks:
            point, inward = shape.nick_at(nick)
            a, b = (point + shift) * k, (point + TICK_MM * inward + shift) * k
            space.add_line(a, b, dxfattribs={"layer": "NOTCH"})
        for drill in shape.drills:
            space.add_point((np.array(drill) + shift) * k, dxfattribs={"layer": "DRILL"})
        for segment in shape.lines:
            _add_segment(space, segment, shift, k, "LINES")
        place = (np.array(shape.label_mm) + shift) * k
        space.add_text(shape.name, height=6 * k, dxfattribs={"layer": "NAMES", "insert": place})
    _save(document, path)


def write_remnant(
    path: Path, ring_mm: Sequence[tuple[float, float]], hole_mm: tuple[float, float, float]
) -> None:
    """Write the outline of a remnant, x along its roll, with a round hole (x, y, radius)."""
    document = ezdxf.new("R2010", units=4)
    space = document.modelspace()
    space.add_lwpolyline(ring_mm, close=True)
    space.add_circle(hole_mm[:2], hole_mm[2])
    _save(document, path)


def _add_segment(space: BaseLayout, segment: Segment, shift: Points, k: float, layer: str) -> None:
    attribs = {"layer": layer}
    if segment.form == "line":
        points = (segment.through_mm + shift) * k
        for a, b in pairwise(points):
            space.add_line(a, b, dxfattribs=attribs)
    elif segment.form == "arc":
        centre, radius, start, sweep = segment.arc()
        ends = sorted((start, start + sweep))
        space.add_arc((centre + shift) * k, radius * k, *np.degrees(ends), dxfattribs=attribs)
    else:
        spline = segment.spline()
        space.add_open_spline((spline.c + shift) * k, degree=spline.k, knots=spline.t, dxfattribs=attribs)


def write_interchange(
    path: Path, style_name: str, base: str, sizes: Iterable[tuple[str, Sequence[DrawnShape]]]
) -> None:
    """Write pieces in several sizes, on the layers of ASTM D6673-10 (withdrawn).

    One block a piece and size, its texts inside it; R12 entities only. Sizes of a piece lie on
    one another, pieces apart.
    """
    logging.getLogger("ezdxf").setLevel(logging.ERROR)  # R12 has no unit; the texts below say it
    document = ezdxf.new("R12")
    space = document.modelspace()
    for i, line in enumerate(
        (
            f"Style Name: {style_name}",
            "Creation Date: 02-03-2026",
            "Creation Time: 09:30",
            "Author: Ash Yard;sample styles;1",
            f"Sample Size: {base}",
            "Units: METRIC",
            "Curve Tolerance: 0.05",
            "ASTM/D13 Proposal 1 Version: D6673-10",
        )
    ):
        space.add_text(line, height=4, dxfattribs={"layer": "1", "insert": (-150, -8 * i)})
    for size, shapes in sizes:
        for shape in shapes:
            name = f"{shape.name.replace(' ', '_')}-{size}"
            _fill_block(document.blocks.new(name), shape, size)
            space.add_blockref(name, shape.shift_mm, dxfattribs={"layer": "1"})
    _save(document, path)


def _fill_block(block: BaseLayout, shape: DrawnShape, size: str) -> None:
    texts = (f"Piece Name: {shape.name}", f"Size: {size}")
    x, y = shape.label_mm
    for i, text in enumerate(texts):
        block.add_text(text, height=3, dxfattribs={"layer": "1", "insert": (x, y - 5 * i)})
    ring = shape.ring()
    closed = np.concatenate([ring, ring[:1]])
    block.add_polyline2d(closed, dxfattribs={"layer": "1"})
    starts = {tuple(np.round(s.through_mm[0], 9)) for s in shape.segments}
    for p in ring:
        layer = "2" if tuple(np.round(p, 9)) in starts else "3"
        block.add_point(p, dxfattribs={"layer": layer})
    for nick in shape.nicks:
        point, inward = shape.nick_at(nick)
        angle = float(np.degrees(np.arctan2(inward[1], inward[0]))) % 360.0
        block.add_point((*point, TICK_MM), dxfattribs={"layer": "4", "angle": angle, "thickness": 1.0})
    for drill in shape.drills:
        block.add_point(drill, dxfattribs={"layer": "13"})
    if shape.mirror_segment is not None:
        mirror = shape.segments[shape.mirror_segment].through_mm
        block.add_line(mirror[0], mirror[-1], dxfattribs={"layer": "6"})
    middle = np.array(shape.label_mm) + (12.0, -18.0)
    half = 9.0 * np.array([np.cos(np.radians(shape.axis_deg)), np.sin(np.radians(shape.axis_deg))])
    block.add_line(middle - half, middle + half, dxfattribs={"layer": "7"})


def _save(document: Drawing, path: Path) -> None:
    for name in sorted(document.entitydb.dxf_types_in_use()):  # otherwise in the order of a hash
        document.classes.add_class(name)
    document.saveas(path)
