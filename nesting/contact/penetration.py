"""How deep one piece lies in another, as a raster over their offset, for the search engines.

The raster is a sampled signed distance to A + (-B): good to about one cell, smooth enough to
descend on. No result is accepted without an exact check: ``contact`` and ``verify`` decide.
"""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from typing import NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.contact.touch import convolution

Array = NDArray[np.float64]

BLOCK, PARTS = 4, 4
"""A lower bound for so many by so many cells, in such a part of a cell: 0.5 MB for 96 pieces, which a
processor's cache holds, beside 31 (of blocks of 2, 3, 4 and 6 cells these take least time in rounds of local
search on 96, 99 and 400 pieces, measured)."""


@njit(cache=True, nogil=True)
def _spans(ring: Array, y: float) -> Array:
    """Sorted crossings of a ring with a horizontal line."""
    n = len(ring)
    found = np.empty(n)
    k = 0
    for i in range(n):
        x0, y0 = ring[i - 1]
        x1, y1 = ring[i]
        if (y0 <= y) != (y1 <= y):
            found[k] = x0 + (y - y0) / (y1 - y0) * (x1 - x0)
            k += 1
    return np.sort(found[:k])


@njit(cache=True, nogil=True)
def _sum_mask(a: Array, c: Array, h: float, x0: float, y0: float, nx: int, ny: int) -> NDArray[np.bool_]:
    """Cells (centres at x0 + i h, y0 + j h) inside A + C, by adding spans of scan lines."""
    alo, ahi = a[:, 1].min(), a[:, 1].max()
    clo, chi = c[:, 1].min(), c[:, 1].max()
    # lines of A at multiples of h; lines of C so that sums fall on rows
    na = int(np.floor((ahi - alo) / h)) + 1
    nc = int(np.floor((chi - clo) / h)) + 1
    fa = alo + ((ahi - alo) - (na - 1) * h) / 2
    base = np.round((fa + clo + ((chi - clo) - (nc - 1) * h) / 2 - y0) / h)
    fc = y0 + base * h - fa
    diff = np.zeros((ny, nx + 1), np.int32)
    crossings_c = [_spans(c, fc + j * h) for j in range(nc)]
    for i in range(na):
        ca = _spans(a, fa + i * h)
        for j in range(nc):
            cc = crossings_c[j]
            row = int(base) + i + j
            if row < 0 or row >= ny:
                continue
            for s in range(0, len(ca) - 1, 2):
                for t in range(0, len(cc) - 1, 2):
                    lo = int(np.ceil((ca[s] + cc[t] - x0) / h))
                    hi = int(np.floor((ca[s + 1] + cc[t + 1] - x0) / h)) + 1
                    lo = max(0, min(nx, lo))
                    hi = max(0, min(nx, hi))
                    if hi > lo:
                        diff[row, lo] += 1
                        diff[row, hi] -= 1
    mask = np.zeros((ny, nx), np.bool_)
    for r in range(ny):
        run = 0
        for q in range(nx):
            run += diff[r, q]
            mask[r, q] = run > 0
    return mask


@njit(cache=True, nogil=True)
def _distance_to(mask: NDArray[np.bool_]) -> NDArray[np.float32]:
    """Euclidean distance in cells of every cell to the nearest True cell (lower envelope of
    parabolas; Felzenszwalb & Huttenlocher 2012, from memory)."""
    ny, nx = mask.shape
    big = 1e9
    g = np.empty((ny, nx))
    for x in range(nx):
        d = big
        for y in range(ny):
            d = 0.0 if mask[y, x] else d + 1.0
            g[y, x] = d
        d = big
        for y in range(ny - 1, -1, -1):
            d = 0.0 if mask[y, x] else d + 1.0
            g[y, x] = min(d, g[y, x])
    out = np.empty((ny, nx), np.float32)
    v = np.empty(nx, np.int64)
    z = np.empty(nx + 1)
    for y in range(ny):
        k = 0
        v[0] = 0
        z[0], z[1] = -big, big
        for q in range(1, nx):
            fq = min(g[y, q], 1e6) ** 2 + q * q
            while True:
                p = v[k]
                s = (fq - min(g[y, p], 1e6) ** 2 - p * p) / (2.0 * (q - p))
                if s <= z[k] and k > 0:
                    k -= 1
                else:
                    break
            k += 1
            v[k] = q
            z[k], z[k + 1] = s, big
        k = 0
        for q in range(nx):
            while z[k + 1] < q:
                k += 1
            p = v[k]
            out[y, q] = np.sqrt((q - p) ** 2 + min(g[y, p], 1e6) ** 2)
    return out


@njit(cache=True, nogil=True)
def _frame(a: Array, b: Array, h: float, gap: float) -> tuple[float, float, int, int]:
    """Where the raster of a pair begins, and how many cells it has: (x0, y0, nx, ny)."""
    margin = gap + 2.0 * h
    lx = a[:, 0].min() - b[:, 0].max() - margin
    ly = a[:, 1].min() - b[:, 1].max() - margin
    nx = int(np.ceil((a[:, 0].max() - b[:, 0].min() + margin - lx) / h)) + 1
    ny = int(np.ceil((a[:, 1].max() - b[:, 1].min() + margin - ly) / h)) + 1
    return lx, ly, nx, ny


@njit(cache=True, nogil=True)
def depth_raster(
    a: Array, b: Array, h: float, gap: float, deep: bool = True
) -> tuple[NDArray[np.float32], float, float]:
    """Return (raster, x0, y0): value [j, i] is gap + depth of offset (x0 + i h, y0 + j h) of B
    from A, positive where they are closer than ``gap``. Unless ``deep`` it is only near the gap
    that more than the sign is right; that takes half the time."""
    c = -b
    margin = gap + 2.0 * h
    lx, ly, nx, ny = _frame(a, b, h, gap)
    inside = _sum_mask(a, c, h, lx, ly, nx, ny)
    if deep:
        outward = _distance_to(inside)
        inward = _distance_to(~inside)
    else:
        outward = inward = np.full((1, 1), np.float32(2.0))
    # outside, where pieces touch, the distance is taken to the sum's boundary itself
    segments = convolution(a, b)
    near = np.full((ny, nx), np.inf)
    behind = np.zeros((ny, nx), np.bool_)  # the nearest segment turns its back: the cell is inside
    for k in range(len(segments)):
        sx, sy, ex, ey = segments[k]
        dx, dy = ex - sx, ey - sy
        ll = dx * dx + dy * dy
        i0 = max(0, int(np.ceil((min(sx, ex) - margin - lx) / h)))
        i1 = min(nx - 1, int(np.floor((max(sx, ex) + margin - lx) / h)))
        j0 = max(0, int(np.ceil((min(sy, ey) - margin - ly) / h)))
        j1 = min(ny - 1, int(np.floor((max(sy, ey) + margin - ly) / h)))
        for j in range(j0, j1 + 1):
            py = ly + j * h - sy
            for i in range(i0, i1 + 1):
                px = lx + i * h - sx
                t = (px * dx + py * dy) / ll
                inner = 0.0 < t < 1.0
                t = min(1.0, max(0.0, t))
                d2 = (px - t * dx) ** 2 + (py - t * dy) ** 2
                if d2 < near[j, i]:
                    near[j, i] = d2
                    behind[j, i] = inner and dy * px - dx * py < 0.0
    raster = np.empty((ny, nx), np.float32)
    for j in range(ny):
        for i in range(nx):
            if inside[j, i]:
                d = h * ((inward[j, i] if deep else np.float32(2.0)) - np.float32(0.5))
            elif near[j, i] < margin * margin:
                d = np.sqrt(near[j, i])
                d = d if behind[j, i] else -d
            else:
                d = h * (np.float32(0.5) - outward[j, i]) if deep else -margin
            raster[j, i] = np.float32(gap + d)
    return raster, lx, ly


class DepthTable(NamedTuple):
    """Depth rasters of every pair of poses, packed for the hot loops, which take it as it is.

    ``pair[a, b]`` is the raster of b seen from a; ``flip`` says to ask it at -q.
    ``box`` (k, 4) is x0, y0, nx, ny; ``start`` (k,) where it begins in ``cells``. ``reach`` (poses, 4): the
    least and greatest x and y of each pose, half of the rasters' margin further out: where those of two
    pieces do not meet no depth need be read. ``least``: a lower bound of the depth in each BLOCK x BLOCK
    cells of a raster, in PARTS of a cell, from ``least_start`` (k,) on, row by row.
    """

    h_mm: float
    cells: NDArray[np.float32]
    start: NDArray[np.int64]
    box: Array
    pair: NDArray[np.int64]
    flip: NDArray[np.int64]
    reach: Array
    least: NDArray[np.uint8]
    least_start: NDArray[np.int64]


@njit(cache=True, nogil=True)
def least_depths(
    cells: NDArray[np.float32], start: int, box: Array, h: float, least: NDArray[np.uint8]
) -> None:
    """Fill ``least`` with the lower bounds of one raster's blocks; between its cells depths are bilinear."""
    nx, ny = int(box[2]), int(box[3])
    k = 0
    for top in range(0, ny - 1, BLOCK):
        for left in range(0, nx - 1, BLOCK):
            low = np.inf
            for j in range(top, min(ny, top + BLOCK + 1)):
                for i in range(left, min(nx, left + BLOCK + 1)):
                    low = min(low, cells[start + j * nx + i])
            least[k] = int(max(0.0, min(255.0, low / h * PARTS)))
            k += 1


def depth_table(rings: list[Array], h_mm: float, gap_mm: float, workers: int = 1) -> DepthTable:
    """Return rasters for all pairs of poses, in so many threads; rings of poses about their own origins."""
    n = len(rings)
    index = np.zeros((n, n), np.int64)
    flip = np.zeros((n, n), np.int64)
    boxes: list[tuple[float, float, float, float]] = []
    pairs: list[tuple[int, int]] = []
    # poses that are each other's half turn about the origin share rasters: R(-a, -b)(q) = R(a, b)(-q)
    turned = [next((j for j in range(n) if _same(rings[j], -rings[i])), -1) for i in range(n)]
    known: dict[tuple[int, int], tuple[int, int]] = {}
    for i in range(n):
        for j in range(n):
            hit = known.get((i, j))
            if hit is None:
                hit = (len(pairs), 0)
                pairs.append((i, j))
                boxes.append(_frame(rings[i], rings[j], h_mm, gap_mm))
                known[i, j] = hit
                known.setdefault((j, i), (hit[0], 1))
                ti, tj = turned[i], turned[j]
                if ti >= 0 and tj >= 0:
                    known.setdefault((ti, tj), (hit[0], 1))
                    known.setdefault((tj, ti), (hit[0], 0))
            index[i, j], flip[i, j] = hit
    box = np.array(boxes, np.float64)
    ends = np.cumsum(box[:, 2] * box[:, 3]).astype(np.int64)
    start = np.concatenate([[0], ends[:-1]]).astype(np.int64)
    cells = np.empty(int(ends[-1]), np.float32)  # at once: a list of rasters joined would take twice as much

    blocks = ((box[:, 2] - 2.0) // BLOCK + 1.0) * ((box[:, 3] - 2.0) // BLOCK + 1.0)
    least_ends = np.cumsum(blocks).astype(np.int64)
    least_start = np.concatenate([[0], least_ends[:-1]]).astype(np.int64)
    least = np.empty(int(least_ends[-1]), np.uint8)

    def sample(k: int) -> None:
        i, j = pairs[k]
        cells[start[k] : ends[k]] = depth_raster(rings[i], rings[j], h_mm, gap_mm)[0].ravel()
        least_depths(cells, start[k], box[k], h_mm, least[least_start[k] : least_ends[k]])

    with ThreadPoolExecutor(max(1, workers)) as threads:
        list(threads.map(sample, range(len(pairs))))
    half = (gap_mm + 2.0 * h_mm) / 2.0
    reach = np.array([(*(r.min(axis=0) - half), *(r.max(axis=0) + half)) for r in rings])[:, [0, 2, 1, 3]]
    return DepthTable(h_mm, cells, start, box, index, flip, np.ascontiguousarray(reach), least, least_start)


def _same(a: Array, b: Array) -> bool:
    return a.shape == b.shape and bool(np.allclose(a, b, atol=1e-9))


@njit(cache=True, nogil=True, inline="always")
def depth_at(
    cells: NDArray[np.float32], base: int, box: Array, h: float, qx: float, qy: float
) -> tuple[float, float, float]:
    """Return depth and its gradient at an offset (bilinear); zeros outside the raster."""
    fx = (qx - box[0]) / h
    fy = (qy - box[1]) / h
    nx = int(box[2])
    ny = int(box[3])
    if fx < 0.0 or fy < 0.0 or fx >= nx - 1 or fy >= ny - 1:
        return 0.0, 0.0, 0.0
    i, j = int(fx), int(fy)
    tx, ty = fx - i, fy - j
    k = base + j * nx + i
    c00, c10 = cells[k], cells[k + 1]
    c01, c11 = cells[k + nx], cells[k + nx + 1]
    low = c00 + tx * (c10 - c00)
    high = c01 + tx * (c11 - c01)
    d = low + ty * (high - low)
    if d <= 0.0:
        return 0.0, 0.0, 0.0
    gx = ((c10 - c00) * (1.0 - ty) + (c11 - c01) * ty) / h
    return d, gx, (high - low) / h
