"""Damaged files: what is there is read and the rest told, or one clear error; never a crash."""

from __future__ import annotations

import random
from pathlib import Path

import ezdxf
import numpy as np
import pytest

from geometry import tolerances
from geometry.dxf.read import read_drawing
from geometry.errors import DrawingError
from geometry.findings import Severity

BARE = "0\nSECTION\n2\nENTITIES\n{}0\nENDSEC\n0\nEOF\n"


def _square(x: int) -> str:
    return "".join(
        f"0\nLINE\n8\n0\n10\n{a}\n20\n{b}\n11\n{c}\n21\n{d}\n"
        for a, b, c, d in [(x, 0, x + 90, 0), (x + 90, 0, x + 90, 60), (x + 90, 60, x, 60), (x, 60, x, 0)]
    )


def _good(table) -> bytes:
    for i in range(6):
        table.rectangle(x=150 * i)
    table.model.add_circle((60, 40), 12)
    table.model.add_text("VAMP", height=5, dxfattribs={"insert": (10, 10)})
    block = table.document.blocks.new("B")
    block.add_lwpolyline([(0, 200), (90, 200, 0, 0, 0.4), (90, 260)], format="xyseb", close=True)
    table.model.add_blockref("B", (0, 0), dxfattribs={"xscale": -1})
    table.model.add_spline_control_frame([(0, 300), (50, 380), (100, 300), (40, 280), (0, 300)])
    return table.save().read_bytes()


def test_a_cut_off_file_gives_its_whole_pieces_and_says_so(table) -> None:
    for i in range(6):
        table.rectangle(x=150 * i)
    path = table.save()
    text = path.read_text()
    at = [i for i in range(len(text)) if text.startswith("LWPOLYLINE", i)][-1]
    path.write_text(text[: at + 60])
    drawing = read_drawing(path)
    assert len(drawing.pieces) == 5
    (finding,) = [f for f in drawing.findings if f.code == "TRUNCATED"]
    assert finding.severity is Severity.WARNING and "LWPOLYLINE" in finding.done


def test_a_polyline_cut_off_in_its_vertices_is_not_half_a_piece(tmp_path: Path) -> None:
    path = tmp_path / "cut.dxf"
    vertices = "".join(
        f"0\nVERTEX\n8\n0\n10\n{x}\n20\n{y}\n" for x, y in [(0, 0), (90, 0), (90, 60), (0, 60)]
    )
    path.write_text(
        "0\nSECTION\n2\nENTITIES\n" + _square(200) + "0\nPOLYLINE\n8\n0\n66\n1\n70\n1\n" + vertices
    )
    drawing = read_drawing(path)
    assert [piece.outline.bbox_mm[0] for piece in drawing.pieces] == [200.0]
    assert any("POLYLINE" in f.done for f in drawing.findings if f.code == "TRUNCATED")


def test_a_file_without_its_end_mark_only(tmp_path: Path) -> None:
    path = tmp_path / "noend.dxf"
    path.write_text("0\nSECTION\n2\nENTITIES\n" + _square(0) + "0\nENDSEC\n")
    drawing = read_drawing(path)
    assert len(drawing.pieces) == 1
    assert any(f.code == "TRUNCATED" for f in drawing.findings)


@pytest.mark.parametrize(("number", "words"), [("90,5", "decimal comma"), ("9o", "should be a number")])
def test_a_number_that_is_none_stops_the_import_with_its_line(
    tmp_path: Path, number: str, words: str
) -> None:
    path = tmp_path / "number.dxf"
    path.write_text(BARE.format(_square(0)).replace("\n90\n", f"\n{number}\n", 1))
    with pytest.raises(DrawingError, match=words) as caught:
        read_drawing(path)
    assert caught.value.code == "BAD_NUMBER"
    assert "line 14" in str(caught.value)


def test_a_coordinate_that_is_not_a_number_costs_that_line_only(tmp_path: Path) -> None:
    path = tmp_path / "nan.dxf"
    path.write_text(BARE.format(_square(0) + _square(300).replace("\n390\n", "\nnan\n", 1)))
    drawing = read_drawing(path)
    assert len(drawing.pieces) == 1
    assert any(f.code == "BAD_COORDINATE" for f in drawing.findings)


def test_a_line_too_many_stops_the_reading_there(tmp_path: Path) -> None:
    path = tmp_path / "step.dxf"
    path.write_text(BARE.format(_square(0) + _square(300) + "garbage\n" + _square(600)))
    drawing = read_drawing(path)
    assert len(drawing.pieces) == 1
    (finding,) = [f for f in drawing.findings if f.code == "OUT_OF_STEP"]
    assert "line 101" in finding.message


def test_missing_class_markers_are_put_in(table) -> None:
    table.rectangle()
    table.lines([(200, 0), (290, 0), (290, 60)])
    path = table.save()
    text = path.read_text()
    assert "100\nAcDbPolyline\n" in text
    path.write_text(text.replace("100\nAcDbPolyline\n", "").replace("100\nAcDbLine\n", ""))
    drawing = read_drawing(path)
    assert sorted(p.outline.area_mm2 for p in drawing.pieces) == pytest.approx([2700.0, 9600.0])
    assert any(f.code == "NO_CLASS_MARKER" for f in drawing.findings)


def test_a_block_bomb_is_counted_not_exploded(table) -> None:
    below = "L0"
    table.document.blocks.new(below).add_lwpolyline([(0, 0), (50, 0), (50, 50)], close=True)
    for level in range(1, 40):
        block = table.document.blocks.new(f"L{level}")
        for i in range(10):
            block.add_blockref(below, (i, i))
        below = f"L{level}"
    table.model.add_blockref(below, (0, 0))
    with pytest.raises(DrawingError) as caught:
        table.read()
    assert caught.value.code == "TOO_MANY_ENTITIES"
    assert f"{tolerances.MAX_ENTITIES}" in str(caught.value)


@pytest.mark.parametrize("fmt", ["asc", "bin"])
@pytest.mark.parametrize("version", ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"])
def test_every_version_text_and_binary(table, version: str, fmt: str) -> None:
    table.new(version)
    table.model.add_circle((0, 0), 50)
    table.model.add_polyline2d([(100, 0), (190, 0), (190, 60)], close=True)
    areas = [p.outline.area_mm2 for p in read_drawing(table.save(fmt=fmt)).pieces]
    assert areas == pytest.approx([7853.98, 2700.0], rel=1e-3)


@pytest.mark.parametrize("end", ["\r\n", "\r", "\n"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_line_ends_and_encodings(table, end: str, encoding: str) -> None:
    table.rectangle()
    path = table.save()
    text = path.read_text()
    path.write_bytes(text.replace("\n", end).encode(encoding))
    assert len(read_drawing(path).pieces) == 1


def test_a_very_long_outline(tmp_path: Path) -> None:
    t = np.linspace(0, 2 * np.pi, 200_001)[:-1]
    r = 200 + 20 * np.sin(9 * t)
    points = np.column_stack([r * np.cos(t), r * np.sin(t)]).tolist()
    vertices = "".join(f"10\n{x!r}\n20\n{y!r}\n" for x, y in points)
    path = tmp_path / "long.dxf"
    path.write_text(BARE.format(f"0\nLWPOLYLINE\n8\n0\n90\n200000\n70\n1\n{vertices}"))
    (piece,) = read_drawing(path).pieces
    assert len(piece.outline.ring_mm) == 200_000
    # area of r(t): 1/2 * integral r^2 dt = pi (200^2 + 20^2 / 2)
    assert piece.outline.area_mm2 == pytest.approx(np.pi * (200**2 + 200), rel=1e-6)


@pytest.mark.parametrize("fmt", ["asc", "bin"])
@pytest.mark.parametrize("harm", ["cut", "flip", "drop", "repeat"])
def test_random_damage_never_crashes(table, harm: str, fmt: str, tmp_path: Path) -> None:
    """Either pieces, or one DrawingError that names the file; seeds are fixed."""
    _good(table)
    good = table.save(fmt=fmt).read_bytes()
    rng = random.Random(f"{harm} {fmt}")
    path = tmp_path / "damaged.dxf"
    for _ in range(12):
        data = bytearray(good)
        start = good.index(b"ENTITIES") if rng.random() < 0.7 else 0
        at = rng.randrange(start, len(data))
        if harm == "cut":
            del data[at:]
        elif harm == "drop":
            del data[at : at + rng.randrange(1, 80)]
        elif harm == "repeat":
            data[at:at] = data[at : at + 60] * rng.randrange(1, 30)
        else:
            for _ in range(rng.choice((1, 4, 30))):
                data[rng.randrange(start, len(data))] = rng.randrange(256)
        path.write_bytes(data)
        try:
            drawing = read_drawing(path)
        except DrawingError as error:
            assert path.name in str(error)
        else:
            assert drawing.pieces
            assert all(piece.outline.polygon.is_valid for piece in drawing.pieces)


def test_a_document_that_only_recovery_reads(tmp_path: Path) -> None:
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 4
    document.modelspace().add_lwpolyline([(0, 0), (90, 0), (90, 60)], close=True)
    path = tmp_path / "handle.dxf"
    document.saveas(path)
    text = path.read_text()
    handle = document.modelspace()[0].dxf.handle
    path.write_text(text.replace(f"LWPOLYLINE\n  5\n{handle}\n", "LWPOLYLINE\n  5\n\n"))
    drawing = read_drawing(path)
    assert len(drawing.pieces) == 1
    assert any(f.code == "RECOVERED" for f in drawing.findings)


KEPT = sorted((Path(__file__).parent / "damaged").glob("*.dxf"))
"""Drawings of our own, and of the examples of ezdxf (MIT), damaged by benchmarks/damaged_drawings.py."""


@pytest.mark.filterwarnings("error::RuntimeWarning")
@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.stem)
def test_what_once_failed_is_read_or_refused_in_plain_words(path: Path) -> None:
    try:
        read_drawing(path)
    except DrawingError as error:
        assert path.name in str(error) and error.remedy
        assert error.__cause__ is None, "it is known, not caught by the last guard"


@pytest.mark.filterwarnings("error::RuntimeWarning")
@pytest.mark.parametrize("absurd", ["1e308", "-1e308", "nan", "inf"])
def test_an_absurd_coordinate_is_refused_without_a_warning_of_overflow(table, absurd: str) -> None:
    table.rectangle(x=0)
    table.model.add_spline([(0, 0), (30, 40), (60, 10), (90, 50)])
    path = table.save()
    text = path.read_text()
    at = text.index("AcDbPolyline")
    value = text.index("\n 10\n", at) + len("\n 10\n")
    path.write_text(text[:value] + absurd + text[text.index("\n", value) :])
    try:
        read_drawing(path)
    except DrawingError as error:
        assert error.remedy and error.__cause__ is None


def test_a_block_mark_among_the_entities_is_left_out(table) -> None:
    table.rectangle(x=0)
    path = table.save()
    text = path.read_text()
    at = text.index("LWPOLYLINE")
    at = text.rindex("\n", 0, text.rindex("\n", 0, at)) + 1  # before the entity's "  0" line
    path.write_text(text[:at] + "  0\nENDBLK\n  8\n0\n" + text[at:])
    try:
        assert len(read_drawing(path).pieces) <= 1
    except DrawingError as error:
        assert error.remedy


def test_a_figure_of_eight_beside_another_piece_is_offered_as_its_two_halves(table) -> None:
    table.model.add_lwpolyline([(0, 0), (100, 60), (100, 0), (0, 60)], close=True)
    table.model.add_text("VAMP", height=5, dxfattribs={"insert": (10, 30)})
    table.rectangle(x=200)
    drawing = table.read()
    assert [piece.name for piece in drawing.pieces] == ["VAMP part 1", "VAMP part 2", "piece 2"]
    # the lines y = 0.6 x and y = 60 - 0.6 x cross at x = 50: each half is a triangle of 60 x 50 / 2
    assert [piece.outline.area_mm2 for piece in drawing.pieces[:2]] == pytest.approx([1500.0, 1500.0])
    (finding,) = [f for f in drawing.findings if f.code == "SELF_CROSSING"]
    assert "VAMP part 1 around (25, 30), VAMP part 2 around (75, 30)" in finding.done


def test_an_unknown_fault_of_the_reader_is_a_damaged_drawing(table, monkeypatch) -> None:
    table.rectangle(x=0)
    path = table.save()

    def broken(*_args, **_more):
        raise KeyError("what nobody thought of")

    monkeypatch.setattr("geometry.dxf.read.load", broken)
    with pytest.raises(DrawingError, match="damaged"):
        read_drawing(path)


def test_dust_is_left_out_and_counted_in_one_finding(table) -> None:
    table.rectangle(x=0)
    for k in range(250):
        table.model.add_circle((3 + 0.3 * k, 20 + (k % 7) * 3), 0.1)
    drawing = read_drawing(table.save())
    assert len(drawing.pieces) == 1 and drawing.pieces[0].outline.holes_mm == ()
    (finding,) = [f for f in drawing.findings if f.code == "SPECKS"]
    assert "250" in finding.message


@pytest.mark.parametrize(("answer", "pieces", "holes"), [("ask", 1, 0), ("drop", 1, 0), ("keep", 1, 1)])
def test_a_sheets_frame_round_one_piece_is_a_question_and_never_a_silent_hole(
    table, answer, pieces, holes
) -> None:
    table.model.add_lwpolyline([(-100, -100), (320, -100), (320, 197), (-100, 197)], close=True)
    table.rectangle(x=0)
    drawing = read_drawing(table.save(), frame=answer)
    assert len(drawing.pieces) == pieces
    assert [len(piece.outline.holes_mm) for piece in drawing.pieces] == [holes]
    asked = [f for f in drawing.findings if f.code == "FRAME" and f.severity is Severity.QUESTION]
    assert len(asked) == (answer == "ask")
