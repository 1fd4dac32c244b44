"""``backing``: what is cut from the fabric, by piece, size and hand."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from app.cautions import caution_lines, cautions
from app.commands import Outcome, say
from app.commands.arguments import add_sizes_and_hands, sizes_and_hands
from app.commands.report import finding_json, say_findings
from app.errors import UsageError
from app.measures import counted
from app.papers.formats.drawing import Drawing
from app.papers.formats.dxf import write_dxf
from app.papers.layout import pens
from app.papers.layout.marks import draw_axis
from app.papers.pictures.pieces import draw_details
from app.style.file import load_style
from app.style.pieces import backings, draft_rules, findings
from geometry.backing.edges import edge_points
from geometry.backing.house_rules import DraftRules
from geometry.drawn.details import cut_apart, details_of_part
from geometry.findings import Finding, Severity
from geometry.piece import BackingPiece
from geometry.said import said

ROW_MM = 1500.0  # how wide the drawing of all pieces may grow before a new row starts
BETWEEN_MM = 15.0  # room for the name and for a hand to tell pieces apart


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    add_sizes_and_hands(parser)
    parser.add_argument(
        "-o", "--out", type=Path, metavar="OUT.dxf", help="write the backing pieces as DXF, 1:1"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Derive, report, write; exit status 1 when a piece vanished."""
    style = load_style(args.style)
    sizes, hands = sizes_and_hands(args, style)
    if args.out and args.out.suffix.lower() != ".dxf":
        raise UsageError("the backing is written as DXF", file=str(args.out), remedy="name it OUT.dxf")
    derived = backings(style, sizes, hands)
    noticed = findings(style, sizes, hands)
    rules = draft_rules(style)
    vanished = [backing for backing in derived if not backing.outlines]
    written = []
    if args.out and vanished:
        say(said("{0} was not written: backings that vanished: {1}", args.out, len(vanished)))
    elif args.out:
        write_dxf(backing_drawing(derived), args.out)
        written.append(str(args.out))
    say_findings(noticed)
    lines = [f"{style.name}: {counted(len(derived), 'backing piece')} in {counted(len(sizes), 'size')}"]
    lines += _lines(derived)
    lines += caution_lines("backing")
    lines += [f"written: {path}" for path in written]
    payload = {
        "style": style.name,
        "pieces": [_json(backing, rules, noticed) for backing in derived],
        "not_backed": [piece.name for piece in style.pieces if not piece.layers],
        "findings": [finding_json(finding) for finding in noticed],
        "cautions": cautions("backing"),
        "written": written,
    }
    return Outcome(payload, "\n".join(lines), 1 if vanished else 0)


def backing_drawing(derived: Sequence[BackingPiece]) -> Drawing:
    """Return all backing pieces side by side at full size, one row per size; parts that lap lie apart."""
    drawing = Drawing()
    x = y = row = 0.0
    size = derived[0].upper.size if derived else ""
    for backing in (part for whole in derived for part in cut_apart(whole)):
        boxes = np.array([outline.bbox_mm for outline in backing.outlines])
        low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
        if x > 0 and (x + high[0] - low[0] > ROW_MM or backing.upper.size != size):
            x, y, row = 0.0, y - row - BETWEEN_MM, 0.0
        size = backing.upper.size
        drawing.place(_piece_drawing(backing), x - low[0], y - high[1])
        x += high[0] - low[0] + BETWEEN_MM
        row = max(row, high[1] - low[1])
    return drawing


def _piece_drawing(backing: BackingPiece) -> Drawing:
    drawing = Drawing()
    for outline in backing.outlines:
        for ring in outline.rings_mm:
            drawing.line(ring, pens.CUT, "cut", closed=True)
    draw_details(drawing, backing.notches, backing.marks, backing.drill_holes, backing.letterings)
    for number, outline in enumerate(backing.outlines):
        spot = outline.polygon.representative_point()
        part = f", {backing.part_name(number)}" if backing.part_name(number) else ""
        draw_axis(drawing, spot.x, spot.y, backing.upper.pull_axis.axis_deg, 30.0)
        drawing.text(spot.x, spot.y - 6.0, _name(backing) + part, pens.LABEL, anchor="middle")
    return drawing


def _name(backing: BackingPiece) -> str:
    layer = f" layer {backing.layer + 1}" if backing.layer else ""
    return f"{backing.upper.name}{layer} {backing.upper.size} {backing.upper.hand}"


def _lines(derived: Sequence[BackingPiece]) -> list[str]:
    """One line per piece and layer: areas by size (both hands are alike), and what of the upper it covers."""
    grouped: dict[tuple[str, int], dict[str, BackingPiece]] = {}
    for backing in derived:
        grouped.setdefault((backing.upper.name, backing.layer), {})[backing.upper.size] = backing
    lines = []
    for (name, layer), by_size in grouped.items():
        areas = ", ".join(
            f"{size} {b.area_mm2 / 100:.1f}" if b.outlines else f"{size} VANISHED"
            for size, b in by_size.items()
        )
        shares = [b.area_mm2 / b.upper.outline.area_mm2 for b in by_size.values()]
        parts = max(len(b.outlines) for b in by_size.values())
        told = f"  {name}{f' layer {layer + 1}' if layer else ''}: {areas} cm2"
        low, high = f"{min(shares):.0%}", f"{max(shares):.0%}"
        told += f"; {low if low == high else f'{low} to {high}'} of the upper"
        lines.append(told + (f", in {parts} parts" if parts > 1 else ""))
    return lines


def _json(backing: BackingPiece, rules: DraftRules, noticed: Sequence[Finding]) -> dict[str, Any]:
    upper = backing.upper
    edges = []
    for ring, here in enumerate(upper.edging.edges):
        for number, edge in enumerate(here):
            allowance = edge.allowance_mm
            edges.append(
                {
                    "kind": edge.kind.value,
                    "setback_mm": backing.setbacks_mm[ring][number],
                    "setback_end_mm": backing.end_setbacks_mm[ring][number],
                    "allowance_mm": rules.edge_rules[edge.kind].allowance_mm
                    if allowance is None
                    else allowance,
                    "confirmed": edge.confirmed,
                    "ring": ring,
                    "points_mm": edge_points(upper.outline, upper.edging, ring, number).tolist(),
                }
            )
    about = [f for f in noticed if f.piece in ("", upper.name) and f.size in ("", upper.size)]
    return {
        "name": upper.name,
        "size": upper.size,
        "hand": upper.hand,
        "layer": backing.layer,
        "upper_outline_mm": upper.outline.ring_mm.tolist(),
        "upper_holes_mm": [hole.tolist() for hole in upper.outline.holes_mm],
        "edges": edges,
        "backing_outlines_mm": [outline.ring_mm.tolist() for outline in backing.outlines],
        "backing_holes_mm": [hole.tolist() for outline in backing.outlines for hole in outline.holes_mm],
        "parts": [
            {"name": backing.part_name(k), "area_mm2": outline.area_mm2, "notches": len(own.notches)}
            for k, outline in enumerate(backing.outlines)
            for own in [details_of_part(backing, k)]
        ],
        "notches": [{"x_mm": n.x_mm, "y_mm": n.y_mm, "angle_deg": n.angle_deg} for n in backing.notches],
        "changed_by_hand_mm": [mark.points_mm.tolist() for mark in backing.changes],
        "joined": list(backing.joined),
        "area_mm2": backing.area_mm2,
        "pull_axis_deg": upper.pull_axis.axis_deg,
        "warnings": [str(finding) for finding in about if finding.severity is not Severity.NOTE],
    }
