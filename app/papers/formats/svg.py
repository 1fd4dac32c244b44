"""A drawing to SVG 1.1 in mm: width and height in mm, one user unit per mm, a group per layer."""

from __future__ import annotations

from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from app.papers.formats.drawing import Box, Circle, Colour, Drawing, Fill, Line, Pen, Points, Text
from app.papers.formats.lettering import tidy
from app.papers.formats.paper_file import write_text


def write_svg(drawing: Drawing, box: Box, path: Path, *, title: str) -> Path:
    """Write what lies in ``box``; y is turned downwards, as SVG has it."""
    x0, y0, x1, y1 = box
    groups: dict[str, list[str]] = {}
    for mark in drawing.walk():
        layer = "paper" if isinstance(mark, Fill) else getattr(mark, "layer", "")
        into = groups.setdefault(layer, [])
        if isinstance(mark, Line):
            into.append(f'<path d="{_path(mark.points_mm, x0, y1, mark.closed)}"{_pen(mark.pen)}/>')
        elif isinstance(mark, Fill):
            d = " ".join(_path(ring, x0, y1, True) for ring in mark.rings_mm)
            into.append(f'<path d="{d}" fill="{_hex(mark.colour)}" fill-rule="evenodd"/>')
        elif isinstance(mark, Circle):
            x, y = mark.x_mm - x0, y1 - mark.y_mm
            into.append(f'<circle cx="{x:.4f}" cy="{y:.4f}" r="{mark.radius_mm:.4f}"{_pen(mark.pen)}/>')
        elif isinstance(mark, Text):
            into.append(_text(mark, x0, y1))
    width, height = x1 - x0, y1 - y0
    body = "\n".join(
        f'<g id={quoteattr(layer)} fill="none">\n' + "\n".join(marks) + "\n</g>"
        for layer, marks in groups.items()
    )
    return write_text(
        path,
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{width:.4f}mm" '
        f'height="{height:.4f}mm" viewBox="0 0 {width:.4f} {height:.4f}">\n'
        f"<title>{escape(tidy(title))}</title>\n{body}\n</svg>\n",
    )


def _path(points: Points, x0: float, y1: float, closed: bool) -> str:
    flat = (points * (1.0, -1.0) + (-x0, y1)).tolist()
    return "M" + " ".join(f"{x:.4f},{y:.4f}" for x, y in flat) + ("Z" if closed else "")


def _text(mark: Text, x0: float, y1: float) -> str:
    x, y = mark.x_mm - x0, y1 - mark.y_mm
    anchor = {"left": "start", "middle": "middle", "right": "end"}[mark.anchor]
    turn = f' transform="rotate({-mark.angle_deg:.4f} {x:.4f} {y:.4f})"' if mark.angle_deg else ""
    weight = ' font-weight="bold"' if mark.bold else ""
    return (
        f'<text x="{x:.4f}" y="{y:.4f}" font-family="Source Sans Pro, sans-serif" '
        f'font-size="{mark.size_mm:.3f}" text-anchor="{anchor}"{weight}{turn} '
        f'fill="{_hex(mark.colour)}">{escape(tidy(mark.text))}</text>'
    )


def _pen(pen: Pen) -> str:
    dash = f' stroke-dasharray="{" ".join(f"{d:g}" for d in pen.dash_mm)}"' if pen.dash_mm else ""
    return f' fill="none" stroke="{_hex(pen.colour)}" stroke-width="{pen.width_mm:g}"{dash}'


def _hex(colour: Colour) -> str:
    return "#" + "".join(f"{round(255 * c):02x}" for c in colour)
