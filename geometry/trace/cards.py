"""Card told from paper, and its edge followed to a fraction of a pixel.

The picture is laid flat at a fixed scale, the light of the paper is taken out, and what differs from white
paper by colour or lightness is card. The edge lies where the difference is half of the card's own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.errors import TraceError
from geometry.said import said
from geometry.trace.camera import Camera
from geometry.trace.flat import laid_flat
from geometry.trace.pencil import Line, pencil_lines

Array = NDArray[np.float64]

PX_PER_MM = 10.0
"""Scale of the flat picture: finer than 12 megapixels over A3 (9 px per mm)."""

LEAST_MM2 = 100.0
"""A patch smaller than a square of 10 mm is not a card: a crumb, a pencil."""

LEAST_HOLE_MM2 = 3.0
"""A hole smaller than this is a speck or a glint."""

LEAST_DIFFERENCE = 14.0
"""Card must differ from paper by this in Lab units (0 to 255 each): white card on white paper is not told."""

REACH_MM = 1.0
"""The edge is looked for this far either side of where the patch ends."""

BLUR_SHARE = 0.15
"""An edge blurred over more than REACH_MM on this many of its points is out of focus."""


GLARE_LIGHTNESS = 250.0
"""Of 255: what is as light as this in the picture is burnt out, nothing is known of what lies there."""

GLARE_ABOVE = 8.0
"""So much lighter than the paper beside it, or the paper itself is that light, as on a flatbed."""

LEAST_GLARE_MM = 1.5
"""A spot thinner than this is a glint, and no edge is lost in it (tried on rendered pictures)."""

GLARE_REACH_MM = 6.0
"""A burnt-out spot fades over some millimetres, and an edge so near to it is drawn off (the same)."""


@dataclass(frozen=True, eq=False)
class Patch:
    """A card: its outer ring and holes (n, 2) mm, about a point each 0.1 mm, y up; lines drawn on it."""

    ring_mm: Array
    holes_mm: tuple[Array, ...]
    lines_mm: tuple[Line, ...] = ()


def find_cards(
    picture: Any, camera: Camera, field_mm: tuple[float, float, float, float], *, lines: bool = True
) -> list[Patch]:
    """Return the cards in a field of the sheet, largest first; with the ``lines`` drawn on them.

    Raises TraceError when nothing differs enough from the paper, glare hides it, or edges are out of focus.
    """
    import cv2

    flat = laid_flat(picture, camera, field_mm, PX_PER_MM)
    difference, glare = _difference(flat)
    level, _ = cv2.threshold(difference.astype(np.uint8), 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    level = max(float(level), LEAST_DIFFERENCE)
    mask: Any = (difference > level).astype(np.uint8)
    kernel = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (7, 7))
    mask = cv2.morphologyEx(cv2.morphologyEx(mask, cv2.MORPH_OPEN, kernel), cv2.MORPH_CLOSE, kernel)
    contours, tree = cv2.findContours(mask, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    lightness = cv2.cvtColor(flat, cv2.COLOR_BGR2Lab)[..., 0]
    found: list[Patch] = []
    blurred = 0.0
    for k, contour in enumerate(contours):
        area = cv2.contourArea(contour) / PX_PER_MM**2
        if tree[0][k][3] >= 0 or area < LEAST_MM2:
            continue
        here = np.zeros_like(mask)
        cv2.drawContours(here, contours, k, 1, -1)
        inner = cv2.erode(here, cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (21, 21))) & mask
        own = float(np.median(difference[inner > 0])) if inner.any() else 2.0 * level
        ring, soft = _edge(difference, contour[:, 0, :].astype(np.float64), own / 2.0)
        blurred = max(blurred, soft)
        holes = []
        child = tree[0][k][2]
        while child >= 0:
            if cv2.contourArea(contours[child]) / PX_PER_MM**2 >= LEAST_HOLE_MM2:
                hole, _ = _edge(difference, contours[child][:, 0, :].astype(np.float64), own / 2.0)
                holes.append(_mm(hole, field_mm))
            child = tree[0][child][0]
        drawn = pencil_lines(lightness, here & mask, PX_PER_MM) if lines else ()
        drawn_mm = tuple((_mm(points, field_mm), closed) for points, closed in drawn)
        found.append(Patch(_mm(ring, field_mm), tuple(holes), drawn_mm))
        if glare[here > 0].any():
            raise TraceError(
                "glare lies on a card or at its edge",
                remedy="turn the lamp or the flash off, and take it again",
            )
    if not found:
        raise TraceError(
            "no card stands out from the paper",
            remedy="use cards of another colour than the sheet, and light them evenly",
        )
    if blurred > BLUR_SHARE:
        raise TraceError(
            said("the edges are out of focus on {0} % of their length", f"{100 * blurred:.0f}"),
            remedy="hold the camera still, focus on the cards, and use more light",
        )
    found.sort(key=lambda patch: -abs(_area(patch.ring_mm)))
    return found


def _difference(flat: Any) -> tuple[NDArray[np.float32], NDArray[np.bool_]]:
    """How far each pixel lies from the paper beside it, in Lab units, the light of the paper taken out.

    And which pixels are burnt out by glare, or too near to one that is.
    """
    import cv2

    lab = cv2.cvtColor(cv2.GaussianBlur(flat, (0, 0), 0.8), cv2.COLOR_BGR2Lab).astype(np.float32)
    small = cv2.resize(lab, None, fx=1 / 16, fy=1 / 16, interpolation=cv2.INTER_AREA)
    light = np.percentile(small[..., 0], 95)
    paper = small[..., 0] > light - 45.0
    paper &= np.abs(small[..., 1] - 128) + np.abs(small[..., 2] - 128) < 30.0
    if paper.mean() < 0.05:
        raise TraceError(
            "no white paper is visible", remedy="lay the cards on the printed sheet and leave some of it free"
        )
    height, width = paper.shape
    ys, xs = np.nonzero(paper)
    # the paper's light as a surface of second order: shadows are soft, card is not followed
    terms = _terms(xs / width, ys / height)
    for _ in range(3):
        fits = [np.linalg.lstsq(terms, small[ys, xs, c], rcond=None)[0] for c in range(3)]
        left = small[ys, xs, 0] - terms @ fits[0]
        keep = np.abs(left) < max(6.0, 2.0 * float(np.std(left)))
        ys, xs, terms = ys[keep], xs[keep], terms[keep]
    full_y, full_x = np.mgrid[0 : flat.shape[0], 0 : flat.shape[1]]
    every = _terms((full_x.ravel() + 0.5) / flat.shape[1], (full_y.ravel() + 0.5) / flat.shape[0])
    off = [lab[..., c] - (every @ fits[c]).reshape(flat.shape[:2]).astype(np.float32) for c in range(3)]
    difference = np.asarray(np.sqrt(off[0] ** 2 + off[1] ** 2 + off[2] ** 2), dtype=np.float32)
    return difference, _near_glare((lab[..., 0] > GLARE_LIGHTNESS) & (off[0] > GLARE_ABOVE))


def _near_glare(burnt: NDArray[np.bool_]) -> NDArray[np.bool_]:
    import cv2

    if not burnt.any():
        return burnt
    thin, wide = (int(mm * PX_PER_MM) | 1 for mm in (LEAST_GLARE_MM, 2.0 * GLARE_REACH_MM))
    core = cv2.morphologyEx(burnt.astype(np.uint8), cv2.MORPH_OPEN, np.ones((thin, thin), np.uint8))
    return np.asarray(cv2.dilate(core, np.ones((wide, wide), np.uint8)) > 0)


def _terms(x: Any, y: Any) -> Array:
    return np.column_stack([np.ones_like(x), x, y, x * x, x * y, y * y])


def _edge(difference: NDArray[np.float32], contour: Array, level: float) -> tuple[Array, float]:
    """Move a ring of pixels along its normals to where the difference crosses ``level``.

    Returns the ring (px, subpixel) and the share of its points where no clear crossing was found.
    """
    import cv2

    reach = int(REACH_MM * PX_PER_MM)
    smooth = _smoothed(contour, 3.0)
    along = np.roll(smooth, -2, axis=0) - np.roll(smooth, 2, axis=0)
    length = np.maximum(np.hypot(*along.T), 1e-9)
    normals = np.column_stack([along[:, 1], -along[:, 0]]) / length[:, None]
    steps = np.arange(-reach, reach + 0.25, 0.5)
    at = smooth[:, None, :] + steps[None, :, None] * normals[:, None, :]
    seen = cv2.remap(
        difference, at[..., 0].astype(np.float32), at[..., 1].astype(np.float32), cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )  # fmt: skip
    above = seen > level
    crossing = above[:, :-1] != above[:, 1:]
    middle = np.abs(steps[:-1] + 0.25)
    cost = np.where(crossing, middle, np.inf)
    best = cost.argmin(axis=1)
    known = np.isfinite(cost[np.arange(len(cost)), best])
    a = seen[np.arange(len(seen)), best]
    b = seen[np.arange(len(seen)), np.minimum(best + 1, len(steps) - 1)]
    share = np.where(np.abs(b - a) > 1e-6, (level - a) / np.where(b == a, 1.0, b - a), 0.0)
    shift = np.where(known, steps[best] + 0.5 * share, 0.0)
    steep = np.abs(b - a) > 0.04 * level  # half a pixel: a sharp edge rises by far more
    return smooth + shift[:, None] * normals, float(1.0 - (known & steep).mean())


def _smoothed(ring: Array, sigma: float) -> Array:
    from scipy.ndimage import gaussian_filter1d

    return np.asarray(gaussian_filter1d(ring, sigma, axis=0, mode="wrap"))


def _mm(ring: Array, field_mm: tuple[float, float, float, float]) -> Array:
    x0, _, _, y1 = field_mm
    return np.column_stack([x0 + (ring[:, 0] + 0.5) / PX_PER_MM, y1 - (ring[:, 1] + 0.5) / PX_PER_MM])


def _area(ring: Array) -> float:
    x, y = ring.T
    return float(0.5 * (x @ np.roll(y, -1) - y @ np.roll(x, -1)))
