"""One drawing, four formats: sizes true, text never lost, files whole or absent."""

from __future__ import annotations

import os
import re
import zipfile
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pypdfium2 as pdfium
import pytest
from ezdxf.lldxf.encoding import decode_dxf_unicode
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from app.errors import UsageError
from app.papers.formats.drawing import Drawing, Page, Text
from app.papers.formats.dxf import write_dxf
from app.papers.formats.hpgl import BAND_MM, FRAME_MM, OVERLAP_MM, frames_of, write_hpgl
from app.papers.formats.lettering import extent_mm, fitted, plain, shown, width_mm, wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.formats.spreadsheet import TableSheet, write_csv, write_xlsx
from app.papers.formats.strokes import dashed, letter_strokes
from app.papers.formats.svg import write_svg
from app.papers.layout import pens
from app.papers.layout.sheets import set_out, sheet_of

DAY_OF_2000 = 2451545.0
"""The Julian day of the first of January 2000, as a drawing counts days."""


def _square(side_mm: float = 100.0) -> Drawing:
    drawing = Drawing()
    drawing.box((0.0, 0.0, side_mm, side_mm), pens.CUT, "cut")
    return drawing


def _ink(path: Path, dpi: int = 150, page: int = 0) -> np.ndarray:
    """Dark pixels of a page, row 0 at the top."""
    image = pdfium.PdfDocument(path)[page].render(scale=dpi / 72.0, grayscale=True).to_numpy()
    return image[..., 0] < 160 if image.ndim == 3 else image < 160


def test_a_drawing_placed_twice_is_the_same_as_drawn_twice(tmp_path: Path) -> None:
    inner = _square(20.0)
    inner.text(2.0, 2.0, "Zunge", 5.0)
    shared, alone = Drawing(), Drawing()
    for x in (10.0, 60.0):
        shared.place(inner, x, 30.0)
        copy = Drawing(list(inner.marks))
        alone.place(copy, x, 30.0)
    for name, drawing in (("shared", shared), ("alone", alone)):
        write_pdf([Page(100.0, 80.0, drawing)], tmp_path / f"{name}.pdf", title=name)
    assert np.array_equal(_ink(tmp_path / "shared.pdf"), _ink(tmp_path / "alone.pdf"))


def test_a_scaled_drawing_keeps_its_pen_width(tmp_path: Path) -> None:
    page = Drawing()
    page.place(_square(400.0), 10.0, 10.0, scale=0.1)
    write_pdf([Page(60.0, 60.0, page)], tmp_path / "small.pdf", title="small")
    row = _ink(tmp_path / "small.pdf", dpi=600)[int(30.0 / 25.4 * 600)]
    lines = np.flatnonzero(np.diff(row.astype(int)) == 1)
    widths = (np.flatnonzero(np.diff(row.astype(int)) == -1) - lines) / 600 * 25.4
    assert len(lines) == 2
    assert widths == pytest.approx([pens.CUT.width_mm] * 2, abs=0.06)


def test_a_window_cuts_what_lies_outside(tmp_path: Path) -> None:
    page = Drawing()
    page.place(_square(100.0), 10.0, 10.0, clip_mm=(0.0, 0.0, 50.0, 130.0))
    write_pdf([Page(130.0, 130.0, page)], tmp_path / "cut.pdf", title="cut")
    assert not _ink(tmp_path / "cut.pdf")[:, int(51.0 / 25.4 * 150) :].any()


def test_the_same_paper_gives_the_same_bytes(tmp_path: Path) -> None:
    drawing = _square()
    drawing.text(5.0, 5.0, "Größe 37", 4.0)
    for name in "ab":
        write_pdf([Page(120.0, 120.0, drawing)], tmp_path / f"{name}.pdf", title="same")
        write_dxf(drawing, tmp_path / f"{name}.dxf")
        write_xlsx([TableSheet("Pieces", ("piece", "mm"), [("Vamp", 1.5)])], tmp_path / f"{name}.xlsx")
    for kind in ("pdf", "dxf", "xlsx"):
        assert (tmp_path / f"a.{kind}").read_bytes() == (tmp_path / f"b.{kind}").read_bytes()


def test_no_paper_tells_when_it_was_made(tmp_path: Path) -> None:
    """Two papers of one second are alike in any case: the times themselves are looked at."""
    header = write_dxf(_square(), tmp_path / "a.dxf").read_text("utf-8")
    days = re.findall(r"\$TDU?(?:CREATE|UPDATE)\s+40\s+([\d.]+)", header)
    assert {float(day) for day in days} == {DAY_OF_2000}
    path = write_xlsx([TableSheet("Pieces", ("piece",), [("Vamp",)])], tmp_path / "a.xlsx")
    with zipfile.ZipFile(path) as parts:
        assert {part.date_time[0] for part in parts.infolist()} == {2000}
        told = parts.read("docProps/core.xml").decode()
    assert set(re.findall(r"(\d{4})-\d\d-\d\dT", told)) == {"2000"}


def test_viewers_are_told_not_to_fit_the_page(tmp_path: Path) -> None:
    reader = PdfReader(write_pdf([Page(120.0, 120.0, _square())], tmp_path / "s.pdf", title="s"))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_a_page_longer_than_viewers_open_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="longer than PDF allows"):
        write_pdf([Page(6000.0, 100.0, _square())], tmp_path / "long.pdf", title="long")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("name", ["Größe", "Вамп", "Μπροστινό", "Şaşırtıcı", "Mũi giày", "żółć"])
def test_names_in_latin_greek_and_cyrillic_are_lettered_as_they_are(tmp_path: Path, name: str) -> None:
    drawing = Drawing()
    drawing.text(10.0, 10.0, name, 6.0)
    write_pdf([Page(100.0, 40.0, drawing)], tmp_path / "name.pdf", title=name)
    assert shown(name) == name
    assert name in PdfReader(tmp_path / "name.pdf").pages[0].extract_text()


def test_a_letter_the_typeface_lacks_is_shown_by_its_number() -> None:
    assert shown("鞋 37") == "<U+978B> 37"
    assert plain("鞋 Größe łapka") == "<U+978B> Grosse lapka"
    assert plain("Вамп") == "<U+0412><U+0430><U+043C><U+043F>"


def test_control_characters_never_reach_a_paper() -> None:
    assert shown("vamp\x00\x1b[31m\n37") == "vamp[31m 37"


def test_lettering_keeps_within_its_room() -> None:
    assert width_mm(fitted("a very long name of a piece", 4.0, 30.0), 4.0) <= 30.0
    lines = wrapped("setbacks are measured from the cut edge of the upper", 3.0, 40.0)
    assert len(lines) > 1
    assert all(width_mm(line, 3.0) <= 40.0 for line in lines)


def test_dxf_says_mm_and_keeps_layers_apart(tmp_path: Path) -> None:
    drawing = _square()
    drawing.text(5.0, 5.0, "Größe 37", 4.0)
    drawing.box((0.0, 0.0, 10.0, 10.0), pens.HAIR, "frame")
    document = ezdxf.readfile(write_dxf(drawing, tmp_path / "square.dxf"))
    assert document.header["$INSUNITS"] == 4
    assert [e.dxf.layer for e in document.modelspace()] == ["cut", "text"]
    (outline,) = document.modelspace().query("LWPOLYLINE")
    assert outline.closed
    assert outline.dxf.layer == "cut"
    (text,) = document.modelspace().query("TEXT")
    assert text.dxf.text == "Größe 37"
    assert not document.audit().has_errors


def test_svg_is_measured_in_mm(tmp_path: Path) -> None:
    root = ElementTree.parse(write_svg(_square(), (-5.0, -5.0, 115.0, 205.0), tmp_path / "s.svg", title="s"))
    svg = root.getroot()
    assert (svg.get("width"), svg.get("height")) == ("120.0000mm", "210.0000mm")
    assert svg.get("viewBox") == "0 0 120.0000 210.0000"
    (path,) = svg.iter("{http://www.w3.org/2000/svg}path")
    numbers = np.array(re.findall(r"-?\d+\.\d+", path.get("d")), dtype=float).reshape(-1, 2)
    assert np.ptp(numbers, axis=0) == pytest.approx([100.0, 100.0])
    assert numbers.max(axis=0) == pytest.approx([105.0, 205.0])  # y points down


@pytest.mark.parametrize("name", ["鞋 Вамп", "two\nlines\x07", "50%%c", "^J \\P {x}", "x" * 300, ""])
def test_no_name_breaks_a_file_for_machines(tmp_path: Path, name: str) -> None:
    drawing = _square()
    drawing.text(5.0, 5.0, name, 4.0)
    document = ezdxf.readfile(write_dxf(drawing, tmp_path / "name.dxf"))
    (text,) = document.modelspace().query("TEXT")
    told = decode_dxf_unicode(text.dxf.text)  # what the code page lacks is written as \\U+XXXX
    assert told == " ".join(name.replace("\x07", "").replace("%%", "% %").split())
    assert not document.audit().has_errors
    root = ElementTree.parse(write_svg(drawing, (0.0, 0.0, 100.0, 100.0), tmp_path / "n.svg", title=name))
    (lettered,) = root.iter("{http://www.w3.org/2000/svg}text")
    assert (lettered.text or "") == " ".join(name.replace("\x07", "").split())
    plot = write_hpgl([(drawing, (0.0, 0.0, 100.0, 100.0))], tmp_path / "n.plt").read_text()
    assert re.fullmatch(r"[A-Z0-9,;\n]+", plot)
    write_pdf([Page(120.0, 120.0, drawing)], tmp_path / "n.pdf", title=name)
    assert len(PdfReader(tmp_path / "n.pdf").pages) == 1


def test_svg_text_may_hold_any_character(tmp_path: Path) -> None:
    drawing = Drawing()
    drawing.text(0.0, 0.0, 'a<b & "鞋"', 4.0)
    root = ElementTree.parse(write_svg(drawing, (0.0, 0.0, 10.0, 10.0), tmp_path / "t.svg", title="<&>"))
    assert [t.text for t in root.iter("{http://www.w3.org/2000/svg}text")] == ['a<b & "鞋"']


def test_frames_cover_and_overlap() -> None:
    rows = frames_of((0.0, 0.0, 2500.0, 1400.0))
    assert [len(row) for row in rows] == [4, 4]
    for row in rows:
        assert row[0][0] == 0.0
        assert row[-1][2] == 2500.0
        for left, right in pairwise(row):
            assert left[2] - right[0] == pytest.approx(OVERLAP_MM)
        assert all(x1 - x0 <= FRAME_MM and y1 - y0 <= FRAME_MM for x0, y0, x1, y1 in row)


def test_neighbouring_frames_draw_the_same_crosses(tmp_path: Path) -> None:
    drawing = Drawing()
    drawing.line([(0.0, 100.0), (1500.0, 100.0)], pens.CUT, "cut")
    text = write_hpgl([(drawing, (0.0, 0.0, 1500.0, 200.0))], tmp_path / "two.plt").read_text()
    first, second = text.split("PG;")
    step = round((FRAME_MM - OVERLAP_MM) * 40)
    cross = f"PU{step + 200},{400};\nPD{step + 600},{400};"
    assert cross in first
    assert cross.replace(str(step + 200), "200").replace(str(step + 600), "600") in second


def test_a_shape_that_ends_on_the_edge_of_the_frame_is_cut_in_one_stroke(tmp_path: Path) -> None:
    """A lay is exactly as long as its last piece: a hair beyond, by rounding, must not split it."""
    drawing = Drawing()
    ring = [(0.0, 0.0), (70.0, 0.0), (100.0 + 1e-9, 40.0), (70.0, 80.0 + 1e-9), (0.0, 80.0)]
    drawing.line(ring, pens.CUT, "cut", closed=True)
    text = write_hpgl([(drawing, (0.0, 0.0, 100.0, 80.0))], tmp_path / "edge.plt").read_text()
    assert "PU0,0;\nPD2800,0,4000,1600,2800,3200,0,3200,0,0;" in text
    assert text.count("PD") == 1


def test_shapes_are_cut_in_bands_along_the_roll(tmp_path: Path) -> None:
    """Whatever order they lie in, the tool does not come back to a band it has left."""
    drawing = Drawing()
    places = [(x, y) for x in range(0, 700, 100) for y in range(0, 700, 100)]
    for x, y in sorted(places, key=lambda place: (place[0] * 7 + place[1] * 13) % 19):
        drawing.box((x, y, x + 50.0, y + 50.0), pens.CUT, "cut")
    shapes = Drawing()
    for mark in drawing.marks:
        one = Drawing()
        one.marks.append(mark)
        shapes.place(one, 0.0, 0.0)
    text = write_hpgl([(shapes, (0.0, 0.0, 750.0, 750.0))], tmp_path / "order.plt").read_text()
    starts = [tuple(int(v) / 40.0 for v in at) for at in re.findall(r"PU(\d+),(\d+);", text)]
    assert sorted(starts) == sorted((float(x), float(y)) for x, y in places)
    bands = [int((x + 25.0) // BAND_MM) for x, _ in starts]
    assert bands == sorted(bands)
    travel = sum(np.hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(starts))
    assert travel < 1.6 * 100.0 * len(starts)


def test_dashes_add_up_to_the_pattern() -> None:
    ring = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)])
    dashes = list(dashed(ring, (6.0, 2.0), closed=True))
    lengths = [np.hypot(*np.diff(d, axis=0).T).sum() for d in dashes]
    assert len(dashes) == 40
    assert lengths == pytest.approx([6.0] * 40)
    (whole,) = dashed(ring, (), closed=True)
    assert np.array_equal(whole[0], whole[-1])


@pytest.mark.parametrize("angle", [0.0, 37.0, 90.0])
def test_a_plotter_letters_no_wider_than_paper(angle: float) -> None:
    text = Text(10.0, 20.0, "Quarter inner 37 L", 4.2, "text", "middle", angle, True)
    points = np.concatenate(letter_strokes(text)) - (10.0, 20.0)
    turn = np.radians(angle)
    along, up = points @ (np.cos(turn), np.sin(turn)), points @ (-np.sin(turn), np.cos(turn))
    assert np.ptp(along) <= width_mm(text.text, 4.2, bold=True) + 1e-9
    assert abs(along.min() + along.max()) < 1.0
    assert up.max() == pytest.approx(4.2 * 0.66, rel=0.06)  # the dot of an i stands higher


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.floats(5.0, 190.0), st.floats(5.0, 254.0)), min_size=1, max_size=25),
    st.sampled_from([(0.0, 0.0), (102.0, 102.0)]),
)
def test_cards_never_overlap_and_stay_on_the_sheet(
    sizes: list[tuple[float, float]], keep: tuple[float, float]
) -> None:
    spreads = set_out(sizes, 190.0, 254.0, gap_mm=6.0, keep_mm=keep)
    assert sorted(i for spread in spreads for i, _, _ in spread.places) == list(range(len(sizes)))
    for spread in spreads:
        boxes = [(x, y, x + sizes[i][0], y + sizes[i][1]) for i, x, y in spread.places]
        if spread.kept_mm is not None:
            x, y = spread.kept_mm
            boxes.append((x, y, x + keep[0], y + keep[1]))
        for k, (a, b, c, d) in enumerate(boxes):
            assert a >= 0.0
            assert b >= 0.0
            assert c <= 190.0 + 1e-6
            assert d <= 254.0 + 1e-6
            for e, f, g, h in boxes[k + 1 :]:
                assert c <= e + 1e-6 or g <= a + 1e-6 or d <= f + 1e-6 or h <= b + 1e-6


@settings(max_examples=60, deadline=None)
@given(st.floats(1.0, 6000.0), st.floats(1.0, 3000.0))
def test_frames_cover_any_lay_within_sixteen_bits(length: float, width: float) -> None:
    rows = frames_of((0.0, 0.0, length, width))
    for row in rows:
        assert row[0][0] == 0.0
        assert row[-1][2] == length
        assert all(0.0 < (x1 - x0) * 40 <= 32767 for x0, _, x1, _ in row)
        assert all(left[2] - right[0] > OVERLAP_MM - 1e-6 for left, right in pairwise(row))
    assert rows[0][0][1] == 0.0
    assert rows[-1][0][3] == width
    assert all(0.0 < (row[0][3] - row[0][1]) * 40 <= 32767 for row in rows)


def test_a_sheet_nobody_sells_is_refused() -> None:
    for name in ("A9", "roll:", "roll:abc", "roll:50", "foolscap"):
        with pytest.raises(UsageError, match="no sheet"):
            sheet_of(name)


def test_extent_counts_lettering() -> None:
    drawing = Drawing()
    drawing.text(10.0, 10.0, "heel", 4.0, anchor="right")
    x0, _, x1, _ = extent_mm(drawing)
    assert x1 == pytest.approx(10.0)
    assert x0 == pytest.approx(10.0 - width_mm("heel", 4.0))


def test_a_name_is_never_run_as_a_formula(tmp_path: Path) -> None:
    from openpyxl import load_workbook

    sheets = [TableSheet("Pieces", ("piece", "count"), [("=1+1", 2), ("+vamp", -3), ("bad\x07", None)])]
    text = write_csv(sheets, tmp_path / "t.csv").read_text(encoding="utf-8-sig")
    assert text.splitlines()[1:] == ["Pieces,'=1+1,2", "Pieces,'+vamp,-3", "Pieces,bad\x07,"]
    page = load_workbook(write_xlsx(sheets, tmp_path / "t.xlsx"))["Pieces"]
    assert page["A2"].value == "=1+1"
    assert page["A2"].data_type == "s"
    assert page["B3"].value == -3
    assert page["A4"].value == "bad"


def test_a_paper_that_cannot_be_written_leaves_what_was_there(tmp_path: Path, monkeypatch) -> None:
    path = tmp_path / "lay.pdf"
    path.write_bytes(b"old")

    def refuse(*_args: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(UsageError, match=r"lay\.pdf"):
        write_pdf([Page(100.0, 100.0, _square(50.0))], path, title="new")
    assert path.read_bytes() == b"old"
    assert [p.name for p in tmp_path.iterdir()] == ["lay.pdf"]
