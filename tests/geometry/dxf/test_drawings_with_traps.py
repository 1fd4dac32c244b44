"""Drawings with traps, and real ones, against what their manifests say a good import does.

``hostile`` holds drawings of our own, one trap each. The real ones, test drawings of open libraries, are
not part of the project: they are read where they lie beside it (../shared/dxf). Their ``expected`` was found
by two independent readers; where they disagree only a clear outcome is asked.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from geometry.dxf.read import ReadDrawing, read_drawing
from geometry.dxf.units import MM_PER
from geometry.errors import DrawingError
from geometry.findings import Severity

HOSTILE = Path(__file__).with_name("hostile")
REAL = Path(__file__).resolve().parents[4] / "shared" / "dxf" / "real"

READ_OTHERWISE = {
    "dxf/blocks1.dxf": "four outlines overlap in part: two with cut-outs, where others see three",
    "dxf/issue39.dxf": "pockets that stick out of the outline are pieces of their own, not its cut-outs",
    "ezdxf/4_world.dxf": "one island hangs on a line shared with another",
    "ezdxf/AC1003_LINE_Example.dxf": "lines across the part end in its corners: five closed areas",
    "ezdxf/usa.dxf": "one ring runs half its way backwards: its signed area means nothing",
    "macad3d/EllipseArc.dxf": "two squares with common corners beside the closed arc",
    "macad3d/ImperialScale_Source.dxf": "an outline with a line across is two closed areas",
}
"""Files of medium confidence where only a person can tell what a piece is, and what is read: each
must come with a question, a warning or an error. All else must match in count and area."""

ALSO_RIGHT = {"47_degenerate_entities.dxf": (3, 5600.0)}
"""The manifest's alternative: the file holds no scale 0, its writer had dropped it."""


def _manifest(folder: Path) -> list[dict[str, Any]]:
    content = json.loads((folder / "manifest.json").read_text("utf-8"))
    return content if isinstance(content, list) else content["files"]


def _area(drawing: ReadDrawing) -> float:
    return sum(piece.outline.area_mm2 for piece in drawing.pieces)


def _codes(drawing: ReadDrawing) -> set[str]:
    return {finding.code for finding in drawing.findings}


@pytest.mark.parametrize("entry", _manifest(HOSTILE), ids=lambda e: e["path"])
def test_hostile(entry: dict[str, Any]) -> None:
    expect = entry["expect"]
    path = HOSTILE / entry["path"]
    if expect["result"] == "error":
        with pytest.raises(DrawingError) as caught:
            read_drawing(path)
        assert caught.value.code == expect["code"]
        assert entry["path"] in str(caught.value)
        return
    drawing = read_drawing(path)
    if entry["path"] in ALSO_RIGHT:
        assert (len(drawing.pieces), _area(drawing)) == ALSO_RIGHT[entry["path"]]
        return
    assert len(drawing.pieces) == expect["pieces"]
    area = expect.get("area_mm2")
    if area is None:
        area = expect[f"area_mm2_if_{drawing.unit}"]
    assert _area(drawing) == pytest.approx(area, rel=expect["area_tol_rel"])
    if "holes" in expect:
        assert sum(len(piece.outline.holes_mm) for piece in drawing.pieces) == expect["holes"]
    assert drawing.unit == expect.get("units", expect.get("units_guess"))
    if expect["result"] == "import_with_question":
        assert any(f.severity is Severity.QUESTION for f in drawing.findings)
    if "warning_code" in expect:
        assert expect["warning_code"] in _codes(drawing)
    if "bbox_mm" in expect:
        boxes = [piece.outline.bbox_mm for piece in drawing.pieces]
        box = (
            *map(min, zip(*[b[:2] for b in boxes], strict=True)),
            *map(max, zip(*[b[2:] for b in boxes], strict=True)),
        )
        assert box == pytest.approx(tuple(expect["bbox_mm"]), abs=0.06)
    names = {piece.name for piece in drawing.pieces}
    assert set(expect.get("names", [])) <= names
    for part in expect.get("names_contain", []):
        assert any(part in name for name in names)
    if "sizes" in expect:
        assert list(drawing.sizes) == expect["sizes"]
        assert names == set(expect["piece_names"])
        assert drawing.base_size == expect["base_size"]
        pieces = drawing.pieces
        marks = [mark.kind for piece in pieces for mark in piece.marks]
        assert sum(piece.pull_axis is not None for piece in pieces) == expect["grain_lines"]
        assert sum(len(piece.notches) for piece in pieces) == expect["notches"]
        assert sum(len(piece.drill_holes) for piece in pieces) == expect["drill_holes"]
        assert marks.count("line") == expect["internals"]
        assert marks.count("sew") == expect["sew_lines"]
    if "reported_gap_mm" in entry:
        (gap,) = [f for f in drawing.findings if f.code == "GAP_CLOSED"]
        assert f"{entry['reported_gap_mm']:g} mm" in gap.message
        assert gap.where_mm


@pytest.mark.skipif(not REAL.is_dir(), reason="../shared/dxf/real is not here")
@pytest.mark.parametrize("entry", _manifest(REAL) if REAL.is_dir() else [], ids=lambda e: e["path"])
def test_real(entry: dict[str, Any]) -> None:
    expected = entry["expected"]
    path = REAL / entry["path"]
    if expected["confidence"] == "none":
        try:
            read_drawing(path)
        except DrawingError as error:
            assert path.name in str(error)
        return
    if expected["closed_outlines"] == 0:
        with pytest.raises(DrawingError, match="no closed outline"):
            read_drawing(path)
        return
    drawing = read_drawing(path)
    if entry["path"] in READ_OTHERWISE:
        assert expected["confidence"] == "medium"
        assert any(f.severity is not Severity.NOTE and f.code != "UNIT" for f in drawing.findings)
        return
    mm = {"ft": 304.8}.get(drawing.unit) or MM_PER[drawing.unit]
    assert len(drawing.pieces) == expected["pieces_evenodd"]
    assert _area(drawing) / mm**2 == pytest.approx(expected["net_area_du2"], rel=1e-3)
    if entry["units"] in MM_PER:
        assert drawing.unit == entry["units"]
    else:
        assert any(f.code == "UNIT" for f in drawing.findings)
