"""Rows of one die on a roll of finite width, as a press cutter lays them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.lattice import Lattice
from nesting.tighten import Arrangement

Array = NDArray[np.float64]


def cuts(
    lattice: Lattice,
    low: Array,
    high: Array,
    count: int,
    across_mm: tuple[float, float],
    *,
    most: int = 6,
    phases: int = 24,
    overhang_mm: float = 0.0,
) -> list[Arrangement]:
    """Return strips of ``count`` pieces cut from a lattice by the roll's edges, shortest first.

    ``low`` and ``high`` (poses, 2) are the boxes of the lattice's rings. Every phase of the lattice
    along and across is tried; the ``most`` shortest of different make-up are kept. With an
    overhang, pieces that reach that far beyond an edge are kept and pushed in (they then overlap).
    """
    u, v = np.asarray(lattice.u_mm), np.asarray(lattice.v_mm)
    a0, a1 = across_mm
    width = a1 - a0
    cell = lattice.cell_mm2 / len(lattice.rings_mm)
    length = 1.6 * count * cell / width + 3.0 * float((high - low)[:, 0].max())
    # all copies that may meet the field
    corners = np.array([[x, y] for x in (-length * 0.3, length * 1.1) for y in (-width * 0.3, width * 1.3)])
    basis = np.array([u, v])
    ij = corners @ np.linalg.inv(basis)
    i = np.arange(int(ij[:, 0].min()) - 1, int(ij[:, 0].max()) + 2)
    j = np.arange(int(ij[:, 1].min()) - 1, int(ij[:, 1].max()) + 2)
    grid = np.stack(np.meshgrid(i, j, indexing="ij"), axis=-1).reshape(-1, 2) @ basis
    pose = np.repeat(np.arange(len(lattice.rings_mm)), len(grid))
    at = np.concatenate([grid + t for t in lattice.at_mm])
    found: dict[tuple[float, ...], tuple[float, float, Array, NDArray[np.int64]]] = {}
    for fi in np.arange(phases) / phases:
        for fj in np.arange(phases) / phases:
            p = at + fi * u + fj * v + (0.0, a0)
            fits = (p[:, 1] + low[pose, 1] >= a0 - overhang_mm) & (p[:, 1] + high[pose, 1] <= a1 + overhang_mm)
            left = p[:, 0] + low[pose, 0]
            fits &= left >= 0.0
            chosen = np.flatnonzero(fits)
            if len(chosen) < count:
                continue
            right = p[chosen, 0] + high[pose[chosen], 0]
            part = np.argpartition(right, count - 1)[:count]
            use = chosen[part]
            begin = float(left[use].min())
            reach = float(right[part].max()) - begin
            key = (round(reach, 1),)
            if key not in found or reach < found[key][0]:
                found[key] = (reach, begin, p[use], pose[use])
    best = sorted(found.values(), key=lambda f: f[0])[:most]
    done = []
    for reach, begin, p, q in best:
        xy = p - (begin, 0.0)
        if overhang_mm:
            xy[:, 1] = np.clip(xy[:, 1], a0 - low[q, 1], a1 - high[q, 1])
        done.append(Arrangement(q.astype(np.int64), xy, across_mm=across_mm, along_mm=(0.0, reach)))
    return done
