"""The drawn lines of a sheet -> closed loops and what stays open.

Lines are joined first with their own kind (same block, same layer), then with what is left of
the block, last with everything that is left: a mark that ends on an outline never splits it
unless it is drawn on the same layer and ends in the same corner.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace

import shapely

from geometry import tolerances
from geometry.dxf.lines.collect import Curve
from geometry.dxf.lines.effort import crossings, spend
from geometry.dxf.lines.join import Chain, faces_of, join, polyline_length
from geometry.dxf.lines.rings import Loop
from geometry.findings import Finding, Severity
from geometry.said import said


@dataclass
class Looped:
    """Closed loops, open chains with the curves they are made of, and double lines dropped."""

    loops: list[Loop]
    open: list[Chain]
    doubles: list[Chain]


def loops_of(curves: Sequence[Curve], join_mm: float) -> Looped:
    """Join the curves of a sheet (in mm) into closed loops."""
    loops = [Loop(curve.points, curve.layer, curve.scope, (curve.kind,)) for curve in curves if curve.closed]
    chains = [Chain(curve.points, (i,)) for i, curve in enumerate(curves) if not curve.closed]
    doubles: list[Chain] = []
    rounds: list[Callable[[Curve], Hashable]] = [
        lambda curve: (curve.scope, curve.layer, curve.kind == "HATCH"),
        lambda curve: (curve.scope, curve.kind == "HATCH"),
        lambda curve: (curve.scope[:1], curve.kind == "HATCH"),
        lambda curve: curve.kind == "HATCH",
    ]
    for key_of in rounds:
        pools: dict[Hashable, list[Chain]] = defaultdict(list)
        for chain in chains:
            pools[key_of(curves[chain.sources[0]])].append(chain)
        chains = []
        for pool in pools.values():
            joined = join(pool, join_mm)
            loops += [loop_of(chain, curves) for chain in joined.loops]
            chains += joined.open
            doubles += joined.doubles
    return Looped(loops, chains, doubles)


def loop_of(chain: Chain, curves: Sequence[Curve]) -> Loop:
    """Return a closed chain as a loop on the layer that most of it was drawn on."""
    length: dict[str, float] = defaultdict(float)
    for i in chain.sources:
        length[curves[i].layer] += polyline_length(curves[i].points)
    layer = max(length, key=lambda name: length[name]) if length else "0"
    scopes = {curves[i].scope for i in chain.sources}
    scope = _common(scopes) if scopes else ()
    kinds = tuple(sorted({curves[i].kind for i in chain.sources}))
    return Loop(chain.points, layer, scope, kinds, chain.gaps, chain.face)


def _common(scopes: set[tuple[int, ...]]) -> tuple[int, ...]:
    """The longest beginning that all scopes share."""
    shortest = min(scopes, key=len)
    for length in range(len(shortest), 0, -1):
        if all(scope[:length] == shortest[:length] for scope in scopes):
            return shortest[:length]
    return ()


def trim_overshoots(
    chains: list[Chain], curves: Sequence[Curve]
) -> tuple[list[Loop], list[Chain], list[Finding]]:
    """Close outlines whose lines run past each other at the corners: (loops, open, findings).

    Only where every end that hangs over is short; a net of long lines that happen to cross is not an
    outline.
    """
    loops: list[Loop] = []
    rest: list[Chain] = []
    findings: list[Finding] = []
    for group in _touching(chains):
        lines = [shapely.LineString(chain.points) for chain in group]
        spend(12.0 * crossings([chain.points for chain in group], closed=False))
        noded = shapely.union_all(lines)
        faces, cuts, dangles, _ = shapely.polygonize_full([noded])
        over = list(shapely.get_parts(dangles).tolist()) + list(shapely.get_parts(cuts).tolist())
        if not len(shapely.get_parts(faces)) or any(line.length > tolerances.OVERSHOOT_MM for line in over):
            rest += group
            continue
        closed, unused = faces_of(group)
        loops += [replace(loop_of(chain, curves), face=len(closed) > 1) for chain in closed]
        rest += unused
        if over:
            faces_edge = shapely.union_all(shapely.boundary(shapely.get_parts(faces)))
            spots = shapely.intersection(shapely.union_all(over), faces_edge)
            places = tuple(
                (round(p.x, 6), round(p.y, 6))
                for p in shapely.get_parts(spots).tolist()
                if p.geom_type == "Point"
            )
            longest = max(line.length for line in over)
            findings.append(
                Finding(
                    code="TRIMMED_OVERSHOOT",
                    severity=Severity.WARNING,
                    message=said("{0} corners overshoot by up to {1} mm", len(places), f"{longest:.2f}"),
                    done="trimmed where the lines cross",
                    advice="check these corners in the drawing",
                    where_mm=places,
                )
            )
    return loops, rest, findings


def _touching(chains: list[Chain]) -> list[list[Chain]]:
    """Group chains that touch or cross."""
    if not chains:
        return []
    lines = [shapely.LineString(chain.points) for chain in chains]
    crossings([chain.points for chain in chains], closed=False)
    pairs = shapely.STRtree(lines).query(lines, predicate="intersects")
    group = list(range(len(chains)))

    def root(i: int) -> int:
        while group[i] != i:
            group[i] = group[group[i]]
            i = group[i]
        return i

    for a, b in pairs.T.tolist():
        group[root(a)] = root(b)
    groups: dict[int, list[Chain]] = defaultdict(list)
    for i, chain in enumerate(chains):
        groups[root(i)].append(chain)
    return list(groups.values())


def open_outlines(
    chains: list[Chain], join_mm: float, curves: Sequence[Curve]
) -> tuple[list[Finding], set[int]]:
    """Find chains that were meant to close but miss by more than ``join_mm``.

    Returns an error finding for each with both ends of every gap, and the indices (into
    ``curves``) of the lines they are made of.
    """
    limit = max(tolerances.NEAR_MISS_MM, join_mm)
    ladder = [step for step in (1.0, 2.0, 5.0, 10.0) if step > join_mm]
    findings: list[Finding] = []
    told: set[int] = set()
    for chain in join(chains, limit, ladder).loops if chains else []:
        wide = [gap for gap in chain.gaps if gap.width_mm > join_mm]
        open_length = sum(gap.width_mm for gap in wide)
        if not wide or open_length > 0.3 * chain.length:
            continue
        told.update(chain.sources)
        layer = loop_of(chain, curves).layer
        words = "; ".join(
            f"{gap.width_mm:.2f} mm between ({gap.from_mm[0]:.2f}, {gap.from_mm[1]:.2f}) and "
            f"({gap.to_mm[0]:.2f}, {gap.to_mm[1]:.2f})"
            for gap in wide[:4]
        ) + (f" and {len(wide) - 4} more gaps" if len(wide) > 4 else "")
        findings.append(
            Finding(
                code="OPEN_OUTLINE",
                severity=Severity.ERROR,
                message=said("an outline on layer {0} is open by {1}", layer, words),
                done="not closed, left out",
                advice=said(
                    "close it in the drawing, or allow a wider gap (--join, now {0} mm)", f"{join_mm:g}"
                ),
                where_mm=tuple(place for gap in wide for place in (gap.from_mm, gap.to_mm)),
            )
        )
    return findings, told
