"""Loops, open lines, points and texts of a free drawing -> pieces with names."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry import tolerances
from geometry.dxf.drafts import Draft, FrameAnswer, Made, drafts_of
from geometry.dxf.lines.collect import DrawnPoint, DrawnSpace, DrawnText
from geometry.dxf.lines.effort import crossings, spend, step
from geometry.dxf.lines.join import Chain
from geometry.dxf.lines.loops import loops_of, open_outlines, trim_overshoots
from geometry.dxf.lines.rings import Loop, sound
from geometry.dxf.marks import inside_way, inward_deg, runs_along, tick_notch
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import DrawnPiece, DrillHole, Mark, Notch
from geometry.said import said

_UNITS = re.compile(r"^\s*units?\s*[:=]", re.IGNORECASE)
_LABEL = re.compile(r"^\s*(piece\s*name|piece|name|size|quantity|qty)\s*[:=]\s*(.+)$", re.IGNORECASE)


def pieces_of(sheet: DrawnSpace, chord_mm: float, join_mm: float, frame: FrameAnswer = "ask") -> Made:
    """Return the pieces of a sheet (in mm) that follows no layer scheme."""
    made = Made()
    looped = loops_of(sheet.curves, join_mm)
    rings = sound(looped.loops, chord_mm)
    open_chains = [c for c in looped.open if sheet.curves[c.sources[0]].kind != "HATCH"]
    made.left_out["HATCH", "its boundary is not closed"] += len(looped.open) - len(open_chains)
    if rings.loops:
        spend(12.0 * crossings([loop.points for loop in rings.loops], closed=True))
    outer = shapely.union_all([Polygon(loop.points) for loop in rings.loops]) if rings.loops else Polygon()
    shapely.prepare(outer)
    outside = [c for c in open_chains if not _mostly_inside(outer, c)]
    trimmed, outside, findings = trim_overshoots(outside, sheet.curves)
    if trimmed:
        rings = sound(looped.loops + trimmed, chord_mm)
        made.findings += findings
    open_chains = [c for c in open_chains if _mostly_inside(outer, c)] + outside
    doubles = len(rings.doubles) + len(looped.doubles)
    step("finding out what lies in what")
    drafts = drafts_of(rings.loops, made, frame)
    missed, told = open_outlines(outside, join_mm, sheet.curves)
    made.findings += missed
    made.left_out["open outline", "its ends do not meet"] += len(missed)
    if rings.specks:
        count = len(rings.specks)
        made.left_out["speck", "a closed line too small or too thin to be cut"] += count
        made.findings.append(
            Finding(
                code="SPECKS",
                severity=Severity.NOTE,
                message=said("{0} closed lines around less than 1 mm2, or too thin to be cut", count)
                if count > 1
                else "a closed line around less than 1 mm2, or too thin to be cut",
                done="left out",
                advice="draw holes that are to be punched as points, or larger",
                where_mm=tuple(loop.place_mm for loop in rings.specks[:20]),
            )
        )
    doubles += _place_lines([c for c in open_chains if not told & set(c.sources)], drafts, sheet, made)
    if doubles:
        made.left_out["double line", "drawn over another line"] += doubles
        made.findings.append(
            Finding(
                code="DOUBLE",
                severity=Severity.NOTE,
                message=said("{0} lines or outlines are drawn over others", doubles),
                done="kept once",
            )
        )
    for loop, line in rings.spikes:
        _place_spike(loop, line, drafts)
    _place_points(sheet.points, drafts, made)
    _place_texts(sheet, drafts, made)
    names = _finish(drafts, sheet, made)
    made.findings += _parts_told(rings.findings, drafts, names)
    made.left_out += Counter()  # drop zero counts
    return made


def _mostly_inside(area: Polygon, chain: Chain) -> bool:
    if area.is_empty:
        return False
    line = shapely.LineString(chain.points)
    if area.covers(line):
        return True
    return bool(shapely.intersection(line, area).length > 0.5 * line.length)


def _place_lines(chains: list[Chain], drafts: list[Draft], sheet: DrawnSpace, made: Made) -> int:
    """Make marks and notches of open lines; returns how many were double lines."""
    tree = shapely.STRtree([draft.cover for draft in drafts]) if drafts else None
    doubles = 0
    for chain in chains:
        spend(150.0)
        line = shapely.LineString(chain.points)
        near = (
            []
            if tree is None
            else [int(i) for i in tree.query(line, predicate="dwithin", distance=tolerances.ON_BOUNDARY_MM)]
        )
        near.sort(key=lambda i: drafts[i].cover.area)
        spend(sum(100.0 + 0.5 * shapely.get_num_coordinates(drafts[i].cover) for i in near))
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


def _place_spike(loop: Loop, line: np.ndarray, drafts: list[Draft]) -> None:
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
                    message=said(
                        "the outline runs along a line and back at ({0}, {1})",
                        f"{line[0][0]:.2f}",
                        f"{line[0][1]:.2f}",
                    ),
                    done="taken off the outline, kept as a mark"
                    if notch is None
                    else "taken off the outline, kept as a notch",
                    where_mm=tuple((float(x), float(y)) for x, y in line[:4]),
                )
            )
            return


def _place_points(points: Sequence[DrawnPoint], drafts: list[Draft], made: Made) -> None:
    """POINTs on the boundary are notches, inside they are drill holes."""
    tree = shapely.STRtree([draft.cover for draft in drafts]) if drafts else None
    for point in points:
        spend(100.0)
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


def _place_texts(sheet: DrawnSpace, drafts: list[Draft], made: Made) -> None:
    covers = [draft.cover for draft in drafts]
    tree = shapely.STRtree(covers) if covers else None
    for text in sheet.texts:
        spend(60.0)
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


def _parts_told(findings: list[Finding], drafts: list[Draft], names: list[str]) -> list[Finding]:
    """Say of an outline that crosses itself which pieces its parts have become, and where they lie."""
    told = []
    for place, finding in enumerate(findings):
        parts = [
            f"{name} around ({draft.loop.place_mm[0]:.0f}, {draft.loop.place_mm[1]:.0f})"
            for draft, name in zip(drafts, names, strict=True)
            if draft.loop.crossed == place
        ]
        if parts:
            way_out = "take the part that is the piece and leave the others out, or redraw the outline"
            halves = "its two halves" if len(parts) == 2 else f"{len(parts)} parts"
            finding = replace(finding, done=f"offered as {halves}: {', '.join(parts)}", advice=way_out)
        told.append(finding)
    return told


def _finish(drafts: list[Draft], sheet: DrawnSpace, made: Made) -> list[str]:
    """Name the pieces and hand over their findings; returns the names in the drafts' order."""
    names: Counter[tuple[str, str]] = Counter()
    finished: list[str] = []
    numbers: dict[int, int] = {}
    for place, draft in enumerate(drafts):
        # the parts of one outline share its number, its texts and so its name
        same = draft.loop.crossed if draft.loop.crossed >= 0 else -1 - place
        number = numbers.setdefault(same, len(numbers) + 1)
        whole = draft
        if draft.loop.crossed >= 0:
            texts = [text for other in drafts if other.loop.crossed == same for text in other.texts]
            whole = replace(draft, texts=texts)
        labels = _labels(whole.texts)
        name, size = _name(whole, labels, sheet, number), labels.get("size", "")
        if draft.loop.part:
            name = f"{name} part {draft.loop.part}"
        names[name, size] += 1
        if names[name, size] > 1:
            name = f"{name} {names[name, size]}"
        finished.append(name)
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
    return finished


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


def _name(draft: Draft, labels: dict[str, str], sheet: DrawnSpace, number: int) -> str:
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
