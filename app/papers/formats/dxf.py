"""A drawing to DXF for cutters and drawing programs: mm stated, layers by purpose, no blocks.

Written as DXF 2000, the oldest version that states its unit ($INSUNITS = 4, mm; DXF reference).
Outlines are closed LWPOLYLINEs, lettering TEXT; fills stay on paper. Layer names are listed in
docs/papers.md.
"""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

import ezdxf
import numpy as np
from ezdxf.enums import TextEntityAlignment

from app.papers.formats.drawing import Circle, Drawing, Line, Text
from app.papers.formats.lettering import CAP_HEIGHT, tidy
from app.papers.formats.paper_file import write_paper

LAYERS: dict[str, tuple[int, str]] = {
    "cut": (7, "CONTINUOUS"),
    "upper": (7, "CONTINUOUS"),
    "backing": (4, "CONTINUOUS"),
    "both": (8, "CONTINUOUS"),
    "notch": (1, "CONTINUOUS"),
    "drill": (1, "CONTINUOUS"),
    "mark": (8, "DASHED"),
    "axis": (5, "CENTER"),
    "setback": (3, "CONTINUOUS"),
    "text": (2, "CONTINUOUS"),
    "roll-edge": (8, "CONTINUOUS"),
    "flaw": (6, "DASHED"),
    "check": (9, "CONTINUOUS"),
}
"""Layer name: colour index and line type. The names are ours; a cutter takes cut, notch, drill."""

ezdxf.options.write_fixed_meta_data_for_testing = (
    True  # no clock time, no drawn number: same paper, same bytes
)

_ALIGN = {
    "left": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "right": TextEntityAlignment.RIGHT,
}


def write_dxf(drawing: Drawing, path: Path, *, layers: Collection[str] = tuple(LAYERS)) -> Path:
    """Write the marks on ``layers``."""
    document = ezdxf.new("R2000", setup=("linetypes",), units=4)
    document.header["$MEASUREMENT"] = 1
    document.header["$INSUNITS"] = 4
    for name, (colour, linetype) in LAYERS.items():
        if name in layers:
            document.layers.add(name, color=colour, linetype=linetype)
    space = document.modelspace()
    for mark in drawing.walk():
        if isinstance(mark, Line) and mark.layer in layers:
            outline = space.add_lwpolyline([], close=mark.closed, dxfattribs={"layer": mark.layer})
            points = np.zeros((len(mark.points_mm), 5))  # x, y, start width, end width, bulge
            points[:, :2] = np.round(mark.points_mm, 6)
            outline.lwpoints.set(points)
        elif isinstance(mark, Circle) and mark.layer in layers:
            space.add_circle((mark.x_mm, mark.y_mm), mark.radius_mm, dxfattribs={"layer": mark.layer})
        elif isinstance(mark, Text) and mark.layer in layers:
            space.add_text(
                tidy(mark.text).replace("%%", "% %"),  # %% would start a special character
                height=mark.size_mm * CAP_HEIGHT,
                rotation=mark.angle_deg,
                dxfattribs={"layer": mark.layer},
            ).set_placement((mark.x_mm, mark.y_mm), align=_ALIGN[mark.anchor])
    x0, y0, x1, y1 = drawing.bounds_mm()
    document.header["$EXTMIN"] = (x0, y0, 0.0)
    document.header["$EXTMAX"] = (x1, y1, 0.0)
    return write_paper(path, document.saveas)
