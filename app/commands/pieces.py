"""``pieces FILE.dxf``: read a drawing and report its pieces, every repair and all that was left out."""

from __future__ import annotations

import argparse
import os
from typing import Any

from app.commands import Outcome
from app.commands.drawing_arguments import add_drawing, read_asked
from app.commands.report import finding_json
from app.measures import counted
from geometry import tolerances
from geometry.dxf.read import ReadDrawing
from geometry.findings import Finding, Severity
from geometry.piece import DrawnPiece


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the command's own arguments."""
    parser.add_argument("file", metavar="FILE.dxf", help="the drawing")
    add_drawing(parser, f"{tolerances.CHORD_MM:g}")


def run(args: argparse.Namespace) -> Outcome:
    """Read the drawing; raises DrawingError when it holds no piece."""
    drawing = read_asked(args, args.file, tolerances.CHORD_MM)
    return Outcome(payload(drawing), report(drawing, os.path.basename(args.file)))


def payload(drawing: ReadDrawing) -> dict[str, Any]:
    """The import report as one JSON object."""
    return {
        "pieces": [piece_json(piece) for piece in drawing.pieces],
        "repairs": [
            finding_json(f) for f in drawing.findings if f.done and f.severity is not Severity.QUESTION
        ],
        "questions": [finding_json(f) for f in drawing.findings if f.severity is Severity.QUESTION],
        "findings": [finding_json(f) for f in drawing.findings],
        "left_out": [{"what": item.what, "why": item.why} for item in drawing.left_out],
        "unit": drawing.unit,
        "unit_from": drawing.unit_from,
        "unit_choices": [
            {"unit": c.unit, "width_mm": c.width_mm, "height_mm": c.height_mm} for c in drawing.unit_choices
        ],
        "style_name": drawing.style_name,
        "base_size": drawing.base_size,
        "version": drawing.version,
        "rules_from": drawing.rules_from,
        "sizes": list(drawing.sizes),
    }


def piece_json(piece: DrawnPiece) -> dict[str, Any]:
    """One piece as the reports of drawings and pictures give it."""
    outline = piece.outline
    return {
        "name": piece.name,
        "size": piece.size,
        "area_mm2": outline.area_mm2,
        "perimeter_mm": outline.perimeter_mm,
        "bbox_mm": list(outline.bbox_mm),
        "vertices": sum(len(ring) for ring in outline.rings_mm),
        "holes": len(outline.holes_mm),
        "notches": len(piece.notches),
        "pull_axis_deg": piece.pull_axis.axis_deg if piece.pull_axis else None,
        "pull_axis_from": piece.pull_axis.source if piece.pull_axis else None,
        "outline_mm": outline.ring_mm.tolist(),
        "holes_mm": [hole.tolist() for hole in outline.holes_mm],
        "notches_mm": [
            {
                "x": n.x_mm,
                "y": n.y_mm,
                "angle_deg": n.angle_deg,
                "depth_mm": n.depth_mm,
                "width_mm": n.width_mm,
                "kind": n.kind,
            }
            for n in piece.notches
        ],
        "marks": [
            {"kind": m.kind, "closed": m.closed, "points_mm": m.points_mm.tolist()} for m in piece.marks
        ],
        "drill_holes": [{"x": d.x_mm, "y": d.y_mm, "diameter_mm": d.diameter_mm} for d in piece.drill_holes],
        "turn_points_mm": [list(p) for p in piece.turn_points_mm],
        "texts": list(piece.texts),
        "quantity": piece.quantity,
        "layer": piece.layer,
    }


def report(drawing: ReadDrawing, file: str) -> str:
    """The import report for reading."""
    lines = [
        f"{file}: {counted(len(drawing.pieces), 'piece')}, unit {drawing.unit} (from {drawing.unit_from})"
    ]
    if drawing.style_name or drawing.base_size:
        lines.append(f"style {drawing.style_name or '-'}, base size {drawing.base_size or '-'}")
    if drawing.version or drawing.rules_from:
        graded = f"; sizes made from {drawing.rules_from}" if drawing.rules_from else ""
        lines.append(f"layers after {drawing.version or 'ASTM D6673'}{graded}")
    lines.append("")
    lines.append(
        f"{'piece':24} {'size':>5} {'area cm2':>9} {'width x height mm':>18}  holes notches marks  pull axis"
    )
    for piece in drawing.pieces:
        x0, y0, x1, y1 = piece.outline.bbox_mm
        axis = f"{piece.pull_axis.axis_deg:.1f} deg ({piece.pull_axis.source})" if piece.pull_axis else "-"
        lines.append(
            f"{piece.name[:24]:24} {piece.size:>5} {piece.outline.area_mm2 / 100:9.2f} "
            f"{f'{x1 - x0:.1f} x {y1 - y0:.1f}':>18}  {len(piece.outline.holes_mm):5} {len(piece.notches):7} "
            f"{len(piece.marks):5}  {axis}"
        )
    for severity, title in (
        (Severity.ERROR, "errors"),
        (Severity.QUESTION, "to be answered"),
        (Severity.WARNING, "warnings"),
        (Severity.NOTE, "notes"),
    ):
        found = [f for f in drawing.findings if f.severity is severity]
        if found:
            lines += ["", f"{title}:", *(f"  {_worded(f)}" for f in found)]
    if drawing.left_out:
        lines += ["", "left out:", *(f"  {item.what}: {item.why}" for item in drawing.left_out)]
    return "\n".join(lines)


def _worded(finding: Finding) -> str:
    return f"[{finding.code}] {finding}"
