"""Pattern files with the layers of ASTM D6673-10 (withdrawn 2019) or AAMA-292.

One block holds one piece in one size; all blocks are placed at the origin, so that sizes lie
over each other and lines are never joined from one block to another. The meaning of the layers
is taken from the scheme's published layer table; what is only met in practice (the boundary
repeated on layer 84, quantity texts) is said where it is used.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry import tolerances
from geometry.dxf.drafts import Made
from geometry.dxf.grade_rules import GradeRules
from geometry.dxf.graded import grade, rule_points
from geometry.dxf.lines.collect import Curve, DrawnPoint, DrawnSpace, DrawnText
from geometry.dxf.lines.join import polyline_length
from geometry.dxf.lines.loops import Looped, loops_of, open_outlines
from geometry.dxf.lines.rings import Loop, nest, sound
from geometry.dxf.marks import axis_deg, tick_notch
from geometry.dxf.mirror_line import unfold
from geometry.dxf.pieces import notch_at
from geometry.errors import OutlineError
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import DrawnPiece, DrillHole, Mark, PullAxis
from geometry.said import said

_TEXT = re.compile(r"^\s*([A-Za-z][A-Za-z /]*?)\s*:\s*(.*?)\s*$")
_VERSION = re.compile(r"^\s*(ASTM\s*/\s*D\s*13|ANSI\s*/\s*AAMA).*VERSION", re.IGNORECASE)
_SIZE_SUFFIX = re.compile(r"[-_ ]([0-9]{1,3}(?:[.,][05])?|X{0,4}[SL]|M)$", re.IGNORECASE)

BOUNDARY, TURN, CURVE, NOTCH, GRADE, MIRROR, GRAIN = "1", "2", "3", "4", "5", "6", "7"
INTERNAL, STRIPE, PLAID, CUTOUT, DRILL, SEW, NOTE_TEXT = "8", "9", "10", "11", "13", "14", "15"
CHECK_BOUNDARY = "84"
_CHECKS = {"84", "85", "86", "87"}
_NotchKind = Literal["slit", "v", "t", "castle", "check", "u"]
_NOTCHES: dict[str, _NotchKind] = {NOTCH: "slit", "80": "t", "81": "castle", "82": "check", "83": "u"}
_MarkKind = Literal["line", "sew", "grade-reference", "stripe", "plaid"]
_MARKS: dict[str, _MarkKind] = {
    INTERNAL: "line",
    SEW: "sew",
    GRADE: "grade-reference",
    STRIPE: "stripe",
    PLAID: "plaid",
}


@dataclass(frozen=True)
class Heading:
    """What the file says about the style as a whole."""

    style_name: str = ""
    base_size: str = ""
    version: str = ""
    rule_table: str = ""


@dataclass
class _Group:
    """All that one placed block holds."""

    block: str
    curves: list[Curve] = field(default_factory=list)
    points: list[DrawnPoint] = field(default_factory=list)
    texts: list[DrawnText] = field(default_factory=list)


def is_pattern_file(sheet: DrawnSpace) -> bool:
    """Tell whether a block names its piece the way the scheme asks for."""
    return any(text.scope and _label(text.text)[0] == "piece name" for text in sheet.texts)


def heading(sheet: DrawnSpace) -> Heading:
    """Return style name and sample size from the style's own texts."""
    found: dict[str, str] = {}
    for text in sheet.texts:
        label, value = _label(text.text)
        if label in ("style name", "sample size", "grade rule table") and value:
            found.setdefault(label, value)
        elif _VERSION.match(text.text):
            found.setdefault("version", " ".join(text.text.split()))
    return Heading(
        found.get("style name", ""),
        found.get("sample size", ""),
        found.get("version", ""),
        found.get("grade rule table", ""),
    )


def _label(text: str) -> tuple[str, str]:
    found = _TEXT.match(text)
    if not found:
        return "", ""
    return " ".join(found.group(1).lower().split()), found.group(2)


def pieces_of(
    sheet: DrawnSpace, chord_mm: float, join_mm: float, rules: GradeRules | None = None
) -> tuple[Made, DrawnSpace]:
    """Return the pieces of all blocks, and the sheet of what stands in none.

    With grade rules a piece drawn in the sample size comes in every size of the rules that is not
    drawn itself.
    """
    made = Made()
    graded: list[DrawnPiece] = []
    rest = DrawnSpace(blocks=sheet.blocks)
    groups: dict[int, _Group] = defaultdict(lambda: _Group(""))
    for serial, block in sheet.blocks.items():
        groups[serial].block = block
    for curve in sheet.curves:
        in_block = bool(curve.scope) and curve.scope[0] in sheet.blocks
        (groups[curve.scope[0]].curves if in_block else rest.curves).append(curve)
    for point in sheet.points:
        (groups[point.scope[0]].points if point.scope else rest.points).append(point)
    for text in sheet.texts:
        if text.scope:
            groups[text.scope[0]].texts.append(text)
        elif not _label(text.text)[0] and not _VERSION.match(text.text):
            rest.texts.append(text)
    for group in groups.values():
        _piece(group, chord_mm, join_mm, made, rules, graded)
    drawn = {(piece.name, piece.size) for piece in made.pieces}
    made.pieces += [piece for piece in graded if (piece.name, piece.size) not in drawn]
    whole = {
        name for name, _ in drawn if all((name, size) in drawn for size in (rules.sizes if rules else ()))
    }
    about_rules = ("NOT_GRADED", "GRADE_REFERENCE")  # of no interest where every size is drawn
    made.findings = [f for f in made.findings if f.code not in about_rules or f.piece not in whole]
    names: Counter[tuple[str, str]] = Counter()
    for i, piece in enumerate(made.pieces):
        names[piece.name, piece.size] += 1
        if names[piece.name, piece.size] > 1:
            made.pieces[i] = replace(piece, name=f"{piece.name} {names[piece.name, piece.size]}")
    return made, rest


def _piece(
    group: _Group,
    chord_mm: float,
    join_mm: float,
    made: Made,
    rules: GradeRules | None,
    graded: list[DrawnPiece],
) -> None:
    labels: dict[str, str] = {}
    for text in group.texts:
        label, value = _label(text.text)
        if label and value:
            labels.setdefault(label, value)
    name = labels.get("piece name") or group.block
    size = labels.get("size", "")
    if not size:
        suffix = _SIZE_SUFFIX.search(group.block)
        size = suffix.group(1) if suffix else ""
    findings: list[Finding] = []
    by_layer: dict[str, list[Curve]] = defaultdict(list)
    for curve in group.curves:
        by_layer[curve.layer.strip()].append(curve)
    drawn = by_layer.pop(BOUNDARY, [])
    if not drawn and by_layer.get(CHECK_BOUNDARY):
        drawn = by_layer.pop(CHECK_BOUNDARY)
        findings.append(
            Finding(
                code="BOUNDARY_FROM_CHECK",
                severity=Severity.WARNING,
                message="there is no boundary on layer 1",
                done="the validation curve on layer 84 is taken as the boundary",
            )
        )
    if not drawn and not group.curves:
        return  # a block of texts alone
    looped = loops_of(drawn, join_mm)
    if not looped.loops and by_layer.get(MIRROR):
        # some programs draw the fold of a half piece as its mirror line alone
        looped = loops_of([*drawn, *(replace(c, layer=BOUNDARY) for c in by_layer[MIRROR])], join_mm)
    rings = sound(looped.loops, chord_mm)
    findings += rings.findings
    if not rings.loops:
        missed, _ = open_outlines(looped.open, join_mm, drawn)
        findings += missed or [
            Finding(
                code="OPEN_OUTLINE",
                severity=Severity.ERROR,
                message="there is no closed boundary on layer 1",
                done="left out",
                advice="close the boundary in the drawing",
            )
        ]
        made.left_out[f"piece {name} {size}".strip(), "its boundary is not closed"] += 1
        made.findings += [replace(f, piece=name, size=size) for f in findings]
        return
    cutouts = loops_of(by_layer.pop(CUTOUT, []), join_mm)
    holes = sound(cutouts.loops, chord_mm)
    findings += holes.findings
    loops = [loop for loop in rings.loops]
    nested = nest(loops)
    roots = [i for i in range(len(loops)) if nested.depth[i] % 2 == 0]
    roots.sort(key=lambda i: -loops[i].area_mm2)
    if len(roots) > 1:
        findings.append(
            Finding(
                code="SEVERAL_BOUNDARIES",
                severity=Severity.WARNING,
                message=said("the block {0} holds {1} closed boundaries", group.block, len(roots)),
                done="each is read as a piece",
                advice="the scheme asks for one piece per block",
                where_mm=tuple(loops[i].place_mm for i in roots),
            )
        )
    for number, root in enumerate(roots, start=1):
        inner = [loops[k] for k in range(len(loops)) if nested.parent[k] == root]
        own = name if number == 1 else f"{name} part {number}"
        _finish(
            own,
            size,
            labels,
            loops[root],
            inner,
            holes.loops,
            by_layer,
            group,
            cutouts,
            looped,
            findings,
            made,
            join_mm,
            rules,
            graded,
        )
        findings = []
    for layer in _CHECKS & set(by_layer):
        made.left_out[f"curves on layer {layer}", "validation curves: they repeat what is drawn"] += len(
            by_layer[layer]
        )


def _finish(
    name: str,
    size: str,
    labels: dict[str, str],
    outer: Loop,
    inner: Sequence[Loop],
    cut: Sequence[Loop],
    by_layer: dict[str, list[Curve]],
    group: _Group,
    cutouts: Looped,
    looped: Looped,
    findings: list[Finding],
    made: Made,
    join_mm: float,
    rules: GradeRules | None,
    graded: list[DrawnPiece],
) -> None:
    cover = Polygon(outer.points)
    holes = [hole.points for hole in [*inner, *cut] if cover.intersects(Polygon(hole.points))]
    try:
        outline = Outline.make(outer.points, holes)
        if not outline.polygon.is_valid:
            rest = shapely.difference(cover, shapely.union_all([Polygon(hole) for hole in holes]))
            largest = max(shapely.get_parts(rest).tolist(), key=lambda p: p.area)
            outline = Outline.of_polygon(largest)
            findings.append(
                Finding(
                    code="CUT_OUT_AT_EDGE",
                    severity=Severity.WARNING,
                    message="a cut-out meets the boundary or another cut-out",
                    done="taken off the piece",
                )
            )
    except (OutlineError, ValueError) as error:
        made.left_out[f"piece {name} {size}".strip(), str(error)] += 1
        made.findings.append(
            Finding(code="BAD_OUTLINE", severity=Severity.ERROR, message=str(error), piece=name, size=size)
        )
        return
    gaps = [gap for loop in (outer, *inner, *cut) for gap in loop.gaps]
    if gaps:
        widest = max(gap.width_mm for gap in gaps)
        findings.append(
            Finding(
                code="GAP_CLOSED",
                severity=Severity.WARNING if widest > 0.1 else Severity.NOTE,
                message=said("{0} gaps closed, the widest {1} mm", len(gaps), f"{widest:.2g}"),
                done="the ends were brought together",
                where_mm=tuple(gap.place_mm for gap in gaps),
            )
        )
    polygon = outline.polygon
    notches = [
        replace(notch_at(outline, point), kind=_NOTCHES[point.layer.strip()])
        for point in group.points
        if point.layer.strip() in _NOTCHES and cover.distance(shapely.Point(point.x, point.y)) < 5.0
    ]
    marks: list[Mark] = []
    for layer, curves in by_layer.items():
        if layer in _NOTCHES:
            for curve in curves:
                notch = tick_notch(outline, polygon, curve.points)
                if notch is None:
                    marks.append(Mark(curve.points, "line", curve.closed))
                else:
                    notches.append(replace(notch, kind=_NOTCHES[layer]))
        elif layer in _MARKS:
            marks += _marks(curves, _MARKS[layer], join_mm)
        elif layer not in _CHECKS | {GRAIN, MIRROR, TURN, CURVE, DRILL, NOTE_TEXT}:
            marks += _marks(curves, "line", join_mm)
            findings.append(
                Finding(
                    code="UNKNOWN_LAYER",
                    severity=Severity.NOTE,
                    message=said("layer {0} is not one of the scheme ({1} lines)", layer, len(curves)),
                    done="kept as marks",
                )
            )
    marks += [Mark(chain.points) for chain in [*looped.open, *cutouts.open]]
    if looped.open or cutouts.open:
        findings.append(
            Finding(
                code="OPEN_LINE",
                severity=Severity.WARNING,
                message=said(
                    "{0} lines of the boundary or cut-outs stay open", len(looped.open) + len(cutouts.open)
                ),
                done="kept as marks",
                advice="check whether a cut-out is missing",
            )
        )
    drill = [DrillHole(p.x, p.y) for p in group.points if p.layer.strip() == DRILL]
    for curve in by_layer.get(DRILL, []):
        low, high = curve.points.min(axis=0), curve.points.max(axis=0)
        middle = (low + high) / 2
        drill.append(DrillHole(float(middle[0]), float(middle[1]), float((high - low).max())))
    edge = polygon.boundary
    turns = tuple(
        (p.x, p.y)
        for p in group.points
        if p.layer.strip() == TURN and edge.distance(shapely.Point(p.x, p.y)) <= tolerances.ON_BOUNDARY_MM
    )
    piece = DrawnPiece(
        name=name,
        outline=outline,
        size=size,
        notches=tuple(notches),
        marks=tuple(marks),
        drill_holes=tuple(drill),
        turn_points_mm=turns,
        texts=tuple(text.text for text in group.texts),
        quantity=labels.get("quantity", ""),
        pull_axis=_grain(by_layer.get(GRAIN, []), findings),
        layer=outer.layer,
    )
    fold = max((c.points for c in by_layer.get(MIRROR, [])), key=polyline_length, default=None)
    if rules is not None and size in ("", rules.sample):
        piece = replace(piece, size=rules.sample)
        lines = [curve.points for curve in by_layer.get(GRADE, [])]
        sizes, noticed = grade(piece, rule_points(group.texts), rules, lines, fold)
        findings += noticed
        graded += [half if own is None else unfold(half, own)[0] for half, own in sizes.values()]
    if fold is not None:
        piece, finding = unfold(piece, fold)
        findings.append(finding)
    if "," in piece.quantity or piece.quantity.strip() == "1":
        findings.append(
            Finding(
                code="QUANTITY",
                severity=Severity.QUESTION,
                message=said('the quantity reads "{0}"', piece.quantity),
                done="kept as it stands",
                advice="state whether it counts right and left pieces, pairs or single pieces",
            )
        )
    made.pieces.append(piece)
    made.findings += [replace(f, piece=name, size=size) for f in findings]


def _marks(curves: list[Curve], kind: _MarkKind, join_mm: float) -> list[Mark]:
    """Join the lines of a layer, so that a mark is one line."""
    looped = loops_of(curves, join_mm)
    return [Mark(loop.points, kind, True) for loop in looped.loops] + [
        Mark(chain.points, kind) for chain in looped.open
    ]


def _grain(curves: list[Curve], findings: list[Finding]) -> PullAxis | None:
    """The longest grain line, as the pull axis proposed."""
    lines = sorted((curve.points for curve in curves), key=lambda p: -float(np.hypot(*(p[-1] - p[0]))))
    if not lines or not float(np.hypot(*(lines[0][-1] - lines[0][0]))):
        return None
    axis = axis_deg(lines[0])
    other = [axis_deg(line) for line in lines[1:] if polyline_length(line) > 0.5 * polyline_length(lines[0])]
    if any(abs((angle - axis + 90.0) % 180.0 - 90.0) > 1.0 for angle in other):
        findings.append(
            Finding(
                code="SEVERAL_GRAIN_LINES",
                severity=Severity.QUESTION,
                message=said("there are {0} grain lines in different directions", len(lines)),
                done="the longest is proposed as pull axis",
                advice="confirm the pull axis",
            )
        )
    return PullAxis(axis, "grain line")
