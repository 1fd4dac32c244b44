"""The one way in: a picture of cards -> drawn pieces in the sheet's frame, and how sure they are."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

import numpy as np

from geometry.errors import OutlineError, TraceError
from geometry.inch import MM_PER_INCH
from geometry.outline import Outline
from geometry.piece import DrawnPiece, Mark
from geometry.said import said
from geometry.trace.camera import Camera, camera_of, flatbed
from geometry.trace.cards import PX_PER_MM, find_cards
from geometry.trace.flat import FlatPicture, flat_picture
from geometry.trace.nicks import on_outline, without_notches
from geometry.trace.outline import fitted_ring
from geometry.trace.sheet import trace_sheet

LEAST_DPI, MOST_DPI = 75.0, 2400.0
MOST_SCAN_MM2 = 1.2e6
"""No flatbed scans more than a sheet of A0: a larger one says that its resolution was mistaken."""

MOST_PIXELS = 150_000_000
"""A0 at 300 dpi; half a gigabyte while it is looked at."""

MOST_BYTES = 500_000_000
"""The same, not compressed."""

CALLED = "card {0}"
"""A card's name until somebody types its own; whoever traces says it in the language spoken there."""

EDGE_PX = 0.3
"""Part of a pixel that an edge is found to (rendered photographs in tests; more in poor light)."""


SHOWN_PX_PER_MM = 5.0
"""Scale of the picture that is shown under the outlines: finer than a screen shows a sheet whole."""


@dataclass(frozen=True)
class Traced:
    """The pieces of a picture. ``scale_from`` is "markers" or "dpi"; ``flat``: where asked for."""

    pieces: tuple[DrawnPiece, ...]
    uncertainty_mm: float
    scale_from: Literal["markers", "dpi"]
    markers: int
    flat: FlatPicture | None = None


def trace_picture(
    path: Path,
    *,
    sheet: str = "",
    dpi: float | None = None,
    shown: bool = False,
    notches: bool = True,
    lines: bool = True,
    called: str = CALLED,
) -> Traced:
    """Return the outlines of the cards in a photograph on a printed sheet, or in a scan of known dpi.

    ``uncertainty_mm``: the markers' residual and a part of a pixel together, for one standard deviation.
    ``shown`` asks for the picture laid flat too; ``notches``: nicks of the outline are taken as notches, else
    they stay in it; ``lines``: what is drawn on a card comes as marks; ``called``: what the cards are called,
    {0} for their number, the largest first.
    Raises TraceError, which names the file and what to do.
    """
    try:
        return _traced(_picture(path), sheet, dpi, shown, notches, lines, called)
    except TraceError as error:
        raise TraceError(error.message, remedy=error.remedy, file=str(path)) from None


def _traced(
    picture: Any, sheet: str, dpi: float | None, shown: bool, notches: bool, lines: bool, called: str
) -> Traced:
    import cv2

    height, width = picture.shape[:2]
    if dpi is not None:
        if not LEAST_DPI <= dpi <= MOST_DPI:
            raise TraceError(
                said("{0} dots per inch", f"{dpi:g}"),
                remedy=said("give {0} to {1}", f"{LEAST_DPI:g}", f"{MOST_DPI:g}"),
            )
        wide_mm, high_mm = width * MM_PER_INCH / dpi, height * MM_PER_INCH / dpi
        if wide_mm * high_mm > MOST_SCAN_MM2:
            raise TraceError(
                said(
                    "at {0} dots per inch the scan is {1} x {2} mm",
                    f"{dpi:g}",
                    round(wide_mm),
                    round(high_mm),
                ),
                remedy="give the resolution that it was scanned with",
            )
        camera = flatbed(width, height, dpi)
        margin = 2.0
        field = (margin, margin, wide_mm - margin, high_mm - margin)
    else:
        printed = trace_sheet(sheet)
        camera = camera_of(cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY), printed)
        field = printed.field_mm
    pieces = []
    for number, patch in enumerate(find_cards(picture, camera, field, lines=lines), 1):
        ring, nicks = without_notches(patch.ring_mm) if notches else (patch.ring_mm, ())
        try:
            outline = Outline.make(fitted_ring(ring), [fitted_ring(hole) for hole in patch.holes_mm])
        except OutlineError:
            continue
        if outline.polygon.is_valid:
            marks = tuple(Mark(points, "line", closed) for points, closed in patch.lines_mm)
            nicks = on_outline(nicks, outline.ring_mm)
            name = called.format(number)
            pieces.append(DrawnPiece(name=name, outline=outline, notches=nicks, marks=marks))
    if not pieces:
        raise TraceError("no outline could be closed", remedy="lay the cards apart and photograph them again")
    unsure = float(np.hypot(camera.residual_mm, EDGE_PX * _mm_per_px(camera, field)))
    flat = flat_picture(picture, camera, field, SHOWN_PX_PER_MM) if shown else None
    return Traced(tuple(pieces), unsure, "markers" if dpi is None else "dpi", camera.markers, flat)


def _picture(path: Path) -> Any:
    os.environ.setdefault("OPENCV_IO_MAX_IMAGE_PIXELS", str(MOST_PIXELS))  # looked at when cv2 is loaded
    import cv2

    too_large = TraceError(
        said("holds more than {0} million pixels", MOST_PIXELS // 1_000_000),
        remedy="take or scan it with fewer pixels: 300 dots per inch are enough",
    )
    try:
        if path.stat().st_size > MOST_BYTES:
            raise too_large
        data = np.frombuffer(path.read_bytes(), dtype=np.uint8)
    except OSError as error:
        raise TraceError(
            said("cannot be read ({0})", error.strerror or error), remedy="check the name"
        ) from None
    try:
        picture = cv2.imdecode(data, cv2.IMREAD_COLOR) if len(data) else None
    except (cv2.error, MemoryError):
        raise too_large from None
    if picture is not None and picture.shape[0] * picture.shape[1] > MOST_PIXELS:
        raise too_large
    if picture is None:
        raise TraceError("is not a picture that can be read", remedy="give a PNG, JPEG or TIFF")
    if min(picture.shape[:2]) < 400:
        raise TraceError(
            said("is only {0} x {1} pixels", picture.shape[1], picture.shape[0]),
            remedy="take it at a higher resolution",
        )
    return picture


def _mm_per_px(camera: Camera, field: tuple[float, float, float, float]) -> float:
    middle = np.array([[(field[0] + field[2]) / 2.0, (field[1] + field[3]) / 2.0]])
    a = camera.px(middle)
    b = camera.px(middle + (1.0, 0.0))
    return max(1.0 / max(float(np.hypot(*(b - a)[0])), 1e-9), 1.0 / PX_PER_MM / 4.0)
