"""From pixels to millimetres: perspective and lens undone by markers at known places.

A plane seen by a camera is a homography (Hartley and Zisserman, Multiple View Geometry, ch. 2); the lens adds
one radial term about the picture's middle (Brown 1966, first term). Both are fitted at once to all corners.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from geometry.errors import TraceError
from geometry.said import said
from geometry.trace.sheet import TraceSheet

Array = NDArray[np.float64]

LEAST_MARKERS = 6
"""Fewer leave the lens open; four would give the perspective alone."""

LEAST_SPREAD = 0.5
"""The markers found must span this share of the sheet both ways, or its far end is a guess."""

WORST_MM = 0.8
"""A marker that lies further off its place than this is not flat, or not of this sheet."""

SETTLED_PX = 1e-4
"""The lens is undone to this much of a pixel: a thousandth of what an edge is found to."""


@dataclass(frozen=True, eq=False)
class Camera:
    """Maps pixels to mm. ``residual_mm``: root mean square of the corners used; ``markers``: how many."""

    to_mm: Array
    lens_share: float
    middle_px: tuple[float, float]
    size_px: float
    residual_mm: float
    markers: int

    def mm(self, pixels: Array) -> Array:
        """Return (n, 2) places on the sheet of (n, 2) pixels."""
        return _project(self.to_mm, self._straight(pixels))

    def px(self, places_mm: Array) -> Array:
        """Return (n, 2) pixels of (n, 2) places on the sheet."""
        flat = _project(np.asarray(np.linalg.inv(self.to_mm), dtype=np.float64), places_mm)
        bent = flat.copy()
        for _ in range(20):  # the lens is undone by repetition; a few rounds do for usual lenses
            before, bent = bent, flat / (1.0 + self.lens_share * (bent**2).sum(axis=1, keepdims=True))
            if np.abs(bent - before).max() * self.size_px < SETTLED_PX:
                break
        return bent * self.size_px + self.middle_px

    def _straight(self, pixels: Array) -> Array:
        flat = (np.asarray(pixels, dtype=np.float64) - self.middle_px) / self.size_px
        return flat * (1.0 + self.lens_share * (flat**2).sum(axis=1, keepdims=True))


def find_markers(grey: Any) -> dict[int, Array]:
    """Return the corners (4, 2) px of every marker seen, by number."""
    import cv2

    options = cv2.aruco.DetectorParameters()
    options.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    options.cornerRefinementWinSize = 5
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_100)
    corners, numbers, _ = cv2.aruco.ArucoDetector(dictionary, options).detectMarkers(grey)
    if numbers is None:
        return {}
    return {
        int(n): np.asarray(c, dtype=np.float64).reshape(4, 2)
        for n, c in zip(np.ravel(numbers), corners, strict=True)
    }


def camera_of(grey: Any, sheet: TraceSheet) -> Camera:
    """Return the camera of a photograph of the sheet.

    Raises TraceError when too few markers are seen, they lie in one corner, or do not fit the sheet.
    """
    seen = find_markers(grey)
    known = {marker.number: marker.corners_mm for marker in sheet.markers}
    shared = sorted(set(seen) & set(known))
    if len(shared) < LEAST_MARKERS:
        raise TraceError(
            said(
                "{0} of the {1} markers of sheet {2} are visible, {3} are needed",
                len(shared),
                len(known),
                sheet.name,
                LEAST_MARKERS,
            ),
            remedy="photograph the whole sheet, flat, sharp and evenly lit; keep cards off the markers",
        )
    px = np.vstack([seen[n] for n in shared])
    mm = np.vstack([known[n] for n in shared])
    spread = np.ptp(mm, axis=0) / (sheet.width_mm, sheet.height_mm)
    if spread.min() < LEAST_SPREAD:
        raise TraceError(
            "the visible markers lie in one part of the sheet only",
            remedy="photograph the whole sheet, uncovered",
        )
    height, width = grey.shape[:2]
    middle, size = (width / 2.0, height / 2.0), float(np.hypot(width, height)) / 2.0
    found = _fitted(px, mm, middle, size, np.ones(len(px), dtype=bool))
    off = _off_mm(found, px, mm, middle, size)
    keep = off <= max(WORST_MM, 4.0 * float(np.median(off)))
    if keep.sum() < 4 * LEAST_MARKERS or np.median(off) > WORST_MM:
        raise TraceError(
            said("the markers do not fit sheet {0} (off by {1} mm)", sheet.name, f"{np.median(off):.1f}"),
            remedy="name the sheet that was printed, print it at 100 %, and lay it flat",
        )
    found = _fitted(px, mm, middle, size, keep)
    off = _off_mm(found, px, mm, middle, size)[keep]
    matrix = np.append(found[:8], 1.0).reshape(3, 3)
    residual = float(np.sqrt((off**2).mean()))
    return Camera(matrix, float(found[8]), middle, size, residual, len(shared))


def flatbed(width_px: int, height_px: int, dpi: float) -> Camera:
    """Return the camera of a scan: this many dots per inch, no lens; y up from the lower edge."""
    mm = 25.4 / dpi
    size = float(np.hypot(width_px, height_px)) / 2.0
    middle = (width_px / 2.0, height_px / 2.0)
    matrix = np.array([[size * mm, 0.0, middle[0] * mm], [0.0, -size * mm, middle[1] * mm], [0.0, 0.0, 1.0]])
    return Camera(matrix, 0.0, middle, size, 0.0, 0)


def _fitted(px: Array, mm: Array, middle: tuple[float, float], size: float, keep: Any) -> Array:
    import cv2

    flat = (px[keep] - middle) / size
    start, _ = cv2.findHomography(flat, mm[keep], 0)

    def left(values: Array) -> Array:
        return (_places(values, px[keep], middle, size) - mm[keep]).ravel()

    fit = least_squares(left, np.append((start / start[2, 2]).ravel()[:8], 0.0), x_scale="jac")
    return np.asarray(fit.x)


def _places(values: Array, px: Array, middle: tuple[float, float], size: float) -> Array:
    flat = (px - middle) / size
    flat = flat * (1.0 + values[8] * (flat**2).sum(axis=1, keepdims=True))
    return _project(np.append(values[:8], 1.0).reshape(3, 3), flat)


def _off_mm(values: Array, px: Array, mm: Array, middle: tuple[float, float], size: float) -> Array:
    return np.asarray(np.hypot(*(_places(values, px, middle, size) - mm).T))


def _project(matrix: Array, points: Array) -> Array:
    lifted = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.asarray(lifted[:, :2] / lifted[:, 2:])
