"""From a drawing to a style, and from a style to its backing, by commands."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import pytest
from shapely.geometry import Polygon

from app.style.file import load_style
from app.style.model import EdgeRuleData
from app.style.rules_store import load_rules, save_rules
from geometry.edge_kinds import EdgeKind
from tests.app.commands.conftest import Call


def test_a_drawing_becomes_a_style(call: Call, drawing: Path, tmp_path: Path) -> None:
    called = call("new", drawing, "-o", "upper.style.json", "--base-size", "37", "--sizes", "36-38", "--json")
    assert called.status == 0, called.err
    style = load_style(tmp_path / "upper.style.json")
    assert [piece.name for piece in style.pieces] == ["STRAP", "TONGUE"]
    assert style.size_run.sizes == ("36", "37", "38") and style.size_run.graded
    assert style.piece("TONGUE").pull_axis.axis_deg == 90.0, "its axis of symmetry"
    assert not any(edge.confirmed for piece in style.pieces for edge in piece.edges)
    codes = {finding["code"] for finding in called.json["findings"]}
    assert {"EDGES_UNCONFIRMED", "AXIS_UNCONFIRMED", "TIGHT_DIRECTION_ASSUMED"} <= codes
    assert called.json["unit"] == "mm"


def test_the_style_needs_its_drawing_no_more(call: Call, drawing: Path) -> None:
    call("new", drawing, "-o", "upper.style.json", "--base-size", "37")
    drawing.unlink()
    assert call("backing", "upper.style.json").status == 0


def test_a_new_style_takes_the_workshops_rules_along(call: Call, drawing: Path, tmp_path: Path) -> None:
    rules = load_rules()
    raw = EdgeRuleData(setback_mm=6.5, reason="our soft calf")
    save_rules(
        rules.model_copy(update={"gap_mm": 3.5, "edge_rules": {**rules.edge_rules, EdgeKind.RAW: raw}})
    )
    call("new", drawing, "-o", "upper.style.json", "--base-size", "37")
    style = load_style(tmp_path / "upper.style.json")
    assert style.rules.gap_mm == 3.5
    assert style.rules.edge_rules[EdgeKind.RAW].reason == "our soft calf"
    called = call("backing", "upper.style.json", "--json")
    (left, _) = (piece for piece in called.json["pieces"] if piece["name"] == "STRAP")
    assert {edge["setback_mm"] for edge in left["edges"]} == {6.5}


def test_the_cloth_can_be_named_at_once(call: Call, drawing: Path, tmp_path: Path) -> None:
    call(
        "new",
        drawing,
        "-o",
        "u.style.json",
        "--base-size",
        "37",
        "--cloth",
        "Twill 150",
        "--width",
        "1200",
        "--tight",
        "across",
    )
    (cloth,) = load_style(tmp_path / "u.style.json").cloths
    assert (cloth.id, cloth.name, cloth.usable_width_mm) == ("twill-150", "Twill 150", 1200.0)
    assert (cloth.tight_direction_deg, cloth.how_known) == (90.0, "supplier")


def test_sizes_and_a_unit_in_inches_from_an_interchange_file(call: Call, tmp_path: Path) -> None:
    drawing = Path(__file__).parents[2] / "geometry" / "dxf" / "hostile" / "30a_aama_metric.dxf"
    called = call("new", drawing, "-o", "u.style.json", "--json")
    assert called.status == 0, called.err
    style = load_style(tmp_path / "u.style.json")
    assert set(style.pieces[0].drawings) == {"38", "40", "42"}
    assert not style.size_run.graded


def test_the_backing_of_every_piece_size_and_hand(call: Call, plain_file: Path) -> None:
    called = call("backing", plain_file, "--json")
    assert called.status == 0
    keys = [(piece["name"], piece["size"], piece["hand"]) for piece in called.json["pieces"]]
    assert sorted(keys) == sorted(
        (name, size, hand)
        for name in ("strap", "tongue")
        for size in ("36", "37", "38")
        for hand in ("left", "right")
    )
    strap = next(
        p for p in called.json["pieces"] if (p["name"], p["size"], p["hand"]) == ("strap", "37", "left")
    )
    (outline,) = strap["backing_outlines_mm"]
    assert Polygon(outline).area == pytest.approx(4784.0), "100 x 60 less 4 mm all round"
    assert strap["pull_axis_deg"] == 0.0
    assert [edge["setback_mm"] for edge in strap["edges"]] == [4.0] * 4
    assert strap["edges"][0]["points_mm"] == [[0.0, 0.0], [100.0, 0.0]]


def test_the_backing_drawing_is_at_full_size_and_in_mm(call: Call, plain_file: Path, tmp_path: Path) -> None:
    called = call("backing", plain_file, "--sizes", "37", "-o", "cut.dxf")
    assert called.status == 0
    document = ezdxf.readfile(tmp_path / "cut.dxf")
    assert document.header["$INSUNITS"] == 4
    cut = [e for e in document.modelspace() if e.dxf.layer == "cut"]
    shapes = [Polygon([point[:2] for point in line.get_points()]) for line in cut]
    assert len(shapes) == 4
    assert max(shape.area for shape in shapes[:2]) == pytest.approx(4784.0)
    assert not any(a.intersects(b) for i, a in enumerate(shapes) for b in shapes[:i])
    read = call("pieces", "cut.dxf", "--json")
    assert len(read.json["pieces"]) == 4


def test_a_backing_that_vanishes_is_an_error_and_not_drawn(
    call: Call, plain_file: Path, tmp_path: Path
) -> None:
    text = plain_file.read_text().replace('"setback_mm": 4.0', '"setback_mm": 40.0')
    plain_file.write_text(text)
    called = call("backing", plain_file, "-o", "cut.dxf", "--json")
    assert called.status == 1
    strap = next(piece for piece in called.json["pieces"] if piece["name"] == "strap")
    assert strap["backing_outlines_mm"] == []
    assert "vanish" in called.err
    assert not (tmp_path / "cut.dxf").exists()
    boards = call("boards", plain_file, "--sizes", "37", "-o", "boards", "--json")
    assert boards.status == 1, "drawn all the same, to be seen: the card says that nothing is left"
    assert boards.json["vanished"] == ["strap 37 left", "strap 37 right"]


@pytest.mark.parametrize(
    ("names", "mirrored", "code"),
    [
        (("Quarter left", "Quarter right"), True, "BOTH_HANDS"),
        (("QUARTER_L", "QUARTER_R"), False, "HANDS_ALIKE"),
        (("Strap", "Strap"), True, "BOTH_HANDS"),
        (("Strap 1", "Strap 2"), False, ""),
        (("Vamp", "Collar"), True, ""),
    ],
)
def test_pieces_drawn_in_both_hands_are_asked_about(
    call: Call, tmp_path: Path, names: tuple[str, str], mirrored: bool, code: str
) -> None:
    """The style mirrors every piece, so that a drawn right one would be cut once more."""
    document = ezdxf.new("R2000")
    document.header["$INSUNITS"] = 4
    ring = [(0, 0), (120, 0), (150, 40), (90, 70), (20, 60)]
    for name, shift, flip in ((names[0], 0, 1), (names[1], 200, -1 if mirrored else 1)):
        points = [(x + shift, flip * y) for x, y in ring]
        document.modelspace().add_lwpolyline(points, close=True)
        document.modelspace().add_text(name, height=5).set_placement((60 + shift, flip * 30))
    document.saveas(tmp_path / "hands.dxf")
    called = call("new", "hands.dxf", "-o", "hands.style.json", "--base-size", "37", "--json")
    found = [f["code"] for f in called.json["findings"] if f["code"] in ("BOTH_HANDS", "HANDS_ALIKE")]
    assert found == ([code] if code else [])


def test_a_backing_cut_across_a_piece_is_told_once_not_for_every_size(call: Call) -> None:
    court = Path(__file__).parents[3] / "sample_styles" / "court" / "court.style.json"
    called = call("backing", court, "--json")
    assert [f["code"] for f in called.json["findings"]].count("HARD_EDGE") == 1
