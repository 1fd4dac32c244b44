"""What holds an upper and what pulls it: edge kinds read off the rim of its mesh.

The heel end is held; the toe lasting edge, and a seam at the toe end by the piece sewn on, is pulled along
the axis by the style's force per mm (common practice, no source: the machine's pincers pull the toe while the
heel band holds). The pulled edge as a whole goes straight along the pull: pincers, or the piece it is sewn
to, do not let it swing aside (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.edge_kinds import EdgeKind
from geometry.errors import SheetError
from geometry.said import said
from geometry.stretch.field.membrane import Supports
from geometry.stretch.field.mesh import Rim

Array = NDArray[np.float64]
Edges = Sequence[tuple[EdgeKind, Array]]

FACES = 0.5
"""A rim edge faces the toe (or heel) when its normal lies within 60 degrees of the pull (or against it)."""

HEEL_SHARE = 0.35
"""Heel and toe end are looked for in this part of the length from each end. Common practice, no source."""

OPEN_KINDS = (EdgeKind.FOLDED, EdgeKind.RAW)
"""Edges that hold nothing: the throat and the top line."""

PINCERS = 5  # stretches of the toe that are gripped
PINCER_SHARE = 0.5
"""Pincers grip the toe in this many stretches, on this share of it (common practice, no source); the whole
pull is the same."""


def rim_kinds(rim: Rim, edges: Edges) -> NDArray[np.object_]:
    """Return the edge kind of every rim edge: that of the nearest edge of any piece."""
    lines = [(kind, shapely.LineString(points)) for kind, points in edges]
    if not lines:
        return np.full(len(rim.pairs), EdgeKind.LASTING, dtype=object)
    tree = shapely.STRtree([line for _, line in lines])
    nearest = tree.nearest(shapely.points(rim.middles_mm))
    kinds = np.empty(len(rim.pairs), dtype=object)
    for k, index in enumerate(nearest.tolist()):
        kinds[k] = lines[index][0]
    return kinds


def side_edges(rim: Rim, kinds: NDArray[np.object_]) -> NDArray[np.bool_]:
    """Return which rim edges are side lasting edges: those that face neither toe nor heel."""
    return np.asarray((kinds == EdgeKind.LASTING) & (np.abs(rim.normals[:, 0]) <= FACES))


def supports_of(
    rim: Rim, kinds: NDArray[np.object_], pull_n_per_mm: float, *, sides_held: bool, pincers: bool
) -> Supports:
    """Hold the heel end, pull the toe; raises SheetError where the piece shows neither."""
    facing = rim.normals[:, 0]
    x = rim.middles_mm[:, 0]
    low, high = float(x.min()), float(x.max())
    lasting = np.array([kind is EdgeKind.LASTING for kind in kinds])
    closed = np.array([kind not in OPEN_KINDS for kind in kinds])
    # where the toe end is not a lasting edge, the piece sewn on there pulls it as the pincers pull that
    at_toe = closed & (x > high - HEEL_SHARE * (high - low))
    pulled = (facing > FACES) & (lasting | at_toe)
    held = (facing < -FACES) & closed & (x < low + HEEL_SHARE * (high - low))
    if not held.any():
        held = (facing < -FACES) & (x < low + HEEL_SHARE * (high - low))
    if sides_held:
        held |= side_edges(rim, kinds)
    if not pulled.any() or not held.any():
        what = "toe" if not pulled.any() else "heel"
        raise SheetError(said("no edge faces the {0}", what), remedy="check edge kinds and pull axis")
    share = _pincers(rim, pulled) if pincers else np.ones(int(pulled.sum()))
    forces = np.zeros((int(pulled.sum()), 2))
    forces[:, 0] = pull_n_per_mm * facing[pulled] * share
    return Supports(rim.pairs[held], rim.pairs[pulled], forces, guided=True)


def _pincers(rim: Rim, pulled: NDArray[np.bool_]) -> Array:
    y = rim.middles_mm[pulled, 1]
    place = (y - y.min()) / max(float(y.max() - y.min()), 1e-9) * PINCERS
    gripped = np.abs(place - np.floor(place) - 0.5) <= PINCER_SHARE / 2.0
    weight = rim.lengths_mm[pulled] * rim.normals[pulled, 0]
    return np.where(gripped, weight.sum() / max(float(weight[gripped].sum()), 1e-9), 0.0)
