"""Cut lines, regions, splits and hand-made changes of a layer, as kept and as the derivation takes them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from geometry.drawn.ground import Ground
from geometry.drawn.places import Area, Course, Line, Place
from geometry.piece import Keep, Shaping, SplitLine, UpperPiece


@dataclass(frozen=True)
class CutLine:
    """A line that ends the backing; it stays on the side of ``side``."""

    line: Line
    side: Place


@dataclass(frozen=True)
class Region:
    """A closed shape that the backing stays inside, or outside."""

    area: Area
    inside: bool = True


@dataclass(frozen=True)
class Split:
    """A line that divides the backing; see ``SplitLine``."""

    line: Line
    names: tuple[str, str]
    overlap_mm: float = 0.0
    notches: int = 2
    part: str = ""


@dataclass(frozen=True)
class LayerDrawing:
    """All that is drawn on one layer of backing."""

    keeps: tuple[CutLine | Region, ...] = ()
    changes: tuple[Course, ...] = ()
    splits: tuple[Split, ...] = ()


def shaping_on(ground: Ground, drawn: LayerDrawing, joined: Sequence[UpperPiece] = ()) -> Shaping:
    """Return what is drawn as it lies on a piece in one size; raises BackingError where it cannot lie so."""
    return Shaping(
        keeps=tuple(_keep(ground, each) for each in drawn.keeps),
        changes=tuple(ground.line(change) for change in drawn.changes),
        splits=tuple(
            SplitLine(ground.line(each.line), each.names, each.overlap_mm, each.notches, each.part)
            for each in drawn.splits
        ),
        joined=tuple(joined),
    )


def _keep(ground: Ground, drawn: CutLine | Region) -> Keep:
    if isinstance(drawn, Region):
        return Keep(ground.area(drawn.area), True, None, drawn.inside)
    x, y = ground.point(drawn.side)
    return Keep(ground.line(drawn.line), False, (float(x), float(y)))
