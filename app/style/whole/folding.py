"""Half patterns: unfolded over the centre line to the whole piece, and a whole piece folded to its half.

Every drawn size is unfolded over its own centre edge. What is kept relative to the piece comes along: edges
with kinds, setbacks and allowances, notches, marks, holes, what is drawn (``drawn_unfolded``); a hold line
stays where it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from app.style.edits import EdgeName, EditError, set_edge_kind
from app.style.model import LayerData, PieceData, Point, PullAxisData, Style
from app.style.new import edge_data, size_drawing
from app.style.pieces import drawn_piece, edging_of
from app.style.saved.grounds import has_drawn
from app.style.whole.adding import piece_of, require_mirrored, stale_lays, with_piece
from app.style.whole.drawn_unfolded import Unfolded
from app.tolerances import STORED_DECIMALS
from geometry import tolerances
from geometry.backing.edges import carry_edging, edge_points
from geometry.edge_kinds import EdgeKind
from geometry.errors import GeometryError
from geometry.piece import DrawnPiece, Edging
from geometry.pull import axis_between_deg, propose_axis, undirected_deg
from geometry.said import said
from geometry.symmetry.halves import centre_line, folded, unfolded, unfolded_edging
from geometry.symmetry.reflection import Reflection

Array = NDArray[np.float64]
SQUARE_DEG = 0.5
"""An axis this near to the centre line, or to square to it, is its own mirror image."""


def mark_centre(style: Style, piece: str, edge: EdgeName) -> Style:
    """Mark an edge as the centre line of a half pattern; raises OutlineError when it is not straight."""
    data = piece_of(style, piece)
    drawn = drawn_piece(data, style.size_run.base)
    edging = edging_of(data, drawn.outline)
    if not any((e.ring, e.start) == edge for e in data.edges):
        raise EditError(said("{0}: there is no such edge", piece), remedy="choose an edge on the board")
    centre_line(drawn.outline, edging, edge, piece)
    return set_edge_kind(style, piece, [edge], EdgeKind.CENTRE)


def unfold(style: Style, piece: str, edge: EdgeName | None = None) -> Style:
    """Unfold a half piece over its centre edge: ``edge`` (marked as such), else the longest centre edge.

    What is backed in one with it is unfolded over the same line. A pull axis that leans to the centre line
    would not hold for both halves: it is put along the line, as a proposal. Raises EditError when there is no
    centre edge, when it cannot be told in a drawn size, and for a piece backed in one with this one that has
    none on the same line; OutlineError when the piece cannot be unfolded there.
    """
    together = backed_together(style, piece)
    if edge is not None:
        style = mark_centre(style, piece, edge)
    for name in together:
        require_mirrored(piece_of(style, name))
    line = _centre_of(style, piece, edge)
    made = {piece: _unfolded(style, piece, line, edge)}
    for name in together[1:]:
        data = piece_of(style, name)
        if any(e.kind is EdgeKind.CENTRE for e in data.edges):
            own = _centre_of(style, name)
            if np.abs(_off(own, line)).max() <= tolerances.FOLD_MM:
                made[name] = _unfolded(style, name, own)
                continue
        elif _apart_over(drawn_piece(data, style.size_run.base), line) <= tolerances.FOLD_MM:
            continue  # whole already, and its own mirror image over the line
        raise EditError(
            said("{0} is backed in one with {1}, which has no centre edge on the same line", piece, name),
            remedy="mark its centre edge where the two lie against each other, or back them one by one first",
        )
    for name, whole in made.items():
        style = with_piece(style, name, whole)
    return stale_lays(style)


def _centre_of(style: Style, piece: str, edge: EdgeName | None = None) -> Array:
    data = piece_of(style, piece)
    drawn = drawn_piece(data, style.size_run.base)
    edging = edging_of(data, drawn.outline)
    return centre_line(drawn.outline, edging, edge or _longest_centre(data, drawn, edging), piece)


def _unfolded(style: Style, piece: str, line: Array, edge: EdgeName | None = None) -> PieceData:
    """Return one half piece unfolded over its centre line in the base size, and so in every drawn size."""
    data = piece_of(style, piece)
    base = style.size_run.base
    drawn = drawn_piece(data, base)
    edging = edging_of(data, drawn.outline)
    name = edge or _longest_centre(data, drawn, edging)
    full = unfolded(drawn, line)
    corner_deg = style.rules.corner_deg
    edges = edge_data(unfolded_edging(drawn.outline, edging, full.outline, line, corner_deg))
    drawings = {base: size_drawing(full)}
    for size in data.drawings:
        if size == base:
            continue
        other = drawn_piece(data, size)
        try:
            carried, doubts = carry_edging(edging, drawn.outline, other.outline)
            if doubts:
                raise EditError(
                    "its centre edge cannot be identified", remedy="check the corners of this size"
                )
            there = carried.breaks[0][edging.breaks[0].index(name[1])]
            full_other = unfolded(other, centre_line(other.outline, carried, (0, there), piece))
        except (GeometryError, EditError) as error:
            raise EditError(
                said("{0} cannot be unfolded in size {1}: {2}", piece, size, error.message),
                remedy=error.remedy,
            ) from None
        drawings[size] = size_drawing(full_other)
    new = data.model_copy(
        update={
            "drawings": {size: drawings[size] for size in data.drawings},
            "edges": edges,
            "pull_axis": _unfolded_axis(data, line),
        }
    )
    mirror = Reflection.across(*line)
    drawn_on = Unfolded(style, data, new, line)

    def keep(layer: LayerData) -> LayerData:
        return _unfolded_layer(layer, line, mirror)

    layers = [made for k, each in enumerate(data.layers) for made in drawn_on.layers(k, each, keep)]
    details = [made for each in data.details for made in drawn_on.over(each)]
    new = new.model_copy(update={"layers": tuple(layers), "details": tuple(details)})
    return new


def fold(style: Style, piece: str, line: tuple[Point, Point] | None = None) -> Style:
    """Fold a whole piece to the half left of ``line`` (None: of the axis of symmetry of every drawn size).

    What is backed in one with it is folded over the same line. Raises EditError when the piece has no axis of
    symmetry, or a line is given and it is drawn in several sizes; OutlineError when the halves differ or the
    line does not divide the piece.
    """
    together = backed_together(style, piece)
    for name in together:
        _require_foldable(piece_of(style, name), line)
    folds: dict[str, Array] = {}
    made = {}
    for name in together:  # the piece itself first: it says over which line
        data = piece_of(style, name)
        for size in data.drawings:
            if size not in folds:
                own = np.array(line) if line is not None else _symmetry_line(drawn_piece(data, size))
                first = next(iter(folds.values()), own)
                turned = float((own[1] - own[0]) @ (first[1] - first[0])) < 0.0
                folds[size] = own[::-1] if turned else own
        made[name] = _folded(style, data, folds)
    for name, half in made.items():
        style = with_piece(style, name, half)
    return stale_lays(style)


def _require_foldable(data: PieceData, line: tuple[Point, Point] | None) -> None:
    require_mirrored(data)
    bare = {"keep": None, "joins": ()}
    if has_drawn(data.model_copy(update={"layers": tuple(la.model_copy(update=bare) for la in data.layers)})):
        raise EditError(
            said("{0} has things drawn on it, on one half or on both", data.name),
            remedy="fold it first and draw them then, or take them away",
        )
    if line is not None and len(data.drawings) > 1:
        raise EditError(
            said("{0} is drawn in {1} sizes, and a line lies in one of them", data.name, len(data.drawings)),
            remedy="fold it over its axis of symmetry: give no line",
        )
    if any(edge.kind is EdgeKind.CENTRE for edge in data.edges):
        raise EditError(said("{0} is a half pattern already", data.name), remedy="unfold it instead")


def _folded(style: Style, data: PieceData, folds: Mapping[str, Array]) -> PieceData:
    base = style.size_run.base
    drawn = drawn_piece(data, base)
    edging = edging_of(data, drawn.outline)
    drawings = {}
    for size in data.drawings:
        this = drawn_piece(data, size)
        edged = edging if size == base else carry_edging(edging, drawn.outline, this.outline)[0]
        half, half_edging = folded(this, edged, folds[size])
        drawings[size] = size_drawing(half)
        if size == base:
            marked, base_half = half_edging, half
    layers = tuple(_folded_layer(layer, base_half) for layer in data.layers)
    return data.model_copy(update={"drawings": drawings, "edges": edge_data(marked), "layers": layers})


def backed_together(style: Style, piece: str) -> tuple[str, ...]:
    """Return a piece and all that are backed in one with it, over however many seams; itself first."""
    found = [piece]
    for name in found:
        for other in style.pieces:
            joins = {each for layer in other.layers for each in layer.joins}
            near = joins if other.name == name else {other.name} if name in joins else set()
            found += sorted(near - set(found))
    return tuple(found)


def _off(points: Array, line: Array) -> Array:
    """Return how far points lie to the left of a line, mm."""
    way = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    off: Array = (points - line[0]) @ np.array([-way[1], way[0]])
    return off


def _apart_over(drawn: DrawnPiece, line: Array) -> float:
    """Return how far a piece differs from its own mirror image over a line, mm."""
    image = Reflection.across(*line).outline(drawn.outline).polygon
    return float(shapely.hausdorff_distance(image.boundary, drawn.outline.polygon.boundary))


def _longest_centre(data: PieceData, drawn: DrawnPiece, edging: Edging) -> EdgeName:
    found = [
        (
            float(LineString(edge_points(drawn.outline, edging, ring, k)).length),
            (ring, edging.breaks[ring][k]),
        )
        for ring, edges in enumerate(edging.edges)
        for k, edge in enumerate(edges)
        if edge.kind is EdgeKind.CENTRE
    ]
    if not found:
        raise EditError(
            said("{0} has no centre edge", data.name),
            remedy="choose the edge along the fold, or mark it as centre",
        )
    return max(found)[1]


def _symmetry_line(drawn: DrawnPiece) -> Array:
    axis = propose_axis(replace(drawn, pull_axis=None))
    if axis.source != "symmetry":
        raise EditError(
            said("{0} has no axis of symmetry", drawn.name),
            remedy="give the line to fold over",
        )
    centre = np.array(drawn.outline.polygon.centroid.coords[0])
    angle = np.radians(axis.axis_deg)
    ends: Array = np.array([centre, centre + (np.cos(angle), np.sin(angle))])
    return ends


def _unfolded_axis(data: PieceData, line: Array) -> PullAxisData:
    way = line[1] - line[0]
    along = undirected_deg(round(float(np.degrees(np.arctan2(way[1], way[0]))), STORED_DECIMALS))
    lean = axis_between_deg(data.pull_axis.axis_deg, along)
    if min(lean, 90.0 - lean) <= SQUARE_DEG:
        return data.pull_axis
    return PullAxisData(axis_deg=along, source="symmetry", confirmed=False)


def _unfolded_layer(layer: LayerData, line: Array, mirror: Reflection) -> LayerData:
    keep = layer.keep
    if keep is None:
        return layer
    points = np.array(keep.points_mm)
    if keep.closed:
        both = shapely.union(Polygon(points).buffer(0), Polygon(mirror.points(points)).buffer(0))
        if not isinstance(both, Polygon):
            raise EditError(
                "the region of a partial backing does not reach the centre line",
                remedy="draw it over the line, or unfold first and draw it then",
            )
        return layer.model_copy(
            update={"keep": keep.model_copy(update={"points_mm": _points(both.exterior.coords[:-1])})}
        )
    way = line[1] - line[0]
    off = np.abs((points - line[0]) @ np.array([-way[1], way[0]])) / np.hypot(*way)
    if off[0] < off[-1]:
        points, off = points[::-1], off[::-1]
    if off[-1] <= tolerances.JOIN_MM:
        joined = np.concatenate([points, mirror.points(points[:-1])[::-1]])
    else:  # run past the line: cut there, and joined to its own image
        joined = _joined_at(points, line, mirror)
    return layer.model_copy(update={"keep": keep.model_copy(update={"points_mm": _points(joined)})})


def _joined_at(points: Array, line: Array, mirror: Reflection) -> Array:
    way = line[1] - line[0]
    far = LineString([line[0] - 1e3 * way, line[1] + 1e3 * way])
    hit = LineString(points).intersection(far)
    if hit.geom_type != "Point":
        raise EditError(
            "the cut line of a partial backing does not reach the centre line",
            remedy="draw it over the line, or unfold first and draw it then",
        )
    side = (points - line[0]) @ np.array([-way[1], way[0]])
    kept = points[np.sign(side) == np.sign(side[0])]
    here = np.array([[hit.x, hit.y]])
    both: Array = np.concatenate([kept, here, mirror.points(kept)[::-1]])
    return both


def _folded_layer(layer: LayerData, half: DrawnPiece) -> LayerData:
    keep = layer.keep
    if keep is None or keep.side_mm is None:
        return layer
    inside = shapely.contains_xy(half.outline.polygon, *keep.side_mm)
    if inside:
        return layer
    raise EditError(
        "the backing stays on the half that is folded away",
        remedy="fold to the other half: exchange the ends",
    )


def _points(values: Iterable[Any]) -> tuple[Point, ...]:
    return tuple((_rounded(x), _rounded(y)) for x, y in values)


def _rounded(value: Any) -> float:
    return round(float(value), STORED_DECIMALS) + 0.0
