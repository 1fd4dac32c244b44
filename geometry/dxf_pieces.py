"""Loops, open lines, points and texts of a free drawing -> pieces with names."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry import tolerances
from geometry.dxf_collect import DrawnPoint, DrawnText, Sheet
from geometry.dxf_join import Chain
from geometry.dxf_loops import loops_of, open_outlines, trim_overshoots
from geometry.dxf_marks import inside_way, inward_deg, runs_along, tick_notch
from geometry.dxf_rings import Loop, Nested, drawn_twice, nest, sound
from geometry.errors import OutlineError
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import DrawnPiece, DrillHole, Mark, Notch

_UNITS = re.compile(r"^\s*units?\s*[:=]", re.IGNORECASE)
_LABEL = re.compile(r"^\s*(piece\s*name|piece|name|size|quantity|qty)\s*[:=]\s*(.+)$", re.IGNORECASE)


@dataclass
class Made:
    """Pieces, what was noticed and what was left out, with counts."""

    pieces: list[DrawnPiece] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    left_out: Counter[tuple[str, str]] = field(default_factory=Counter)


@dataclass
class _Draft:
    """A piece being put together."""

    loop: Loop
    outline: Outline
    polygon: Polygon
    cover: Polygon
    texts: list[DrawnText] = field(default_factory=list)
    notches: list[Notch] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    drill_holes: list[DrillHole] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


def pieces_of(sheet: Sheet, chord_mm: float, join_mm: float) -> Made:
    """Return the pieces of a sheet (in mm) that follows no layer scheme."""
    made = Made()
    looped = loops_of(sheet.curves, join_mm)
    rings = sound(looped.loops, chord_mm)
    open_chains = [c for c in looped.open if sheet.curves[c.sources[0]].kind != "HATCH"]
    made.left_out["HATCH", "its boundary is not closed"] += len(looped.open) - len(open_chains)
    outer = shapely.union_all([Polygon(loop.points) for loop in rings.loops]) if rings.loops else Polygon()
    shapely.prepare(outer)
    outside = [c for c in open_chains if not _mostly_inside(outer, c)]
    trimmed, outside, findings = trim_overshoots(outside, sheet.curves)
    if trimmed:
        rings = sound(looped.loops + trimmed, chord_mm)
        made.findings += findings
    made.findings += rings.findings
    open_chains = [c for c in open_chains if _mostly_inside(outer, c)] + outside
    doubles = len(rings.doubles) + len(looped.doubles)
    drafts = _drafts(rings.loops, made)
    missed, told = open_outlines(outside, join_mm, sheet.curves)
    made.findings += missed
    made.left_out["open outline", "its ends do not meet"] += len(missed)
    made.left_out["speck", "a closed line thinner than a hair"] += len(rings.specks)
    doubles += _place_lines([c for c in open_chains if not told & set(c.sources)], drafts, sheet, made)
    if doubles:
        made.left_out["double line", "drawn over another line"] += doubles
        made.findings.append(
            Finding(
                code="DOUBLE",
                severity=Severity.NOTE,
                message=f"{doubles} lines or outlines are drawn over others",
                done="kept once",
            )
        )
    for loop, line in rings.spikes:
        _place_spike(loop, line, drafts)
    _place_points(sheet.points, drafts, made)
    _place_texts(sheet, drafts, made)
    _finish(drafts, sheet, made)
    made.left_out += Counter()  # drop zero counts
    return made


def _mostly_inside(area: Polygon, chain: Chain) -> bool:
    if area.is_empty:
        return False
    line = shapely.LineString(chain.points)
    if area.covers(line):
        return True
    return bool(shapely.intersection(line, area).length > 0.5 * line.length)


def _drafts(loops: list[Loop], made: Made) -> list[_Draft]:
    if not loops:
        return []
    nested = nest(loops)
    for a, b in nested.crossing:
        made.findings.append(
            Finding(
                code="CROSSING_OUTLINES",
                severity=Severity.WARNING,
                message=f"outlines on layers {loops[a].layer} and {loops[b].layer} overlap in part",
                done="kept as two pieces",
                advice="draw the pieces apart if they are two, or join them if they are one",
                where_mm=(loops[a].place_mm, loops[b].place_mm),
            )
        )
    frame = _frame(loops, nested)
    if frame >= 0:
        made.findings.append(
            Finding(
                code="FRAME",
                severity=Severity.QUESTION,
                message=f"the rectangle on layer {loops[frame].layer} around it all looks like a frame",
                done="left out, what lies in it is read as pieces",
                advice="delete it in the drawing if so; if it is a piece, move it to the layer of the pieces",
                where_mm=(loops[frame].place_mm,),
            )
        )
        made.left_out["frame", "a rectangle around all pieces"] += 1
        loops = loops[:frame] + loops[frame + 1 :]
        nested = nest(loops)
    if nested.stacked:
        made.findings.append(
            Finding(
                code="STACKED_BLOCKS",
                severity=Severity.QUESTION,
                message=f"outlines of {len({i for pair in nested.stacked for i in pair})} blocks "
                "lie over each other, like sizes",
                done="each is read as a piece, none as a cut-out",
                advice="say which sizes they are",
                where_mm=tuple(loops[i].place_mm for _, i in nested.stacked),
            )
        )
    if any(loop.face for loop in loops):
        shared = [loop for loop in loops if loop.face]
        made.findings.append(
            Finding(
                code="SHARED_LINE",
                severity=Severity.QUESTION,
                message=f"{len(shared)} closed areas share lines",
                done="each area is read as a piece of its own",
                advice="if a line only marks a piece, draw it on another layer",
                where_mm=tuple(loop.place_mm for loop in shared),
            )
        )
    drafts: list[_Draft] = []
    for i, loop in enumerate(loops):
        if nested.depth[i] % 2:
            continue
        holes = [loops[k] for k in range(len(loops)) if nested.parent[k] == i]
        holes = _true_cut_outs(loop, holes, made)
        drafts += _draft(loop, holes, made)
    return drafts


def _true_cut_outs(loop: Loop, holes: list[Loop], made: Made) -> list[Loop]:
    """Drop a second drawing of the outline itself; ask about a cut-out that takes most of it."""
    kept: list[Loop] = []
    for hole in holes:
        if drawn_twice(loop, hole):
            made.left_out["outline", "drawn twice, a fraction of a millimetre apart"] += 1
            made.findings.append(
                Finding(
                    code="DRAWN_TWICE",
                    severity=Severity.WARNING,
                    message=f"an outline on layer {loop.layer} is drawn twice, slightly apart",
                    done="the outer one is kept",
                    advice="delete the wrong one in the drawing",
                    where_mm=(loop.place_mm,),
                )
            )
            continue
        kept.append(hole)
        if hole.layer != loop.layer and hole.area_mm2 > 0.5 * loop.area_mm2:
            made.findings.append(
                Finding(
                    code="LARGE_CUT_OUT",
                    severity=Severity.QUESTION,
                    message=f"a closed line on layer {hole.layer} in the outline on layer {loop.layer} "
                    f"takes {100 * hole.area_mm2 / loop.area_mm2:.0f} % of it",
                    done="read as a cut-out",
                    advice="if it is a stitch or feather line, leave it open or switch its layer off",
                    where_mm=(hole.place_mm,),
                )
            )
    return kept


def _draft(loop: Loop, holes: list[Loop], made: Made) -> list[_Draft]:
    """One piece, or the parts that are left when a cut-out meets the outline."""
    try:
        outline = Outline.make(loop.points, [hole.points for hole in holes])
    except OutlineError as error:
        made.left_out["outline", error.message] += 1
        return []
    polygon = outline.polygon
    findings: list[Finding] = []
    gaps = [gap for part in (loop, *holes) for gap in part.gaps]
    if gaps:
        widest = max(gap.width_mm for gap in gaps)
        spots = ", ".join(f"({x:.2f}, {y:.2f})" for x, y in [gap.place_mm for gap in gaps[:4]])
        many = f"{len(gaps)} gaps closed, the widest {widest:.3g} mm, at" if len(gaps) > 1 else ""
        findings.append(
            Finding(
                code="GAP_CLOSED",
                severity=Severity.WARNING if widest > 0.1 else Severity.NOTE,
                message=f"{many or f'a gap of {widest:.2g} mm closed at'} {spots}"
                + (" and more" if len(gaps) > 4 else ""),
                done="the ends were brought together",
                where_mm=tuple(gap.place_mm for gap in gaps),
            )
        )
    if polygon.is_valid:
        return [_Draft(loop, outline, polygon, Polygon(outline.ring_mm), findings=findings)]
    freed = _freed(loop, holes)
    if freed is not None:
        findings.append(
            Finding(
                code="CUT_OUT_TOUCHES",
                severity=Severity.WARNING,
                message="a cut-out touches the outline or another cut-out: nothing holds there",
                done="the cut-outs were drawn in by a hair",
                advice="look whether the piece is drawn as meant",
                where_mm=(loop.place_mm,),
            )
        )
        return [_Draft(loop, freed, freed.polygon, Polygon(freed.ring_mm), findings=findings)]
    rest = Polygon(loop.points)
    for hole in holes:
        rest = shapely.difference(rest, Polygon(hole.points))
    parts = [p for p in shapely.get_parts(rest).tolist() if p.geom_type == "Polygon" and p.area > 0.0]
    findings.append(
        Finding(
            code="CUT_OUT_AT_EDGE",
            severity=Severity.WARNING,
            message="a cut-out meets the outline or another cut-out",
            done=f"taken off the piece, {len(parts)} left",
            advice="look whether the piece is drawn as meant",
            where_mm=(loop.place_mm,),
        )
    )
    drafts = []
    for part in parts:
        outline = Outline.of_polygon(part)
        drafts.append(_Draft(loop, outline, part, Polygon(outline.ring_mm), findings=findings))
        findings = []
    return drafts


def _freed(loop: Loop, holes: list[Loop]) -> Outline | None:
    """Return the outline with its cut-outs drawn in a hair, None where they really overlap."""
    for inset in (tolerances.FREE_MM, 4.0 * tolerances.FREE_MM, 10.0 * tolerances.FREE_MM):
        inner = [shapely.buffer(Polygon(hole.points), -inset, join_style="mitre") for hole in holes]
        if any(hole.geom_type != "Polygon" or hole.is_empty for hole in inner):
            return None
        outline = Outline.make(loop.points, [np.asarray(hole.exterior.coords)[:-1] for hole in inner])
        if outline.polygon.is_valid:
            return outline
    return None


def _frame(loops: list[Loop], nested: Nested) -> int:
    """Return the ring that is a sheet's frame, -1 for none.

    A rectangle square to the axes, on a layer that nothing it holds is drawn on, around at least
    two rings of piece size. Left to the person as a question.
    """
    roots = [i for i in range(len(loops)) if nested.depth[i] == 0]
    for i in roots:
        ring = loops[i].points
        if len(ring) != 4 or any(min(abs(a[0] - b[0]), abs(a[1] - b[1])) > 1e-6 for a, b in _sides(ring)):
            continue
        inner = [k for k in range(len(loops)) if nested.parent[k] == i]
        large = [
            k for k in inner if np.ptp(loops[k].points, axis=0).max() >= tolerances.PLAUSIBLE_PIECE_MM[0]
        ]
        if len(large) >= 2 and all(loops[k].layer != loops[i].layer for k in inner):
            return i
    return -1


def _sides(ring: np.ndarray) -> list[tuple[np.ndarray, np.ndarray]]:
    return list(zip(ring, np.roll(ring, -1, axis=0), strict=True))


def _place_lines(chains: list[Chain], drafts: list[_Draft], sheet: Sheet, made: Made) -> int:
    """Make marks and notches of open lines; returns how many were double lines."""
    tree = shapely.STRtree([draft.cover for draft in drafts]) if drafts else None
    doubles = 0
    for chain in chains:
        line = shapely.LineString(chain.points)
        near = (
            []
            if tree is None
            else [int(i) for i in tree.query(line, predicate="dwithin", distance=tolerances.ON_BOUNDARY_MM)]
        )
        near.sort(key=lambda i: drafts[i].cover.area)
        if any(runs_along(drafts[i].polygon, chain.points) for i in near):
            doubles += 1
            continue
        for i in near:
            notch = tick_notch(drafts[i].outline, drafts[i].polygon, chain.points)
            if notch is not None:
                drafts[i].notches.append(notch)
                break
            if _mostly_inside(drafts[i].cover, chain):
                drafts[i].marks.append(Mark(chain.points))
                break
        else:
            kinds = {sheet.curves[k].kind for k in chain.sources}
            made.left_out[f"open {'/'.join(sorted(kinds))}", "outside every piece, bounds nothing"] += 1
    return doubles


def _place_spike(loop: Loop, line: np.ndarray, drafts: list[_Draft]) -> None:
    """Keep a line that an outline runs along there and back as a notch or a mark."""
    for draft in drafts:
        if draft.loop.layer == loop.layer and draft.cover.distance(shapely.LineString(line)) < 1e-3:
            notch = tick_notch(draft.outline, draft.polygon, line)
            if notch is not None:
                draft.notches.append(notch)
            else:
                draft.marks.append(Mark(line))
            draft.findings.append(
                Finding(
                    code="SPIKE",
                    severity=Severity.NOTE,
                    message="the outline runs there and back along a line at "
                    f"({line[0][0]:.2f}, {line[0][1]:.2f})",
                    done="taken off the outline, kept as a " + ("mark" if notch is None else "notch"),
                    where_mm=tuple((float(x), float(y)) for x, y in line[:4]),
                )
            )
            return


def _place_points(points: Sequence[DrawnPoint], drafts: list[_Draft], made: Made) -> None:
    """POINTs on the boundary are notches, inside they are drill holes."""
    tree = shapely.STRtree([draft.cover for draft in drafts]) if drafts else None
    for point in points:
        spot = shapely.Point(point.x, point.y)
        near = (
            []
            if tree is None
            else [int(i) for i in tree.query(spot, predicate="dwithin", distance=tolerances.ON_BOUNDARY_MM)]
        )
        near.sort(key=lambda i: drafts[i].cover.area)
        if not near:
            made.left_out["POINT", "outside every piece"] += 1
            continue
        draft = drafts[near[0]]
        if draft.polygon.boundary.distance(spot) <= tolerances.ON_BOUNDARY_MM:
            draft.notches.append(notch_at(draft.outline, point))
        else:
            draft.drill_holes.append(DrillHole(point.x, point.y))


def notch_at(outline: Outline, point: DrawnPoint) -> Notch:
    """Return the notch of a POINT at the boundary."""
    if point.angle_deg is None:
        angle = inward_deg(outline, point.x, point.y)
    else:
        angle = inside_way(outline, point.x, point.y, point.angle_deg)
    notch = Notch(point.x, point.y, angle, width_mm=point.width)
    return replace(notch, depth_mm=point.depth) if 0.0 < point.depth <= 20.0 else notch


def _place_texts(sheet: Sheet, drafts: list[_Draft], made: Made) -> None:
    covers = [draft.cover for draft in drafts]
    tree = shapely.STRtree(covers) if covers else None
    for text in sheet.texts:
        owner = -1
        for anchor in text.anchors:
            spot = shapely.Point(anchor)
            near = [] if tree is None else [int(i) for i in tree.query(spot, predicate="intersects")]
            if near:
                owner = min(near, key=lambda i: covers[i].area)
                break
        if text.tag and text.scope:
            same = [d for d in drafts if d.loop.scope[: len(text.scope)] == text.scope]
            if same and (owner < 0 or drafts[owner] not in same):
                for draft in same:
                    draft.texts.append(text)
                continue
        if owner >= 0:
            drafts[owner].texts.append(text)
        else:
            made.left_out[f'text "{text.text[:40]}"', "stands outside every piece"] += 1


def _finish(drafts: list[_Draft], sheet: Sheet, made: Made) -> None:
    """Name the pieces and hand over their findings."""
    names: Counter[tuple[str, str]] = Counter()
    number = 0
    for draft in drafts:
        number += draft.loop.part <= 1
        labels = _labels(draft.texts)
        name, size = _name(draft, labels, sheet, number), labels.get("size", "")
        if draft.loop.part:
            name = f"{name} part {draft.loop.part}"
        names[name, size] += 1
        if names[name, size] > 1:
            name = f"{name} {names[name, size]}"
        made.pieces.append(
            DrawnPiece(
                name=name,
                outline=draft.outline,
                size=size,
                notches=tuple(draft.notches),
                marks=tuple(draft.marks),
                drill_holes=tuple(draft.drill_holes),
                texts=tuple(text.text for text in draft.texts),
                quantity=labels.get("quantity", labels.get("qty", "")),
                layer=draft.loop.layer,
            )
        )
        made.findings += [replace(finding, piece=name, size=size) for finding in draft.findings]


def _labels(texts: Sequence[DrawnText]) -> dict[str, str]:
    """Texts of the form "Size: 38", and attributes by their tag."""
    labels: dict[str, str] = {}
    for text in texts:
        found = _LABEL.match(text.text)
        if found:
            labels.setdefault(re.sub(r"\s+", " ", found.group(1).lower()), found.group(2).strip())
        elif text.tag:
            labels.setdefault(text.tag.lower(), text.text)
    return labels


def _name(draft: _Draft, labels: dict[str, str], sheet: Sheet, number: int) -> str:
    """The label or attribute that names it, the tallest text in it, its block, its layer."""
    for key in ("piece name", "name", "piece", "piecename", "part"):
        if labels.get(key):
            return labels[key]
    tagged = [text for text in draft.texts if text.tag]
    free = [
        text for text in draft.texts if not (text.tag or _LABEL.match(text.text) or _UNITS.match(text.text))
    ]
    for texts in (tagged, free):
        lettered = [text for text in texts if any(letter.isalpha() for letter in text.text)] or texts
        if lettered:
            return max(lettered, key=lambda text: text.height).text
    for serial in reversed(draft.loop.scope):
        block = sheet.blocks.get(serial, "*")
        if not block.startswith("*"):
            return block
    if draft.loop.layer not in ("", "0"):
        return draft.loop.layer
    return f"piece {number}"
