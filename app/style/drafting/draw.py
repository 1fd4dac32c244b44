"""Edits that draw on a backing or its upper, each a pure function from style to style.

Layers count from 0. Every edit is tried on the base size before it is given back: what cannot lie on the
piece raises BackingError or EditError and changes nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice
from typing import Any, Literal

import numpy as np
import shapely
import shapely.ops

from app.style.drafting.where import beside_outline, course, ground_of, in_frame, piece_of, valid
from app.style.edits import EditError
from app.style.model import LayerData, PieceData, Point, Style
from app.style.pieces import piece_backings, upper_piece
from app.style.saved.drawn import (
    BesideData,
    CourseData,
    CutData,
    DetailData,
    KeepDrawn,
    PlaceData,
    RegionData,
    SplitData,
)
from geometry.drawn.within import require_within
from geometry.piece import BackingPiece
from geometry.said import said
from geometry.tolerances import CRUMB_MM2

Drawn = Literal["cuts", "changes", "splits"]
DRAWN: tuple[Drawn, ...] = ("cuts", "changes", "splits")
SMOOTH_STEP_MM = 18.0
"""A stretch is smoothed by a curve through points of it about so far apart."""


def add_layer(style: Style, piece: str, cloth: str) -> Style:
    """Give a piece one more layer of backing, of a cloth of its own."""
    if cloth and all(each.id != cloth for each in style.cloths):
        names = ", ".join(each.id for each in style.cloths)
        raise EditError(
            said("{0}: there is no cloth {1}", piece, cloth), remedy=said("its cloths are {0}", names)
        )
    data = piece_of(style, piece)
    return _with(style, piece, {"layers": (*data.layers, LayerData(cloth=cloth))})


def remove_layer(style: Style, piece: str, layer: int) -> Style:
    """Take a layer of backing away, with all that is drawn on it."""
    data = piece_of(style, piece)
    _layer(data, layer)
    return _with(style, piece, {"layers": data.layers[:layer] + data.layers[layer + 1 :]})


def add_keep(style: Style, piece: str, layer: int, keep: KeepDrawn) -> Style:
    """End a layer at a line, or inside or outside a region."""
    return _tried(_on_layer(style, piece, layer, lambda d: {"cuts": (*d.cuts, keep)}), piece)


def add_cut(style: Style, piece: str, layer: int, line: CourseData | BesideData, side: PlaceData) -> Style:
    """End a layer at a line; it stays on the side of ``side``."""
    return add_keep(style, piece, layer, CutData(what="line", line=line, side=side))


def add_region(style: Style, piece: str, layer: int, area: Any, *, inside: bool = True) -> Style:
    """Keep a layer inside a region, or outside it."""
    return add_keep(style, piece, layer, RegionData(what="region", area=area, inside=inside))


def add_split(
    style: Style,
    piece: str,
    layer: int,
    line: CourseData | BesideData,
    *,
    names: tuple[str, str] = ("", ""),
    overlap_mm: float = 0.0,
    notches: int = 2,
    part: str = "",
) -> Style:
    """Divide a layer along a line; raises EditError for a name that another part has."""
    data = piece_of(style, piece)
    taken = {name for split in _layer(data, layer).splits for name in split.names}
    given = tuple(name.strip() or _free_name(taken, k) for k, name in enumerate(names))
    if given[0] == given[1] or taken & set(given):
        raise EditError(
            said("{0}: two parts would be called {1}", piece, given[0]), remedy="give each part its own name"
        )
    split = valid(
        SplitData,
        piece,
        line=line,
        names=given,
        overlap_mm=overlap_mm,
        notches=notches,
        part=part,
    )
    made = _tried(_on_layer(style, piece, layer, lambda d: {"splits": (*d.splits, split)}), piece)
    _require_new(style, made, piece, layer, "SPLIT_MISSES")
    parts = _base_backing(made, piece, layer).outlines
    whole = shapely.union_all([part.polygon for part in parts])
    if overlap_mm > 0.0 and any(part.area_mm2 >= whole.area - CRUMB_MM2 for part in parts):
        raise EditError(
            said("{0}: an overlap of {1} mm is wider than a part", piece, f"{overlap_mm:g}"),
            remedy="make the overlap smaller",
        )
    return made


def join(style: Style, piece: str, others: Sequence[str], layer: int = 0) -> Style:
    """Back a piece together with others that lie against it: their own layers of the same cloth go.

    Raises EditError for a piece of another hand or count, or one that is joined already.
    """
    data = piece_of(style, piece)
    cloth, before = _layer(data, layer).cloth or style.cloths[0].id, style
    if not others:
        raise EditError(said("{0}: no piece to join it with", piece), remedy="name another piece")
    for name in others:
        other = piece_of(style, name)
        if (
            name == piece
            or others.count(name) > 1
            or any(name in at.joins for p in style.pieces for at in p.layers)
        ):
            raise EditError(said("{0} is joined already", name), remedy="name another piece")
        if (other.hand, other.per_shoe) != (data.hand, data.per_shoe):
            raise EditError(
                said("{0} differs from {1} in hand or in pieces per shoe", name, piece),
                remedy="join pieces that go together",
            )
        left = tuple(at for at in other.layers if (at.cloth or style.cloths[0].id) != cloth)
        style = _with(style, name, {"layers": left})
    joined = _tried(_on_layer(style, piece, layer, lambda d: {"joins": (*d.joins, *others)}), piece)
    _require_new(before, joined, piece, layer, "JOIN_APART")
    return joined


def add_change(style: Style, piece: str, layer: int, line: CourseData) -> Style:
    """Put a line in place of a stretch of the derived outline, as an exception on top of it."""
    made = _tried(_on_layer(style, piece, layer, lambda d: {"changes": (*d.changes, line)}), piece)
    _require_new(style, made, piece, layer, "CHANGE_LEFT_OUT")
    return made


def change_through(
    style: Style, piece: str, layer: int, points_mm: Sequence[Point], *, smooth: bool = False
) -> Style:
    """Change a stretch of the outline to run through points, each kept by the edge nearest to it."""
    places: list[PlaceData] = [beside_outline(style, piece, xy) for xy in points_mm]
    return add_change(style, piece, layer, course(places, smooth=smooth))


def smooth_stretch(style: Style, piece: str, layer: int, from_mm: Point, to_mm: Point) -> Style:
    """Smooth the stretch of the derived outline between two points: a curve through some of its points."""
    data = piece_of(style, piece)
    _layer(data, layer)
    backing = piece_backings(style, piece, style.size_run.base, data.hand)[layer]
    if not backing.outlines:
        raise EditError(said("{0} has no backing there", piece), remedy="choose another layer")
    a, b = (shapely.Point(spot.x_mm, spot.y_mm) for spot in (in_frame(from_mm), in_frame(to_mm)))
    rings = [shapely.LinearRing(ring) for outline in backing.outlines for ring in outline.rings_mm]
    ring = min(rings, key=lambda r: float(r.distance(a) + r.distance(b)))
    start, stop = ring.project(a), ring.project(b)
    low, high = min(start, stop), max(start, stop)
    round_about = ring.length - (high - low)
    if min(high - low, round_about) < 1.0:
        raise EditError(
            said("{0}: the stretch to smooth has no length", piece), remedy="choose two points apart"
        )
    if high - low <= round_about:
        length, first = high - low, low
    else:
        length, first = round_about, high
    count = max(int(np.ceil(length / SMOOTH_STEP_MM)), 2)
    at = [(first + length * i / count) % ring.length for i in range(count + 1)]
    points = [ring.interpolate(s) for s in at]
    return change_through(style, piece, layer, [(p.x, p.y) for p in points], smooth=True)


def add_detail(style: Style, piece: str, detail: DetailData) -> Style:
    """Draw a notch, row of relief cuts, slit, drill hole, mark or word."""
    data = piece_of(style, piece)
    require_within(ground_of(style, piece), detail.laid())
    return _tried(_with(style, piece, {"details": (*data.details, detail)}), piece)


def remove_detail(style: Style, piece: str, number: int) -> Style:
    """Take a notch, slit, hole, mark or word away; they count from 0."""
    data = piece_of(style, piece)
    return _with(style, piece, {"details": _without(data.details, number, f"{piece}: detail")})


def remove_drawn(style: Style, piece: str, layer: int, what: Drawn, number: int) -> Style:
    """Take a cut or region, a hand-made change or a split back; they count from 0 on their layer."""
    data = piece_of(style, piece)
    held = getattr(_layer(data, layer), what)
    left = _without(held, number, f"{piece}, layer {layer + 1}: {what.rstrip('s')}")
    return _on_layer(style, piece, layer, lambda d: {what: left})


def remove_keep(style: Style, piece: str, layer: int) -> Style:
    """Take back the cut line or region that came with the style as ``keep``: the layer is whole again."""
    if _layer(piece_of(style, piece), layer).keep is None:
        raise EditError(said("{0}, layer {1} has no keep", piece, layer + 1), remedy="look at its cuts")
    return _on_layer(style, piece, layer, lambda d: {"keep": None})


def unjoin(style: Style, piece: str, layer: int = 0) -> Style:
    """Back the pieces of a joined layer one by one again."""
    data = piece_of(style, piece)
    held = _layer(data, layer)
    for name in held.joins:
        other = piece_of(style, name)
        style = _with(style, name, {"layers": (LayerData(cloth=held.cloth), *other.layers)})
    return _on_layer(style, piece, layer, lambda d: {"joins": ()})


# -- how ----------------------------------------------------------------------------------------
def _without(held: tuple[Any, ...], number: int, what: str) -> tuple[Any, ...]:
    if not 0 <= number < len(held):
        raise EditError(
            said("{0} {1} is not there", what, number + 1), remedy=said("there are {0}", len(held))
        )
    return held[:number] + held[number + 1 :]


def _free_name(taken: set[str], k: int) -> str:
    """A letter that no part has, then A2, B2 and so on."""
    rounds = ("", *(str(number) for number in range(2, len(taken) + 3)))
    names = (chr(code) + more for more in rounds for code in range(ord("A"), ord("Z") + 1))
    return next(islice((name for name in names if name not in taken), k, None))


def _layer(data: PieceData, layer: int) -> LayerData:
    if not 0 <= layer < len(data.layers):
        raise EditError(
            said("{0} has no layer {1} of backing", data.name, layer + 1),
            remedy=f"it has {len(data.layers)}" if data.layers else "give it a layer first",
        )
    return data.layers[layer]


def _on_layer(
    style: Style, piece: str, layer: int, change: Callable[[LayerData], dict[str, object]]
) -> Style:
    data = piece_of(style, piece)
    held = _layer(data, layer)
    made = held.model_copy(update=change(held))
    return _with(style, piece, {"layers": (*data.layers[:layer], made, *data.layers[layer + 1 :])})


def _with(style: Style, piece: str, update: dict[str, object]) -> Style:
    old = piece_of(style, piece)
    new = old.model_copy(update=update)
    return style.model_copy(update={"pieces": tuple(new if p is old else p for p in style.pieces)})


def _base_backing(style: Style, piece: str, layer: int) -> BackingPiece:
    return piece_backings(style, piece, style.size_run.base, piece_of(style, piece).hand)[layer]


def _require_new(before: Style, made: Style, piece: str, layer: int, code: str) -> None:
    """Raise EditError where an edit brings a finding that says it has come to nothing."""
    was = [f for f in _base_backing(before, piece, layer).findings if f.code == code]
    now = [f for f in _base_backing(made, piece, layer).findings if f.code == code]
    if len(now) > len(was):
        raise EditError(said("{0}: {1}", piece, now[-1].message), remedy=now[-1].advice)


def _tried(style: Style, piece: str) -> Style:
    """Return the style once its piece was derived in the base size."""
    data = piece_of(style, piece)
    upper_piece(style, piece, style.size_run.base, data.hand)
    piece_backings(style, piece, style.size_run.base, data.hand)
    return style
