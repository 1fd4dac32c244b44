"""A lay drawn at a scale: every piece where it lies, named, on the roll it is cut from.

A shape that lies many times is drawn once and placed: a lay of thousands of pieces stays small.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.papers.formats.drawing import Box, Drawing
from app.papers.layout import pens
from app.papers.pictures.pieces import (
    NameLine,
    draw_axis_inside,
    draw_details,
    draw_outline,
    draw_words_inside,
    reading_angles,
    room_in,
)
from app.style.model import Style
from app.style.pieces import piece_backings
from app.words import say
from geometry.drawn.details import Details, details_of_part
from geometry.errors import GeometryError
from geometry.outline import Outline, rotation
from geometry.piece import BackingPiece, Hand, Mark

BackingsOf = Callable[[str, str, Hand], Sequence[BackingPiece]]
"""Backing pieces of (piece, size, hand), asked for what is on them."""

_SAME_MM = 1e-4  # outlines closer than this are one shape drawn twice


def backings_of(style: Style | None) -> BackingsOf | None:
    """Return where the backings of a style are asked for; None where a lay belongs to no one style."""
    return None if style is None else partial(piece_backings, style)


@dataclass(frozen=True, eq=False)
class Placed:
    """A piece of the lay: its shape's drawing (shared), where it goes, and its extent."""

    drawing: Drawing
    x_mm: float
    y_mm: float
    box_mm: Box


@dataclass(frozen=True, eq=False)
class LayArt:
    """All pieces of a lay, in paper mm at ``scale``."""

    pieces: tuple[Placed, ...]
    length_mm: float
    width_mm: float
    flaws_mm: tuple[NDArray[np.float64], ...]
    edge_margin_mm: float

    def drawing(self, *, start_mm: float = 0.0, end_mm: float = np.inf) -> Drawing:
        """Return the pieces that reach into a stretch of the roll, with the roll's own lines."""
        drawing = Drawing()
        for piece in self.pieces:
            if piece.box_mm[2] >= start_mm and piece.box_mm[0] <= end_mm:
                drawing.place(piece.drawing, piece.x_mm, piece.y_mm)
        for ring in self.flaws_mm:
            drawing.line(ring, pens.FLAW, "flaw", closed=True)
            (x0, y0), (x1, y1) = ring.min(axis=0), ring.max(axis=0)
            drawing.text((x0 + x1) / 2, (y0 + y1) / 2 - 1.0, "flaw", pens.TINY, anchor="middle")
        margin = self.edge_margin_mm
        for y in (margin, self.width_mm - margin) if margin > 0.0 else ():
            drawing.line([(0.0, y), (self.length_mm, y)], pens.SPLIT, "margin")
        roll = (0.0, 0.0, self.length_mm, self.width_mm)
        drawing.box(roll, pens.ROLL, "roll-edge")
        return drawing


def lay_art(
    document: Mapping[str, Any],
    *,
    scale: float = 1.0,
    backings: BackingsOf | None = None,
    codes: Mapping[str, str] | None = None,
) -> LayArt:
    """Return a lay's art; ``backings`` gives the pieces' notches and marks where the style is at hand.

    With ``codes`` (piece -> letter) pieces are tinted by hand and lettered short, for a small scale.
    """
    shapes: dict[object, Drawing] = {}
    details = _OnPieces(backings)
    pieces = []
    for at in document["placements"]:
        rings = [np.asarray(ring, dtype=np.float64) for ring in (at["outline_mm"], *at.get("holes_mm", ()))]
        origin = rings[0][0]
        low, high = rings[0].min(axis=0), rings[0].max(axis=0)
        near = [np.rint((ring - origin) / _SAME_MM).astype(np.int64).tobytes() for ring in rings]
        key = (at["piece"], at.get("size"), at.get("hand"), at.get("pull_axis_deg"), *near)
        if key not in shapes:
            shapes[key] = _shape(at, [(ring - origin) * scale for ring in rings], details, scale, codes)
        x, y = (origin * scale).tolist()
        box = (*(low * scale).tolist(), *(high * scale).tolist())
        pieces.append(Placed(shapes[key], x, y, box))
    roll = document["roll"]
    flaws = tuple(np.asarray(ring, dtype=np.float64) * scale for ring in roll.get("flaws_mm", ()))
    return LayArt(
        tuple(pieces),
        document["length_mm"] * scale,
        roll["usable_width_mm"] * scale,
        flaws,
        document.get("edge_margin_mm", 0.0) * scale,
    )


def _shape(
    at: Mapping[str, Any],
    rings: list[NDArray[np.float64]],
    details: _OnPieces,
    scale: float,
    codes: Mapping[str, str] | None,
) -> Drawing:
    drawing = Drawing()
    outline = Outline.make(rings[0], rings[1:])
    hand, full = at.get("hand", ""), codes is None
    if not full:
        drawing.fill(outline.rings_mm, pens.PALE if hand == "right" else pens.WHITE)
    draw_outline(drawing, outline, pens.CUT if full else replace(pens.CUT, width_mm=0.18), "cut")
    on = details.of(at)
    taken = draw_details(drawing, on.notches, on.marks, on.drill_holes, on.letterings, scale=scale)
    size = say({"left": "{0} L", "right": "{0} R"}.get(hand, "{0}"), at.get("size", "")).strip()
    piece = str(at["piece"])
    if codes is None:
        words = [
            NameLine(piece, pens.LABEL, bold=True),
            *([NameLine(size, pens.LABEL, bold=True)] if size else []),
        ]
    else:
        words = [NameLine(say("{0} {1}", codes[piece], size), pens.SMALL, bold=True)]
    room = room_in(outline.polygon, taken, 1.0 if full else 0.25)
    axis = at.get("pull_axis_deg")
    small = pens.TINY * 0.9 if full else 1.4
    angles = reading_angles(outline, axis or 0.0) + ([] if full else [35.0, -35.0, 65.0, -65.0])
    room = draw_words_inside(drawing, room, words, angles, smallest_mm=small)
    if axis is not None:
        draw_axis_inside(drawing, room, axis, label="")
    return drawing


class _OnPieces:
    """What is on placed pieces, found by laying the backing's outline on the placed one."""

    def __init__(self, backings: BackingsOf | None) -> None:
        self.backings = backings
        self.known: dict[tuple[str, str, str], Sequence[BackingPiece]] = {}

    def of(self, at: Mapping[str, Any]) -> Details:
        """Return notches, marks, holes and words as placed, relative to the outline's first vertex."""
        key = (str(at["piece"]), str(at.get("size", "")), at.get("hand", ""))
        if self.backings is None or key[2] not in ("left", "right"):
            return Details()
        if key not in self.known:
            self.known[key] = self._backings(*key)
        turn = at.get("rotation_deg", 0.0)
        matrix = rotation(turn)
        ring = np.asarray(at["outline_mm"], dtype=np.float64)
        for backing in self.known[key]:
            for number, outline in enumerate(backing.outlines):
                turned = outline.ring_mm @ matrix.T
                if turned.shape == ring.shape and np.allclose(
                    turned - turned[0], ring - ring[0], rtol=0.0, atol=1e-3
                ):
                    return _turned(details_of_part(backing, number), turn, turned[0])
        return Details()

    def _backings(self, piece: str, size: str, hand: Hand) -> Sequence[BackingPiece]:
        """The backings of a placed piece, whose name may also say layer and part."""
        assert self.backings is not None
        for name in (piece, re.sub(r"(, layer \d+)?(, part .+)?$", "", piece)):
            try:
                return self.backings(name, size, hand)
            except (KeyError, GeometryError):
                continue
        return ()


def _turned(details: Details, turn_deg: float, origin: NDArray[np.float64]) -> Details:
    """Return details turned with their piece, ``origin`` (as turned) taken for the zero point."""
    matrix = rotation(turn_deg)

    def moved(x: float, y: float) -> dict[str, Any]:
        here = matrix @ (x, y) - origin
        return {"x_mm": float(here[0]), "y_mm": float(here[1])}

    return Details(
        tuple(replace(n, **moved(n.x_mm, n.y_mm), angle_deg=n.angle_deg + turn_deg) for n in details.notches),
        tuple(Mark(m.points_mm @ matrix.T - origin, m.kind, m.closed) for m in details.marks),
        tuple(replace(h, **moved(h.x_mm, h.y_mm)) for h in details.drill_holes),
        tuple(
            replace(w, **moved(w.x_mm, w.y_mm), angle_deg=w.angle_deg + turn_deg) for w in details.letterings
        ),
    )
