"""The open strip-packing instance format, read as a problem.

``{name, strip_height, items: [{id, demand, allowed_orientations, shape: {type, data}}]}``: the strip
height is the usable width, its length is free; orientations are the permitted turns in degrees,
absent for any turn. The format of the jagua-rs and sparrow libraries (MPL-2.0 / MIT) and of the
OR-Datasets collection.
"""

from __future__ import annotations

import math
import os
from typing import Any

import numpy as np
from shapely.geometry import Polygon
from shapely.validation import explain_validity

from geometry.errors import GeometryError
from geometry.outline import Outline
from geometry.said import said
from nesting.errors import LayFileError
from nesting.files.lay_file import read_json
from nesting.items import Item
from nesting.problem import LayProblem
from nesting.roll import Roll


def read(path: str | os.PathLike[str], gap_mm: float = 0.0) -> tuple[LayProblem, dict[str, Any]]:
    """Return the problem that an instance file states, and each item's id as the file writes it (a number
    stays a number); raises LayFileError."""
    file = str(path)
    doc = read_json(path)
    if not isinstance(doc, dict) or not isinstance(doc.get("items"), list):
        raise LayFileError("has no list of items", remedy="give an open-format instance", file=file)
    width = _number(doc.get("strip_height"), "strip_height", file)
    if width <= 0:
        raise LayFileError("strip_height must be more than 0", remedy="correct the file", file=file)
    items: list[Item] = []
    names: dict[str, Any] = {}
    for position, entry in enumerate(doc["items"]):
        item = _item(entry, position, file)
        if item.id in names:
            raise LayFileError("two items have this id", remedy="give each its own", file=file, piece=item.id)
        names[item.id] = entry.get("id", position)
        items.append(item)
    if not sum(item.demand for item in items):
        raise LayFileError("asks for no pieces", remedy="give items a demand", file=file)
    return LayProblem(
        roll=Roll(usable_width_mm=width),
        items=tuple(items),
        gap_mm=gap_mm,
        name=str(doc.get("name") or ""),
    ), names


def _item(entry: Any, position: int, file: str) -> Item:
    name = f"item {position}"
    if not isinstance(entry, dict):
        raise LayFileError("is not an object", remedy="correct the file", file=file, piece=name)
    item_id = str(entry.get("id", position))
    demand = _number(entry.get("demand", 1), "demand", file, item_id)
    if demand < 0 or demand != int(demand):
        raise LayFileError(
            "demand must be a whole number", remedy="correct the file", file=file, piece=item_id
        )
    turns = entry.get("allowed_orientations")
    if turns is not None:
        if not isinstance(turns, list) or not turns:
            raise LayFileError(
                "allowed_orientations must list degrees", remedy="or leave it out", file=file, piece=item_id
            )
        turns = tuple(_number(turn, "allowed_orientations", file, item_id) for turn in turns)
    return Item(
        id=item_id, outline=_outline(entry.get("shape"), file, item_id), demand=int(demand), turns_deg=turns
    )


def _outline(shape: Any, file: str, item_id: str) -> Outline:
    kind = shape.get("type") if isinstance(shape, dict) else None
    if kind != "simple_polygon":
        raise LayFileError(
            said("its shape is {0}, not a simple_polygon", kind or "missing"),
            remedy="correct the file",
            file=file,
            piece=item_id,
        )
    try:
        points = np.array(shape.get("data"), dtype=np.float64)
        outline = Outline.make(points)
    except GeometryError as error:
        raise LayFileError(error.message, remedy=error.remedy, file=file, piece=item_id) from None
    except (TypeError, ValueError):
        raise LayFileError(
            "its shape is not a list of points", remedy="correct the file", file=file, piece=item_id
        ) from None
    polygon = Polygon(outline.ring_mm)
    if not polygon.is_valid:
        raise LayFileError(
            said("its outline is not simple ({0})", explain_validity(polygon)),
            remedy="redraw it",
            file=file,
            piece=item_id,
        )
    return outline


def _number(value: Any, what: str, file: str, piece: str = "") -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise LayFileError(
            said("{0} must be a number", what), remedy="correct the file", file=file, piece=piece
        )
    return float(value)
