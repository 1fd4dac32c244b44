"""Whether the backing of a style holds: each piece along its hold line, under the style's pull.

``app.hold.on_lay`` judges pieces where they lie on a lay, ``app.hold.cloth_choice`` compares cloths. No Qt
here; the window, the commands and the papers call these.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from app.errors import UsageError
from app.hold.chain import ChainHold, chain_holds
from app.hold.materials import Known, known_cloth, known_upper
from app.hold.piece_hold import PieceHold
from app.style.joined import running_over
from app.style.model import ClothData, HoldLine, PieceData, Style
from app.style.pieces import piece_backings
from geometry.errors import SheetError
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.pull import undirected_deg
from geometry.said import joined, said
from geometry.sizing.sizes import grade_factors
from geometry.stretch.hold import Hold, Material, Section, check_hold, tolerance_deg

NO_MEASUREMENT = (
    "No published measurement of leather with fused cloth against angle was found: these figures are "
    "the mechanics of two sheets glued together. The strip test and the lasting trial decide."
)
FIELD_ELSEWHERE = (
    "These figures follow the hold line, a strip of one width. The field model (hold --field, page Pull) "
    "takes the whole piece, its narrow wings and bare margins, and mostly gives more; it shows both side by "
    "side."
)
SLANTED_LINE_DEG = 30.0
"""A hold line further off the pull axis than this is remarked on: less than 87 % of it (cos 30 deg) lies
along the pull, and it is probably drawn across the piece by mistake. Common practice, no source."""


@dataclass(frozen=True)
class StyleHold:
    """All pieces of a style that are backed or have a hold line."""

    pieces: tuple[PieceHold, ...]
    cloth: str
    how_known: str
    upper: Known
    cloths: dict[str, Known]
    findings: tuple[Finding, ...]
    chains: tuple[ChainHold, ...] = ()

    @property
    def judged(self) -> tuple[PieceHold | ChainHold, ...]:
        """Pieces, then chains: all that may have a limit."""
        return (*self.pieces, *self.chains)

    @property
    def failing(self) -> tuple[PieceHold | ChainHold, ...]:
        """The pieces and chains that break their limit."""
        return tuple(each for each in self.judged if each.hold.holds is False)

    @property
    def granted_deg(self) -> float | None:
        """The turn on the roll at which every limit is still kept; None where one is not kept at 0."""
        granted = [each.granted_deg for each in self.judged if each.hold.limit_mm is not None]
        kept = [angle for angle in granted if angle is not None]
        return min(kept) if kept and len(kept) == len(granted) else None


def hold_depends_on(style: Style) -> tuple[object, ...]:
    """Return what of a style its hold depends on; lays, notes and the order do not move it."""
    return (
        style.pieces,
        style.hold_chains,
        style.cloths,
        style.upper_material,
        style.rules,
        style.size_run,
        style.pull_n_per_mm,
    )


def style_hold(style: Style, *, size: str = "", turn_deg: float = 0.0) -> StyleHold:
    """Judge every piece that is backed or has a hold line, its backing turned by ``turn_deg``.

    ``size`` '' is the base size; in another, distance and limit go with the last's length, so that
    a limit is the same share of the shoe in every size. Raises UsageError when the stretch of the
    upper or of a cloth is not known.
    """
    size = size or style.size_run.base
    if size not in style.size_run.sizes:
        raise UsageError(
            said("size {0} is not a size of {1}", size, style.name),
            remedy=said("its sizes are {0}", ", ".join(style.size_run.sizes)),
        )
    pull = style.pull_n_per_mm
    upper = known_upper(style.upper_material, pull)
    layers = [layer for piece in style.pieces for layer in piece.layers]
    used = tuple(dict.fromkeys(_cloth(style, layer.cloth).id for layer in layers))
    cloths = {name: known_cloth(style.cloth(name), pull) for name in used}
    run = style.size_run
    length = 1.0 if size == run.base else grade_factors(run.system, run.base, size, run.base_girth_mm)[0]
    laid = {name: known.material.turned(turn_deg) for name, known in cloths.items()}
    # cloth is not mirrored with the piece: a slant of it lies the other way on the other hand
    other = {name: material.mirrored() for name, material in laid.items()}
    found = [
        _piece_hold(style, piece, size, length, upper.material, laid, other)
        for piece in style.pieces
        if piece.layers or piece.hold_line
    ]
    findings = [f for known in (upper, *cloths.values()) for f in known.findings]
    chains, unjudged = chain_holds(style.hold_chains, found, size, length)
    findings += [f for piece in found for f in piece.findings]
    findings += [f for chain in chains for f in chain.findings]
    findings += unjudged
    allowed = style.rules.turn_tolerance_deg
    findings += [f for piece in found for f in _too_wide(piece, allowed)]
    findings += [f for chain in chains for f in _too_wide(chain, allowed)]
    names = ", ".join(style.cloth(name).name for name in used)
    how = joined(*(said("{0}: {1}", style.cloth(name).name, known.how) for name, known in cloths.items()))
    return StyleHold(tuple(found), names, how or "not backed", upper, cloths, tuple(findings), chains)


def _too_wide(each: PieceHold | ChainHold, allowed_deg: float) -> list[Finding]:
    """Whether the style lets the lay turn more than the limit of a piece or chain bears."""
    if each.granted_deg is None or allowed_deg <= each.granted_deg:
        return []
    return [
        Finding(
            code="TOLERANCE_TOO_WIDE",
            severity=Severity.WARNING,
            message=said(
                "{0} keeps its limit up to {1} deg off the tight direction, the style lets the "
                "lay turn it by {2}",
                each.called,
                f"{each.granted_deg:g}",
                f"{allowed_deg:g}",
            ),
            advice="lower the style's turn tolerance",
            piece=each.piece if isinstance(each, PieceHold) else each.pieces[0],
            size=each.size,
        )
    ]


def _cloth(style: Style, name: str) -> ClothData:
    try:
        return style.cloth(name)
    except KeyError:
        known = ", ".join(cloth.id for cloth in style.cloths) or "none"
        raise UsageError(
            said("the style has no cloth {0}", name or "at all"),
            remedy=said("its cloths are {0}; add one", known),
        ) from None


def _piece_hold(
    style: Style,
    piece: PieceData,
    size: str,
    length: float,
    upper: Material,
    laid: Mapping[str, Material],
    other_hand: Mapping[str, Material],
) -> PieceHold:
    base = style.size_run.base
    axis = piece.pull_axis.axis_deg
    over = running_over(style, piece.name, base)
    names = tuple(_cloth(style, layer.cloth).id for layer in (*piece.layers, *(o.layer for o in over)))
    # what runs over a seam lies along the pull axis of the piece that it belongs to
    off = (*(0.0 for _ in piece.layers), *(o.owner.pull_axis.axis_deg - axis for o in over))
    laws = _turned_by(off, [laid[name] for name in names])
    findings: list[Finding] = []
    line = piece.hold_line
    if line is None:
        sections: tuple[Section, ...] = (Section(100.0, tuple(range(len(laws)))),)
    else:
        layers = piece_backings(style, piece.name, base, piece.hand) if piece.layers else ()
        drawing = piece.drawings[base]
        outline = Outline.make(drawing.outline_mm, drawing.holes_mm)
        covers = [shapely.union_all([o.polygon for o in backing.outlines]) for backing in layers]
        cut, findings = _sections(piece, line, outline, [*covers, *(o.region for o in over)])
        sections = tuple(Section(s.length_mm * length, s.layers) for s in cut)
    limit = line.limit_mm * length if line and line.limit_mm is not None else None
    hold = check_hold(upper, laws, sections, style.pull_n_per_mm, limit)
    other = _turned_by([-each for each in off], [other_hand[name] for name in names])
    other_hold = check_hold(upper, other, sections, style.pull_n_per_mm, limit)
    if other_hold.high_mm > hold.high_mm:
        laws, hold = other, other_hold
    granted = None
    if limit is not None and laws:
        granted = tolerance_deg(upper, laws, sections, style.pull_n_per_mm, limit)
    angle = undirected_deg(laws[0].best(style.pull_n_per_mm).angle_deg) if laws else None
    if hold.holds is False:
        findings.append(
            Finding(
                code="HOLD_BROKEN",
                severity=Severity.ERROR,
                message=said(
                    "gives {0} mm under {1} N/mm, limit {2} mm",
                    span(hold),
                    f"{hold.pull_n_per_mm:g}",
                    f"{limit:g}",
                ),
                advice="turn the cloth, take a tighter or a second layer, or try it on the last",
                piece=piece.name,
                size=size,
            )
        )
    elif limit is not None and hold.holds is None:
        findings.append(
            Finding(
                code="HOLD_UNSURE",
                severity=Severity.WARNING,
                message=said("gives {0} mm, the limit of {1} mm lies between", span(hold), f"{limit:g}"),
                advice="a lasting trial must decide",
                piece=piece.name,
                size=size,
            )
        )
    return PieceHold(
        piece.name,
        size,
        angle,
        names,
        hold,
        line is not None,
        granted,
        upper,
        laws,
        sections,
        tuple(findings),
    )


def _turned_by(off_deg: Sequence[float], laws: Sequence[Material]) -> tuple[Material, ...]:
    return tuple(law.turned(off) if off else law for off, law in zip(off_deg, laws, strict=True))


def _sections(
    piece: PieceData, line: HoldLine, upper: Outline, covers: Sequence[shapely.Geometry]
) -> tuple[list[Section], list[Finding]]:
    """Cut the hold line where backing begins and ends; lengths are taken along the pull axis."""
    a, b = np.array(line.from_mm), np.array(line.to_mm)
    length = float(np.hypot(*(b - a)))
    if length == 0.0:
        raise SheetError(
            "the hold line has no length", remedy="draw it from heel to throat", piece=piece.name
        )
    drawn = shapely.LineString([a, b])
    cuts = {0.0, length}
    for cover in covers:
        crossing = drawn.intersection(cover.boundary)
        for part in shapely.get_parts(crossing):
            cuts.update(float(drawn.project(shapely.Point(p))) for p in part.coords)
    stops = sorted(cuts)
    heading = float(np.degrees(np.arctan2(*(b - a)[::-1])))
    slant = abs(undirected_deg(heading - piece.pull_axis.axis_deg))
    along = float(np.cos(np.radians(slant)))
    findings = []
    if slant > SLANTED_LINE_DEG:
        findings.append(
            Finding(
                code="HOLD_LINE_SLANTED",
                severity=Severity.WARNING,
                message=said("the hold line lies {0} deg off the pull axis", f"{slant:.0f}"),
                done="its length along the pull axis was taken",
                advice="draw it from heel to throat",
                piece=piece.name,
            )
        )
    outside = drawn.difference(upper.polygon.buffer(0.5)).length
    if outside > 1.0:
        findings.append(
            Finding(
                code="HOLD_LINE_OUTSIDE",
                severity=Severity.WARNING,
                message=said("{0} mm of the hold line lie outside the piece", f"{outside:.0f}"),
                done="that part was taken as upper without backing",
                advice="draw it within the piece",
                piece=piece.name,
            )
        )
    sections = []
    for start, stop in pairwise(stops):
        if stop - start < 1e-9:
            continue
        middle = shapely.Point(a + (b - a) * (start + stop) / 2 / length)
        behind = tuple(i for i, cover in enumerate(covers) if cover.intersects(middle))
        sections.append(Section((stop - start) * along, behind))
    return sections, findings


def span(hold: Hold) -> str:
    """Return the range of a hold in mm, as shown."""
    low, high = f"{hold.low_mm:.1f}", f"{hold.high_mm:.1f}"
    return low if low == high else f"{low}-{high}"


def shown_percent(hold: Hold) -> str:
    """Return the range in per cent, to as many digits as it is sure of."""
    low, high = f"{hold.percent(hold.low_mm):.1f}", f"{hold.percent(hold.high_mm):.1f}"
    return f"{low} %" if low == high else f"{low}-{high} %"
