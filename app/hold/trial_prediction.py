"""What line and field predict for a lasting trial, kept with it so that the trial can judge them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.errors import UsageError
from app.hold.verdicts import style_hold
from app.style.model import Style
from geometry.errors import GeometryError, SheetError
from geometry.said import said


def predicted(
    style: Style,
    piece: str,
    size: str,
    *,
    field: bool = True,
    note: Callable[[str], object] = lambda text: None,
) -> dict[str, Any]:
    """Return the predictions as fields of a trial; empty where there is nothing to compare with.

    By the line, and where ``field`` says so by the field, which takes a second. ``note`` is called with the
    reason why a model predicts nothing.
    """
    if not piece:
        return {}
    try:
        held = next((each for each in style_hold(style, size=size).judged if each.called == piece), None)
    except (UsageError, SheetError) as error:
        note(said("nothing was predicted to compare with ({0})", str(error)))
        return {}
    if held is None or not held.has_line:
        note(said("{0} has no hold line, so nothing was predicted to compare with", piece))
        return {}
    return {
        "predicted_mm": round(held.hold.best_mm, 4),
        "predicted_field_mm": _field_mm(style, piece, size, note) if field else None,
        "pull_n_per_mm": style.pull_n_per_mm,
        "angle_deg": None if held.angle_deg is None else round(held.angle_deg, 2),
    }


def _field_mm(style: Style, piece: str, size: str, note: Callable[[str], object]) -> float | None:
    from app.hold.field import predicted_throat_mm  # loads the finite elements

    try:
        found = predicted_throat_mm(style, piece, size)
    except (UsageError, GeometryError) as error:
        note(said("the field predicted nothing to compare with ({0})", str(error)))
        return None
    return round(found, 4) if found > 0.0 else None
