"""Sheets of paper, rolls, and how cards are set out on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.errors import UsageError
from geometry.paper import PAPERS, paper_names, paper_of
from geometry.said import said

MARGIN_MM = 10.0
"""Paper's edge that printers leave white (common practice, no source)."""


@dataclass(frozen=True)
class SheetSize:
    """A sheet size; a roll has a fixed width and as much height as it needs, up to ``height_mm``."""

    name: str
    width_mm: float
    height_mm: float
    roll: bool = False


def sheet_of(text: str, *, roll_length_mm: float = 5000.0) -> list[SheetSize]:
    """Return the sheets that a name stands for: both ways round for a size of paper, one for roll:WIDTH.

    Raises UsageError when the name is none of these.
    """
    name = text.strip()
    paper = paper_of(name)
    if paper is not None:
        wide, high = paper.width_mm, paper.height_mm
        return [SheetSize(paper.name, wide, high), SheetSize(paper.name, high, wide)]
    head, _, width = name.partition(":")
    if head.lower() == "roll":
        try:
            wide = float(width)
        except ValueError:
            wide = 0.0
        if 200.0 <= wide <= roll_length_mm:
            return [SheetSize(f"roll {wide:g} mm", wide, roll_length_mm, roll=True)]
    raise UsageError(
        said("there is no sheet '{0}'", text),
        remedy=said("use {0}, or roll:WIDTH in mm from 200, as roll:900", paper_names()),
    )


SMALLEST_FIRST = tuple(paper.name for paper in PAPERS if paper.series == "ISO A")
"""Sheets tried in turn where nobody names one."""


@dataclass(frozen=True)
class FilledSheet:
    """Cards set out on one sheet: (card's number, x, y of its lower left corner)."""

    places: tuple[tuple[int, float, float], ...]
    used_mm: float
    kept_mm: tuple[float, float] | None


def set_out(
    sizes_mm: Sequence[tuple[float, float]],
    width_mm: float,
    height_mm: float,
    *,
    gap_mm: float = 6.0,
    keep_mm: tuple[float, float] = (0.0, 0.0),
) -> list[FilledSheet]:
    """Set cards out on as many areas as needed, in their order, each into the free space it fits best.

    ``keep_mm`` is kept free in the lower right corner of every area (``kept_mm`` says where),
    except where a card leaves no room for it. Free space is held as maximal rectangles; a card
    goes lowest, then where it leaves the shortest edge over. Every card must fit an empty area.
    """
    areas: list[_Area] = []
    for number, (w, h) in enumerate(sizes_mm):
        for area in areas:
            if area.take(number, w, h, gap_mm):
                break
        else:
            area = _Area(width_mm, height_mm, keep_mm, gap_mm)
            if not area.take(number, w, h, gap_mm):
                area = _Area(width_mm, height_mm, (0.0, 0.0), gap_mm, alone=keep_mm[0] > 0.0)
                assert area.take(number, w, h, gap_mm), "a card larger than the sheet"
            areas.append(area)
    return [FilledSheet(tuple(a.places), a.top, a.kept) for a in areas]


class _Area:
    """One sheet being filled."""

    def __init__(
        self, width: float, height: float, keep: tuple[float, float], gap: float, *, alone: bool = False
    ) -> None:
        self.alone = alone  # one card only, so that what is to be kept free may still find a place
        self.spaces = [(0.0, 0.0, width, height)]
        self.places: list[tuple[int, float, float]] = []
        self.kept: tuple[float, float] | None = None
        self.top = 0.0
        if keep[0] > 0.0 and keep[0] <= width and keep[1] <= height:
            self.kept = (width - keep[0], 0.0)
            self.spaces = _less(self.spaces, (width - keep[0] - gap, 0.0, width, keep[1] + gap))
            self.top = keep[1]

    def take(self, number: int, w: float, h: float, gap: float) -> bool:
        """Place a card if there is room."""
        place = None if self.alone and self.places else _best(self.spaces, w, h)
        if place is None:
            return False
        x, y = place
        self.places.append((number, x, y))
        self.top = max(self.top, y + h)
        self.spaces = _less(self.spaces, (x, y, x + w + gap, y + h + gap))
        return True


def _best(spaces: list[tuple[float, float, float, float]], w: float, h: float) -> tuple[float, float] | None:
    fits = [
        (y0 + h, min(x1 - x0 - w, y1 - y0 - h), x0, y0)
        for x0, y0, x1, y1 in spaces
        if x1 - x0 >= w - 1e-9 and y1 - y0 >= h - 1e-9
    ]
    return min(fits)[2:] if fits else None


def _less(
    spaces: list[tuple[float, float, float, float]], taken: tuple[float, float, float, float]
) -> list[tuple[float, float, float, float]]:
    a0, b0, a1, b1 = taken
    out: list[tuple[float, float, float, float]] = []
    for x0, y0, x1, y1 in spaces:
        if a0 >= x1 or a1 <= x0 or b0 >= y1 or b1 <= y0:
            out.append((x0, y0, x1, y1))
            continue
        parts = [(x0, y0, a0, y1), (a1, y0, x1, y1), (x0, y0, x1, b0), (x0, b1, x1, y1)]
        out += [p for p in parts if p[2] - p[0] > 1.0 and p[3] - p[1] > 1.0]
    unique = list(dict.fromkeys(out))
    return [
        s
        for s in unique
        if not any(t != s and t[0] <= s[0] and t[1] <= s[1] and t[2] >= s[2] and t[3] >= s[3] for t in unique)
    ]
