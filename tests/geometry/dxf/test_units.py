"""The unit: the file's text, then its header, never a reader's default; doubt is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from geometry.dxf.read import ReadDrawing, read_drawing
from geometry.dxf.units import MM_PER, settle, stated_unit
from geometry.findings import Finding, Severity


def _question(drawing: ReadDrawing) -> Finding | None:
    asked = [f for f in drawing.findings if f.code == "UNIT"]
    assert all(f.severity is Severity.QUESTION for f in asked)
    return asked[0] if asked else None


@pytest.mark.parametrize(
    ("code", "measurement", "unit", "mm"),
    [(4, 1, "mm", 1.0), (1, 0, "in", 25.4), (5, 1, "cm", 10.0), (2, 0, "ft", 304.8)],
)
def test_a_stated_unit_that_fits_is_taken_without_asking(table, code, measurement, unit, mm) -> None:
    table.unit(code, measurement)
    table.rectangle(w=120 / mm, h=80 / mm)
    drawing = table.read()
    assert (drawing.unit, drawing.unit_from) == (unit, "header")
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(9600.0)
    assert _question(drawing) is None


def test_the_header_that_contradicts_itself_is_asked(table) -> None:
    table.unit(1, 1)
    table.rectangle(w=4, h=3)
    drawing = table.read()
    assert drawing.unit == "in"
    asked = _question(drawing)
    assert asked is not None and "contradicts" in asked.message


def test_metre_is_a_writers_default_and_is_asked(table) -> None:
    table.unit(6)
    table.rectangle()
    drawing = table.read()
    assert (drawing.unit, drawing.unit_from) == ("mm", "guess")
    assert _question(drawing) is not None
    table.new("R2010")
    table.unit(6)
    table.rectangle(w=0.12, h=0.08)
    drawing = table.read()
    assert (drawing.unit, drawing.unit_from) == ("m", "header")
    assert _question(drawing) is not None


def test_no_unit_is_asked_with_the_size_of_every_choice(table) -> None:
    table.unit(0, 1)
    table.rectangle(w=270, h=117)
    drawing = table.read()
    assert (drawing.unit, drawing.unit_from) == ("mm", "guess")
    asked = _question(drawing)
    assert asked is not None
    assert {c.unit: c.width_mm for c in drawing.unit_choices} == pytest.approx(
        {unit: 270 * mm for unit, mm in MM_PER.items()}
    )
    for choice in drawing.unit_choices:
        assert f"{choice.unit}: {choice.width_mm:.4g} x {choice.height_mm:.4g} mm" in asked.message


def test_no_header_at_all_is_no_metre(tmp_path: Path) -> None:
    """The reading library supplies metre where a file has no header (ezdxf 1.4)."""
    path = tmp_path / "bare.dxf"
    corners = "".join(
        f"0\nVERTEX\n8\n0\n10\n{x}\n20\n{y}\n" for x, y in [(0, 0), (100, 0), (100, 50), (0, 50)]
    )
    path.write_text(
        f"0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n8\n0\n66\n1\n70\n1\n{corners}0\nSEQEND\n0\nENDSEC\n0\nEOF\n"
    )
    drawing = read_drawing(path)
    assert drawing.unit == "mm"
    assert _question(drawing) is not None
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(5000.0)


def test_the_person_has_the_last_word(table) -> None:
    table.rectangle(w=12, h=8)
    drawing = table.read(unit="cm")
    assert (drawing.unit, drawing.unit_from) == ("cm", "person")
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(9600.0)
    assert _question(drawing) is None


def test_an_implausible_size_is_asked_but_not_changed(table) -> None:
    table.rectangle(w=4.7, h=3.1)
    drawing = table.read()
    assert drawing.unit == "mm"
    assert _question(drawing) is not None


def test_text_beats_the_header_and_a_conflict_is_asked() -> None:
    assert stated_unit(["Units: ENGLISH"], None, None).unit == "in"
    assert stated_unit(["UNITS : metric"], "4", "1").doubt == ""
    conflict = stated_unit(["Units: METRIC"], "1", "0")
    assert conflict.unit == "mm" and conflict.doubt
    assert stated_unit(["Units: cubits"], "5", None).unit == "cm"
    assert stated_unit([], "garbage", None).unit == ""


def test_inch_is_the_first_guess_where_the_header_measures_in_inch() -> None:
    nothing = stated_unit([], "0", "0")
    assert settle(nothing, 10.6, "0")[0] == "in"
    assert settle(stated_unit([], None, None), 270.0, None)[0] == "mm"
    assert settle(stated_unit([], None, None), 27.0, None)[0] == "cm"


def test_a_piece_of_single_lines_counts_as_much_as_a_closed_curve(table) -> None:
    """A small closed hole in an outline of lines end to end does not make the drawing a tiny one."""
    table.lines([(0.0, 0.0), (220.0, 0.0), (220.0, 70.0), (0.0, 70.0)])
    table.model.add_circle((40.0, 30.0), 1.6)
    drawing = table.read()
    assert len(drawing.pieces) == 1 and drawing.unit == "mm"
    assert _question(drawing) is None
