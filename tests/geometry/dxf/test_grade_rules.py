"""Grade rule files beside pattern drawings: read with care, applied point by point, never guessed.

The format is taken from public descriptions and free programs that agree (the standard's text was
not read in full); the figures below are worked out by hand.
"""

from __future__ import annotations

from pathlib import Path

import ezdxf
import numpy as np
import pytest
from shapely.geometry import Polygon

from geometry.dxf.grade_rules import read_rules
from geometry.dxf.read import ReadDrawing, read_drawing
from geometry.errors import DrawingError
from geometry.piece import DrawnPiece

HEAD = """ASTM/D13Proposal 1 Version: D 6673-04
AUTHOR: own
CREATION DATE: 18-8-2022
UNITS: METRIC
GRADE RULE TABLE: COURT
NUMBER OF SIZES: 3
SIZE LIST: 36 37 38
SAMPLE SIZE: 37
"""
RULES = (
    HEAD
    + """RULE: DELTA 1
 0.0, 0.0  0.0, 0.0  0.0, 0.0
RULE: DELTA 2
 -6.0, 0.0  0.0, 0.0
  6.0, 0.0
RULE: DELTA 3 -6.0 -2.0 0 0 6.0 2.0
RULE: DELTA 4
 0.0, -2.0    # 36
 0.0,  0.0    # 37
 0.0,  2.0    # 38
END
nothing after this is read: RULE: DELTA 1
"""
)
CORNERS = [(0.0, 0.0), (200.0, 0.0), (200.0, 60.0), (0.0, 60.0)]


def drawn(
    folder: Path,
    *,
    numbers: tuple[str, ...] = ("1", "2", "3", "4"),
    reference: tuple[tuple[float, float], tuple[float, float]] | None = ((50.0, 10.0), (90.0, 10.0)),
    fold: bool = False,
    table: str = "COURT",
    also_36: bool = False,
) -> Path:
    """A piece of 200 x 60 mm in size 37 with a rule at every corner and a vertex half-way along."""
    document = ezdxf.new("R12")
    space = document.modelspace()
    for text in ("ASTM/D13 Proposal 1 Version: D6673-10", "Style Name: COURT", "Units: METRIC",
                 "Sample Size: 37", f"Grade Rule Table: {table}"):  # fmt: skip
        space.add_text(text, dxfattribs={"layer": "1"})
    for size in ("37", "36") if also_36 else ("37",):
        block = document.blocks.new(f"VAMP_{size}")
        for text in ("Piece Name: VAMP", f"Size: {size}"):
            block.add_text(text, dxfattribs={"layer": "1"})
        ring = (
            [CORNERS[0], (50.0, 0.0), *CORNERS[1:]] if size == "37" else [(0, 0), (90, 0), (90, 50), (0, 50)]
        )
        block.add_polyline2d([*ring, ring[0]], dxfattribs={"layer": "1"})
        for number, corner in zip(numbers, CORNERS, strict=False):
            block.add_text(f"# {number}", dxfattribs={"layer": "1"}).set_placement(corner)
            block.add_point(corner, dxfattribs={"layer": "2"})
        block.add_point((100.0, 60.0, 4.0), dxfattribs={"layer": "4", "angle": 270})
        block.add_point((150.0, 5.0), dxfattribs={"layer": "13"})
        block.add_circle((100.0, 30.0), 4.0, dxfattribs={"layer": "11"})
        if reference:
            block.add_line(*reference, dxfattribs={"layer": "5"})
        if fold:
            block.add_line(CORNERS[0], CORNERS[1], dxfattribs={"layer": "6"})
        space.add_blockref(block.name, (0, 0))
    path = folder / "court.dxf"
    document.saveas(path)
    return path


def write(folder: Path, text: str = RULES, name: str = "court.rul") -> Path:
    path = folder / name
    path.write_text(text)
    return path


def sized(drawing: ReadDrawing) -> dict[str, DrawnPiece]:
    assert {piece.name for piece in drawing.pieces} == {"VAMP"}
    return {piece.size: piece for piece in drawing.pieces}


def codes(drawing: ReadDrawing) -> set[str]:
    return {finding.code for finding in drawing.findings}


def test_a_rule_file_is_read_however_its_pairs_are_wrapped(tmp_path: Path) -> None:
    rules = read_rules(write(tmp_path))
    assert (rules.table, rules.sizes, rules.sample) == ("COURT", ("36", "37", "38"), "37")
    assert rules.deltas_mm["2"] == {"36": (-6.0, 0.0), "37": (0.0, 0.0), "38": (6.0, 0.0)}
    assert rules.deltas_mm["3"]["38"] == (6.0, 2.0)
    assert list(rules.deltas_mm) == ["1", "2", "3", "4"]


def test_inches_are_inches_and_windows_line_ends_do_no_harm(tmp_path: Path) -> None:
    inches = RULES.replace("METRIC", "english").replace("UNITS: ", "UNITS:").replace("\n", "\r\n")
    assert read_rules(write(tmp_path, inches)).deltas_mm["2"]["38"] == (pytest.approx(152.4), 0.0)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("UNITS: METRIC\n", ""), "the unit is not stated"),
        (("METRIC", "CUBITS"), "the unit is CUBITS"),
        (("SIZES: 3", "SIZES: 4"), "states 4 sizes and lists 3"),
        (("SAMPLE SIZE: 37", "SAMPLE SIZE: 39"), "the sample size 39 is not in the SIZE LIST"),
        (("36 37 38", "36 37 37"), "lists a size twice"),
        ((" -6.0, 0.0  0.0, 0.0\n  6.0, 0.0", " -6.0, 0.0  0.0, 0.0"), "line 11: rule 2 has 4 numbers"),
        (("-6.0 -2.0 0 0 6.0", "-6.0 -2.0 1 0 6.0"), "rule 3 moves the sample size 37"),
        (("RULE: DELTA 4", "RULE: DELTA 3"), "line 15: rule 3 appears twice"),
        (("-6.0 -2.0 0 0 6.0 2.0", "-6,x"), "line 14: x is not a number"),
        (("SIZE LIST", "SIZES"), "is not a grade rule file"),
        ((RULES, ""), "is not a grade rule file"),
    ],
)
def test_a_rule_file_that_cannot_be_trusted_is_refused(
    tmp_path: Path, change: tuple[str, str], said: str
) -> None:
    assert change[0] in RULES
    with pytest.raises(DrawingError) as refused:
        read_rules(write(tmp_path, RULES.replace(*change)))
    assert said in str(refused.value) and str(refused.value).startswith("court.rul: ")


def test_sizes_come_from_the_rules_beside_the_drawing(tmp_path: Path) -> None:
    write(tmp_path, name="Court.RUL")
    drawing = read_drawing(drawn(tmp_path))
    pieces = sized(drawing)
    assert set(pieces) == {"36", "37", "38"} and drawing.rules_from == "Court.RUL"
    assert drawing.version == "ASTM/D13 Proposal 1 Version: D6673-10"
    assert not any("Version" in left.what for left in drawing.left_out)
    large = pieces["38"]
    want = [(0.0, 0.0), (51.5, 0.0), (206.0, 0.0), (206.0, 62.0), (0.0, 62.0)]
    assert Polygon(large.outline.ring_mm).symmetric_difference(Polygon(want)).area < 1e-6
    assert any(np.allclose(vertex, (51.5, 0.0)) for vertex in large.outline.ring_mm), "a quarter of 6 mm"
    (notch,), (hole,) = large.notches, large.drill_holes
    assert (notch.x_mm, notch.y_mm) == pytest.approx((103.0, 62.0))
    assert (hole.x_mm, hole.y_mm) == pytest.approx((154.5, 5.0)), "with the nearest edge"
    before, after = pieces["37"].outline.holes_mm[0], large.outline.holes_mm[0]
    assert np.ptp(after - before, axis=0) == pytest.approx((0.0, 0.0)), "punched holes keep their size"
    assert pieces["36"].outline.area_mm2 == pytest.approx(
        194 * 58 - (200 * 60 - pieces["37"].outline.area_mm2)
    )
    assert large.pull_axis == pieces["37"].pull_axis


def test_the_x_of_the_rules_runs_along_the_reference_line(tmp_path: Path) -> None:
    """Drawn upwards, 6 along becomes 6 up, and 2 across becomes 2 to the left."""
    write(tmp_path)
    drawing = read_drawing(drawn(tmp_path, reference=((50.0, 10.0), (50.0, 40.0))))
    corners = sized(drawing)["38"].outline.ring_mm
    assert any(np.allclose(vertex, (198.0, 66.0)) for vertex in corners)
    assert any(np.allclose(vertex, (200.0, 6.0)) for vertex in corners)
    assert "GRADE_REFERENCE" in codes(drawing)


def test_a_half_piece_is_graded_and_then_unfolded(tmp_path: Path) -> None:
    write(tmp_path)
    large = sized(read_drawing(drawn(tmp_path, fold=True)))["38"]
    assert large.outline.bbox_mm == pytest.approx((0.0, -62.0, 206.0, 62.0))


def test_what_the_rules_do_not_settle_is_said_and_not_guessed(tmp_path: Path) -> None:
    write(tmp_path)
    for numbers in ((), ("1",), ("1", "2", "9")):
        drawing = read_drawing(drawn(tmp_path, numbers=numbers))
        assert set(sized(drawing)) == {"37"}
        assert "NOT_GRADED" in codes(drawing)
    crossing = RULES.replace("RULE: DELTA 3 -6.0 -2.0", "RULE: DELTA 3 -600.0 -200.0")
    write(tmp_path, crossing)
    drawing = read_drawing(drawn(tmp_path))
    assert set(sized(drawing)) == {"37", "38"} and "NOT_GRADED" in codes(drawing)


def test_a_size_that_is_drawn_is_taken_as_drawn(tmp_path: Path) -> None:
    write(tmp_path)
    pieces = sized(read_drawing(drawn(tmp_path, also_36=True)))
    assert set(pieces) == {"36", "37", "38"}
    assert pieces["36"].outline.bbox_mm == pytest.approx((0.0, 0.0, 90.0, 50.0))


def test_a_table_that_is_missing_or_another_is_asked_for(tmp_path: Path) -> None:
    path = drawn(tmp_path)
    assert "RULES_MISSING" in codes(read_drawing(path))
    given = write(tmp_path, RULES.replace("TABLE: COURT", "TABLE: BOOT"), name="other.rul")
    assert "RULES_NAMED_OTHERWISE" in codes(read_drawing(path, rules=given))
    given.write_text(RULES.replace("SAMPLE SIZE: 37", "SAMPLE SIZE: 36").replace("36 37 38", "37 36 38"))
    with pytest.raises(DrawingError, match="its sample size is 36, the drawing's 37"):
        read_drawing(path, rules=given)
    with pytest.raises(DrawingError, match="no such grade rule file"):
        read_drawing(path, rules=tmp_path / "none.rul")


def test_rules_without_a_pattern_file_are_refused(tmp_path: Path) -> None:
    document = ezdxf.new("R2000")
    document.modelspace().add_lwpolyline(CORNERS, close=True)
    document.saveas(tmp_path / "plain.dxf")
    with pytest.raises(DrawingError, match="which this is not"):
        read_drawing(tmp_path / "plain.dxf", unit="mm", rules=write(tmp_path))
