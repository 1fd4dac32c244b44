"""Files in the layer scheme of ASTM D6673-10 (withdrawn 2019) / AAMA-292.

Layer meanings are those of the scheme's published layer table. The file below is made the way
such files are met in practice: one block a piece and size, all placed at the origin, the boundary
in open polylines, the unit in a text only.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import ezdxf
import pytest

from geometry.dxf.read import ReadDrawing, read_drawing
from geometry.errors import DrawingError
from geometry.findings import Severity

VAMP = [(0.0, 0.0), (200.0, 0.0), (200.0, 60.0), (120.0, 80.0), (0.0, 70.0)]
VAMP_AREA = 200 * 60 + 0.5 * (0 + 20) * 80 + 0.5 * (20 + 10) * 120 - 0.0


@dataclass
class Style:
    """How a pattern file is written."""

    units: str = "METRIC"
    per_mm: float = 1.0
    sizes: tuple[int, ...] = (36, 37)
    half: bool = False
    fold_drawn: bool = True
    repeat_on_84: bool = False
    placed: bool = True
    size_text: bool = True
    gap_mm: float = 0.0
    quantity: str = "2"

    def write(self, folder: Path) -> Path:
        document = ezdxf.new("R12")
        model = document.modelspace()
        for text in ("STYLE NAME : COURT", f"Units: {self.units}", "Sample Size: 37", "Author: own;own;1"):
            model.add_text(text, dxfattribs={"layer": "1"})
        for size in self.sizes:
            name = f"VAMP_{size}"
            block = document.blocks.new(name)
            self._fill(block, size, size / 37 * self.per_mm)
            if self.placed:
                model.add_blockref(name, (0, 0), dxfattribs={"layer": "1"})
        path = folder / "style.dxf"
        document.saveas(path)
        return path

    def _fill(self, block, size: int, k: float) -> None:
        texts = ["Piece Name: VAMP", f"Quantity: {self.quantity}", "# 3"]
        for text in texts + ([f"Size: {size}"] if self.size_text else []):
            block.add_text(text, dxfattribs={"layer": "1"})
        ring = [(x * k, y * k) for x, y in VAMP]
        for i, (a, b) in enumerate(zip(ring, ring[1:] + ring[:1], strict=True)):
            if i == 0 and not self.fold_drawn:
                continue
            if i == 2:
                b = (b[0] + self.gap_mm * self.per_mm, b[1])
            for layer in ("1", "84") if self.repeat_on_84 else ("1",):
                block.add_polyline2d([a, b], dxfattribs={"layer": layer})
            block.add_point(a, dxfattribs={"layer": "2"})
        if self.half:
            block.add_line(ring[0], ring[1], dxfattribs={"layer": "6"})
        mm = self.per_mm
        block.add_line((150 * k, 30 * k), (20 * k, 30 * k), dxfattribs={"layer": "7"})
        block.add_point(
            (200 * k, 30 * k, 4 * mm), dxfattribs={"layer": "4", "thickness": 1.5 * mm, "angle": 180}
        )
        block.add_point((60 * k, 75 * k), dxfattribs={"layer": "81"})
        block.add_circle((100 * k, 20 * k), 8 * k, dxfattribs={"layer": "11"})
        block.add_point((30 * k, 20 * k), dxfattribs={"layer": "13"})
        block.add_line((40 * k, 40 * k), (60 * k, 50 * k), dxfattribs={"layer": "8"})
        block.add_polyline2d(
            [(10 * k, 5 * k), (190 * k, 5 * k), (190 * k, 55 * k)], dxfattribs={"layer": "14"}
        )
        block.add_text("a note", dxfattribs={"layer": "15"})

    def read(self, folder: Path, **how) -> ReadDrawing:
        return read_drawing(self.write(folder), **how)


def _codes(drawing: ReadDrawing) -> list[str]:
    return [finding.code for finding in drawing.findings]


def test_pieces_sizes_and_all_that_is_drawn_on_them(tmp_path) -> None:
    drawing = Style().read(tmp_path)
    assert (drawing.style_name, drawing.base_size, drawing.sizes) == ("COURT", "37", ("36", "37"))
    assert (drawing.unit, drawing.unit_from) == ("mm", "text")
    small, base = drawing.pieces
    assert [(p.name, p.size, p.quantity) for p in drawing.pieces] == [
        ("VAMP", "36", "2"),
        ("VAMP", "37", "2"),
    ]
    hole = 3.141592653589793 * 64
    assert base.outline.area_mm2 == pytest.approx(VAMP_AREA - hole, rel=1e-4)
    assert small.outline.area_mm2 == pytest.approx((VAMP_AREA - hole) * (36 / 37) ** 2, rel=1e-4)
    assert len(base.outline.holes_mm) == 1
    assert base.turn_points_mm == tuple(VAMP)
    assert [(d.x_mm, d.y_mm) for d in base.drill_holes] == [(30, 20)]
    assert sorted(m.kind for m in base.marks) == ["line", "sew"]
    slit, castle = base.notches
    assert (slit.kind, slit.depth_mm, slit.width_mm, abs(slit.angle_deg)) == ("slit", 4.0, 1.5, 180.0)
    assert castle.kind == "castle" and castle.angle_deg == pytest.approx(-85.236, abs=0.01)  # inward normal
    assert base.pull_axis is not None
    assert (base.pull_axis.axis_deg, base.pull_axis.source, base.pull_axis.confirmed) == (
        0.0,
        "grain line",
        False,
    )
    assert "# 3" in base.texts
    assert not [f for f in drawing.findings if f.severity is not Severity.NOTE]


def test_english_is_inch(tmp_path) -> None:
    drawing = Style(units="ENGLISH", per_mm=1 / 25.4).read(tmp_path)
    assert (drawing.unit, drawing.unit_from) == ("in", "text")
    assert drawing.pieces[1].outline.bbox_mm == pytest.approx((0, 0, 200, 80))
    assert drawing.pieces[1].notches[0].depth_mm == pytest.approx(4.0)
    assert "UNIT" not in _codes(drawing)


def test_english_over_millimetre_numbers_is_asked(tmp_path) -> None:
    drawing = Style(units="ENGLISH").read(tmp_path)
    assert drawing.unit == "in"
    assert "UNIT" in _codes(drawing)


def test_validation_curves_are_no_pieces(tmp_path) -> None:
    drawing = Style(repeat_on_84=True).read(tmp_path)
    assert len(drawing.pieces) == 2
    assert all(len(p.marks) == 2 for p in drawing.pieces)
    assert any("layer 84" in item.what for item in drawing.left_out)


@pytest.mark.parametrize("fold_drawn", [True, False])
def test_a_half_piece_is_unfolded_over_its_mirror_line(tmp_path, fold_drawn) -> None:
    drawing = Style(half=True, fold_drawn=fold_drawn).read(tmp_path)
    piece = drawing.pieces[1]
    hole = 3.141592653589793 * 64
    assert piece.outline.area_mm2 == pytest.approx(2 * (VAMP_AREA - hole), rel=1e-4)
    assert piece.outline.bbox_mm == pytest.approx((0, -80, 200, 80))
    assert piece.outline.polygon.is_valid
    assert len(piece.outline.holes_mm) == 2
    assert len(piece.notches) == 4
    assert {(n.x_mm, n.y_mm) for n in piece.notches} >= {(200.0, 30.0), (200.0, -30.0)}
    assert len(piece.drill_holes) == 2 and len(piece.marks) == 4
    (finding,) = [f for f in drawing.findings if f.code == "UNFOLDED" and f.size == "37"]
    assert finding.severity is Severity.NOTE


def test_blocks_that_are_not_placed_are_read_and_told(tmp_path) -> None:
    drawing = Style(placed=False).read(tmp_path)
    assert len(drawing.pieces) == 2
    assert "BLOCKS_NOT_PLACED" in _codes(drawing)


def test_the_size_may_stand_in_the_block_name_only(tmp_path) -> None:
    assert Style(size_text=False).read(tmp_path).sizes == ("36", "37")


def test_gaps_in_a_boundary(tmp_path) -> None:
    drawing = Style(gap_mm=0.3).read(tmp_path)
    assert _codes(drawing).count("GAP_CLOSED") == 2
    with pytest.raises(DrawingError) as caught:
        Style(gap_mm=5.0).read(tmp_path)
    assert caught.value.code == "OPEN_OUTLINE"
    assert "5.00 mm" in str(caught.value)


@pytest.mark.parametrize("quantity", ["1", "1,1"])
def test_a_quantity_that_can_be_read_two_ways_is_asked(tmp_path, quantity) -> None:
    drawing = Style(quantity=quantity).read(tmp_path)
    assert drawing.pieces[0].quantity == quantity
    asked = [f for f in drawing.findings if f.code == "QUANTITY"]
    assert len(asked) == 2 and all(f.severity is Severity.QUESTION for f in asked)


def test_grain_lines_that_disagree_are_asked_about(tmp_path) -> None:
    path = Style(sizes=(37,)).write(tmp_path)
    document = ezdxf.readfile(path)
    block = document.blocks.get("VAMP_37")
    block.add_line((20, 20), (120, 60), dxfattribs={"layer": "7"})
    document.saveas(path)
    drawing = read_drawing(path)
    assert "SEVERAL_GRAIN_LINES" in _codes(drawing)
    assert drawing.pieces[0].pull_axis.axis_deg == pytest.approx(0.0), "the longer one"
