"""From closed outlines to pieces: cut-outs, names, notches, marks, and what needs a person."""

from __future__ import annotations

import math

import pytest

from geometry.dxf.read import ReadDrawing
from geometry.errors import DrawingError
from geometry.findings import Severity


def _found(drawing: ReadDrawing, code: str):
    return [finding for finding in drawing.findings if finding.code == code]


def test_even_depth_is_a_piece_odd_depth_a_cut_out(table) -> None:
    for inset in (0, 20, 40, 60):
        table.rectangle(inset, inset, 200 - 2 * inset, 200 - 2 * inset)
    outer, inner = table.read().pieces
    assert (outer.outline.area_mm2, inner.outline.area_mm2) == (200**2 - 160**2, 120**2 - 80**2)
    assert len(outer.outline.holes_mm) == len(inner.outline.holes_mm) == 1


def test_a_figure_of_eight_is_shown_not_mended(table) -> None:
    table.model.add_lwpolyline([(0, 0), (100, 80), (100, 0), (0, 80)], close=True)
    drawing = table.read()
    (crossing,) = _found(drawing, "SELF_CROSSING")
    assert crossing.severity is Severity.ERROR
    assert crossing.where_mm == ((50.0, 40.0),)
    assert [p.name for p in drawing.pieces] == ["piece 1 part 1", "piece 1 part 2"]
    assert sum(p.outline.area_mm2 for p in drawing.pieces) == pytest.approx(4000.0)


def test_a_slip_of_the_pen_is_taken_off_and_told(table) -> None:
    table.model.add_lwpolyline(
        [(0, 0), (100, 0), (100, 50.2), (99.9, 50), (100.1, 50.2), (100, 60), (0, 60)], close=True
    )
    drawing = table.read()
    assert len(drawing.pieces) == 1
    assert drawing.pieces[0].outline.polygon.is_valid
    assert _found(drawing, "SMALL_CROSSING")


def test_a_slit_drawn_there_and_back_becomes_a_notch_or_mark(table) -> None:
    table.model.add_lwpolyline(
        [(0, 0), (100, 0), (100, 50), (50, 50), (50, 45), (50, 50), (0, 50)], close=True
    )
    drawing = table.read()
    (piece,) = drawing.pieces
    assert piece.outline.area_mm2 == pytest.approx(5000.0)
    assert _found(drawing, "SPIKE")
    assert len(piece.notches) == 1
    assert piece.notches[0].depth_mm == pytest.approx(5.0)
    assert piece.notches[0].angle_deg == pytest.approx(-90.0)


def test_a_closed_line_with_its_first_point_repeated(table) -> None:
    corners = [(0, 0), (120, 0), (120, 80), (0, 80), (0, 0)]
    table.model.add_lwpolyline(corners, close=True)
    table.model.add_lwpolyline([(x + 200, y) for x, y in corners], close=False)
    assert [len(p.outline.ring_mm) for p in table.read().pieces] == [4, 4]


def test_the_same_outline_drawn_twice_is_one_piece(table) -> None:
    table.rectangle()
    table.lines([(0, 0), (0, 80), (120, 80), (120, 0)])
    table.model.add_hatch().paths.add_polyline_path([(0, 0), (120, 0), (120, 80), (0, 80)])
    table.model.add_circle((60, 40), 10)
    table.model.add_arc((60, 40), 10, 0, 180)
    table.model.add_arc((60, 40), 10, 180, 360)
    drawing = table.read()
    assert len(drawing.pieces) == 1
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(9600 - math.pi * 100, rel=1e-4)
    assert _found(drawing, "DOUBLE")


def test_a_filled_area_alone_is_an_outline(table) -> None:
    path = table.model.add_hatch().paths.add_edge_path()
    path.add_line((0, 0), (100, 0))
    path.add_arc((100, 25), 25, -90, 90)
    path.add_line((100, 50), (0, 50))
    path.add_line((0, 50), (0, 0))
    (piece,) = table.read().pieces
    assert piece.outline.area_mm2 == pytest.approx(5000 + math.pi * 625 / 2, rel=1e-3)


def test_names_from_label_text_attribute_block_layer(table) -> None:
    for x in range(0, 1000, 200):
        table.rectangle(x, layer="CUT" if x == 800 else "0")
    table.model.add_text("Name: TOE CAP", height=2, dxfattribs={"insert": (10, 10)})
    table.model.add_text("note", height=3, dxfattribs={"insert": (210, 10)})
    table.model.add_text("QUARTER", height=8, dxfattribs={"insert": (210, 30)})
    table.model.add_mtext(r"{\fArial;TONGUE}\Pupper", dxfattribs={"insert": (410, 60), "char_height": 5})
    table.model.add_text("COUNTER", height=6, dxfattribs={"insert": (590, 40)})  # begins left of its piece
    table.model.add_text("far away", height=3, dxfattribs={"insert": (0, 400)})
    drawing = table.read()
    assert [p.name for p in drawing.pieces] == ["TOE CAP", "QUARTER", "TONGUE upper", "COUNTER", "CUT"]
    assert any("far away" in item.what for item in drawing.left_out)


def test_a_block_attribute_names_its_piece(table) -> None:
    block = table.document.blocks.new("P")
    block.add_lwpolyline([(0, 0), (90, 0), (90, 60), (0, 60)], close=True)
    block.add_attdef("NAME", (2, -20))
    for i, name in enumerate(("VAMP", "TONGUE")):
        table.model.add_blockref("P", (200 * i, 0)).add_auto_attribs({"NAME": name})
    table.model.add_blockref("P", (400, 0))
    table.model.add_blockref("P", (600, 0))
    assert [p.name for p in table.read().pieces] == ["VAMP", "TONGUE", "P", "P 2"]


@pytest.mark.parametrize("version", ["R2000", "R2010"])
def test_names_with_letters_of_any_alphabet(table, version) -> None:
    names = ["Größe42", "ОСНОВА", "革靴", "piqûre"]
    table.new(version)
    table.unit(4)
    for i, name in enumerate(names):
        table.rectangle(x=200 * i)
        table.model.add_text(name, height=5, dxfattribs={"insert": (200 * i + 10, 20)})
    assert [p.name for p in table.read().pieces] == names


def test_a_bad_byte_in_a_name_costs_a_letter_not_the_import(table) -> None:
    from geometry.dxf.read import read_drawing

    table.rectangle()
    table.model.add_text("VAMPX", height=5, dxfattribs={"insert": (10, 20)})
    path = table.save()
    path.write_bytes(path.read_bytes().replace(b"VAMPX", b"VAMP\xff"))
    (piece,) = read_drawing(path).pieces
    assert piece.name.startswith("VAMP")
    piece.name.encode("utf-8")


def test_notches_drill_holes_and_marks_of_a_free_drawing(table) -> None:
    table.rectangle()
    table.model.add_point((60, 0))
    table.model.add_point((20, 20))
    table.model.add_point((500, 500))
    table.model.add_line((120, 40), (116, 40))
    table.model.add_line((0, 40), (-4, 40))
    table.model.add_lwpolyline([(10, 10), (20, 30), (20, 70)])
    drawing = table.read()
    (piece,) = drawing.pieces
    notches = {(n.x_mm, n.y_mm): n.angle_deg for n in piece.notches}
    assert notches == pytest.approx({(60, 0): 90.0, (120, 40): -180.0, (0, 40): 0.0})
    assert [(d.x_mm, d.y_mm) for d in piece.drill_holes] == [(20, 20)]
    assert [len(m.points_mm) for m in piece.marks] == [3]
    assert ("POINT", "outside every piece") in {(i.what, i.why) for i in drawing.left_out}


def test_a_sheet_frame_is_asked_about_and_its_content_read_as_pieces(table) -> None:
    table.rectangle(-10, -10, 600, 400, layer="FRAME")
    for i in range(3):
        table.rectangle(150 * i, layer="CUT")
    drawing = table.read()
    assert len(drawing.pieces) == 3
    assert _found(drawing, "FRAME")[0].severity is Severity.QUESTION
    assert any(item.what == "frame" for item in drawing.left_out)


def test_a_plate_with_two_cut_outs_on_its_own_layer_is_no_frame(table) -> None:
    table.rectangle(-10, -10, 600, 400)
    table.rectangle()
    table.rectangle(150)
    (piece,) = table.read().pieces
    assert len(piece.outline.holes_mm) == 2


def test_overlapping_outlines_stay_two_pieces(table) -> None:
    table.rectangle()
    table.rectangle(100, 60)
    drawing = table.read()
    assert len(drawing.pieces) == 2
    assert _found(drawing, "CROSSING_OUTLINES")


def test_a_cut_out_that_touches_the_edge_keeps_the_piece_whole(table) -> None:
    table.rectangle(w=100, h=100)
    table.model.add_circle((50, 50), 50)
    drawing = table.read()
    (piece,) = drawing.pieces
    assert piece.outline.polygon.is_valid
    assert piece.outline.area_mm2 == pytest.approx(10000 - math.pi * 2500, rel=2e-3)
    assert _found(drawing, "CUT_OUT_TOUCHES")


def test_hidden_layers_are_left_out_and_told(table) -> None:
    table.document.layers.add("OLD").off()
    table.document.layers.add("COLD").freeze()
    table.rectangle()
    table.rectangle(200, layer="OLD")
    table.rectangle(400, layer="COLD")
    drawing = table.read()
    assert len(drawing.pieces) == 1
    (finding,) = _found(drawing, "HIDDEN_LAYER")
    assert "OLD (1)" in finding.message and "COLD (1)" in finding.message


def test_all_on_a_hidden_layer_says_which(table) -> None:
    table.document.layers.add("OLD").off()
    table.rectangle(layer="OLD")
    with pytest.raises(DrawingError, match="layer OLD: switched off"):
        table.read()


def test_a_drawing_on_a_paper_sheet_is_read_and_asked(table) -> None:
    table.document.layout("Layout1").add_lwpolyline([(0, 0), (120, 0), (120, 80)], close=True)
    drawing = table.read()
    assert len(drawing.pieces) == 1
    assert _found(drawing, "PAPER_SPACE")[0].severity is Severity.QUESTION


def test_what_is_no_outline_is_left_out_by_kind(table) -> None:
    table.rectangle()
    table.model.add_3dface([(0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 9, 0)])
    table.model.add_solid([(0, 0), (9, 0), (0, 9), (9, 9)])
    table.model.add_xline((0, 0), (1, 1))
    table.model.add_linear_dim(base=(0, -20), p1=(0, 0), p2=(120, 0)).render()
    table.model.add_line((300, 0), (500, 10))
    what = {item.what for item in table.read().left_out}
    assert {"3DFACE", "SOLID", "XLINE", "DIMENSION", "open LINE"} <= what


def test_sizes_in_blocks_that_lie_over_each_other_are_all_kept(table) -> None:
    """A larger size must not swallow the next one as its cut-out."""
    for i, size in enumerate((36, 37, 38)):
        k = 1 + 0.03 * i
        block = table.document.blocks.new(f"VAMP_{size}")
        block.add_lwpolyline(
            [(-60 * k, -40 * k), (60 * k, -40 * k), (60 * k, 40 * k), (-60 * k, 40 * k)], close=True
        )
        table.model.add_blockref(block.name, (0, 0))
    drawing = table.read()
    assert [p.name for p in drawing.pieces] == ["VAMP_36", "VAMP_37", "VAMP_38"]
    assert all(not p.outline.holes_mm for p in drawing.pieces)
    (asked,) = _found(drawing, "STACKED_BLOCKS")
    assert asked.severity is Severity.QUESTION and "3 blocks" in asked.message


def test_an_outline_drawn_twice_slightly_apart_is_no_ring(table) -> None:
    table.rectangle()
    table.rectangle(0.1, 0.1, 119.8, 79.8)
    drawing = table.read()
    (piece,) = drawing.pieces
    assert piece.outline.area_mm2 == pytest.approx(9600.0)
    assert _found(drawing, "DRAWN_TWICE")


def test_a_closed_stitch_line_is_asked_about(table) -> None:
    table.rectangle(layer="CUT")
    table.rectangle(5, 5, 110, 70, layer="STITCH")
    (asked,) = _found(table.read(), "LARGE_CUT_OUT")
    assert asked.severity is Severity.QUESTION and "80 %" in asked.message
