"""A mirror line of the plane, and what it makes of a drawn piece."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from geometry.errors import OutlineError
from geometry.outline import Outline, Ring
from geometry.piece import DrawnPiece, DrillHole, Mark, Notch

Array = NDArray[np.float64]
XY = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Reflection:
    """p -> ``matrix`` p + ``shift_mm``, a turn and a flip: lengths stay, left becomes right."""

    matrix: Array
    shift_mm: Array

    @staticmethod
    def across(from_mm: ArrayLike, to_mm: ArrayLike) -> Reflection:
        """Return the mirror whose line runs through two points; raises OutlineError when they are one."""
        a, b = np.asarray(from_mm, dtype=np.float64), np.asarray(to_mm, dtype=np.float64)
        way = b - a
        length = float(np.hypot(*way))
        if length == 0.0:
            raise OutlineError("a mirror line has no length", remedy="give two points apart from each other")
        x, y = way / length
        matrix = np.array([[x * x - y * y, 2 * x * y], [2 * x * y, y * y - x * x]])
        return Reflection(matrix, a - matrix @ a)

    def points(self, points_mm: ArrayLike) -> Array:
        """Return the images of (n, 2) points."""
        image: Array = np.asarray(points_mm, dtype=np.float64).reshape(-1, 2) @ self.matrix.T + self.shift_mm
        return image

    def point(self, xy_mm: XY) -> XY:
        """Return the image of a point."""
        x, y = self.points([xy_mm])[0]
        return float(x), float(y)

    def angle_deg(self, angle_deg: float) -> float:
        """Return the image of a heading, in (-180, 180]."""
        twice = math.degrees(math.atan2(self.matrix[1, 0], self.matrix[0, 0]))
        turned = (twice - angle_deg) % 360.0
        return turned - 360.0 if turned > 180.0 else turned

    def ring(self, ring_mm: Ring) -> Ring:
        """Return the image of a ring, walked the same way round: vertex i of n becomes (n - i) % n."""
        image = self.points(np.concatenate([ring_mm[:1], ring_mm[:0:-1]]))
        image.flags.writeable = False
        return image

    def outline(self, outline: Outline) -> Outline:
        """Return the image of an outline; vertices are numbered as ``ring`` says."""
        return Outline(self.ring(outline.ring_mm), tuple(self.ring(hole) for hole in outline.holes_mm))

    def notch(self, notch: Notch) -> Notch:
        """Return the image of a notch."""
        x, y = self.point((notch.x_mm, notch.y_mm))
        return replace(notch, x_mm=x, y_mm=y, angle_deg=self.angle_deg(notch.angle_deg))

    def drawn(self, drawn: DrawnPiece) -> DrawnPiece:
        """Return the image of a drawn piece with all that is drawn on it; its pull axis is left out."""
        return replace(
            drawn,
            outline=self.outline(drawn.outline),
            notches=tuple(map(self.notch, drawn.notches)),
            marks=tuple(Mark(self.points(m.points_mm), m.kind, m.closed) for m in drawn.marks),
            drill_holes=tuple(
                DrillHole(*self.point((d.x_mm, d.y_mm)), d.diameter_mm) for d in drawn.drill_holes
            ),
            turn_points_mm=tuple(self.point(p) for p in drawn.turn_points_mm),
            pull_axis=None,
        )
