"""A picture laid flat: perspective and lens undone, this many pixels per mm, upper side up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from geometry.trace.camera import Camera

Field = tuple[float, float, float, float]


@dataclass(frozen=True, eq=False)
class FlatPicture:
    """``pixels`` (rows, columns, 3), red first, of the field (x0, y0, x1, y1) of the sheet in mm."""

    pixels: Any
    field_mm: Field


def laid_flat(picture: Any, camera: Camera, field_mm: Field, px_per_mm: float) -> Any:
    """Return the field of a picture at a fixed scale; its upper row lies at the field's upper side."""
    import cv2

    x0, y0, x1, y1 = field_mm
    columns, rows = int((x1 - x0) * px_per_mm), int((y1 - y0) * px_per_mm)
    xs = x0 + (np.arange(columns) + 0.5) / px_per_mm
    ys = y1 - (np.arange(rows) + 0.5) / px_per_mm
    places = np.column_stack([a.ravel() for a in np.meshgrid(xs, ys)])
    px = camera.px(places).astype(np.float32)
    return cv2.remap(
        picture,
        px[:, 0].reshape(rows, columns) - 0.5,
        px[:, 1].reshape(rows, columns) - 0.5,
        cv2.INTER_CUBIC,
        borderMode=cv2.BORDER_REPLICATE,
    )


def flat_picture(picture: Any, camera: Camera, field_mm: Field, px_per_mm: float) -> FlatPicture:
    """Return the picture to show under outlines, its colours in the order screens take them."""
    flat = laid_flat(picture, camera, field_mm, px_per_mm)
    return FlatPicture(np.ascontiguousarray(flat[..., ::-1]), field_mm)
