"""What drawn things are kept relative to, so that grading carries them.

The rule: a place at an edge stays at its share of the *net* length of its stretch of the outline and at its
distance (mm, the same in every size) from the cut outline there; a place in the open piece rides with the
graded frame, as marks do. Widths, distances, overlaps, pitches and depths are the same in every size.
A stretch is named by two vertices of its ring, not by an edge: it stays when break points change.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class InFrame:
    """A place in the open piece: a point of the base size's frame."""

    x_mm: float
    y_mm: float


@dataclass(frozen=True)
class AtEdge:
    """A place at the stretch of ring ``ring`` from vertex ``start`` to vertex ``stop`` (of the base size).

    ``share`` of the stretch's net length lies before it. ``inward_mm`` is its distance from the cut outline,
    square to it into the material; ``aside_mm`` a shift along it, which only a place beyond a corner needs.
    """

    ring: int
    start: int
    stop: int
    share: float
    inward_mm: float = 0.0
    aside_mm: float = 0.0


Place = InFrame | AtEdge


@dataclass(frozen=True)
class Course:
    """A line through places: straight from one to the next, or ``smooth`` (a cubic spline through all).

    ``closed`` comes back to its start; ``rounded_mm`` rounds the corners of a closed one.
    """

    places: tuple[Place, ...]
    smooth: bool = False
    closed: bool = False
    rounded_mm: float = 0.0


@dataclass(frozen=True)
class Beside:
    """A line that runs beside the outline from ``start`` to ``stop``, in the ring's own direction.

    ``inward_mm`` from the cut outline, or with ``from_net`` from the net line (that of a lasting edge is
    its feather line).
    """

    start: AtEdge
    stop: AtEdge
    inward_mm: float
    from_net: bool = False


@dataclass(frozen=True)
class Band:
    """The region along the cut outline from ``start`` to ``stop``, ``near_mm`` to ``far_mm`` from it."""

    start: AtEdge
    stop: AtEdge
    far_mm: float
    near_mm: float = 0.0


Line = Course | Beside
Area = Course | Band
