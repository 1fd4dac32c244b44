"""Output against published formats: HP-GL units, PDF points, DXF units, ISO 216, inches and feet."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import ezdxf
import numpy as np
import pypdfium2 as pdfium
import pytest
from pypdf import PdfReader

from app.errors import UsageError
from app.papers.formats.drawing import Drawing, Page
from app.papers.formats.dxf import write_dxf
from app.papers.formats.hpgl import UNITS_PER_MM, write_hpgl
from app.papers.formats.pdf import PAGE_LIMIT_MM, POINTS_PER_MM, write_pdf
from app.papers.layout import pens
from app.papers.layout.marks import draw_check_square
from geometry.paper import PAPER_MM, PAPERS


def _line(length_mm: float, high_mm: float = 0.0) -> Drawing:
    drawing = Drawing()
    drawing.line([(0.0, 0.0), (length_mm, high_mm)], pens.CUT, "cut")
    return drawing


@pytest.mark.parametrize(
    ("size_mm", "units"),
    [((100.0, 0.0), (4000, 0)), ((297.0, 210.0), (11880, 8400)), ((1400.0, 0.0), (56000, 0))],
)
def test_o1_an_hpgl_unit_is_a_fortieth_of_a_millimetre(
    tmp_path: Path, size_mm: tuple[float, float], units: tuple[int, int]
) -> None:
    """0.025 mm, 40 a mm, 1016 an inch: HP-GL/2 and HP RTL Reference Guide (seen)."""
    box = (0.0, 0.0, max(size_mm), max(size_mm))
    text = write_hpgl([(_line(*size_mm), box)], tmp_path / "o1.plt", split=False).read_text()
    assert f"PU0,0;\nPD{units[0]},{units[1]};" in text
    assert UNITS_PER_MM * 25.4 == 1016


def test_o2_a_plot_starts_and_ends_as_plotters_expect(tmp_path: Path) -> None:
    """IN first, a pen before drawing, up before travel, the pen put away last (from memory; IN, SP
    and PA seen in the guide)."""
    drawing = _line(50.0)
    drawing.line([(70.0, 0.0), (90.0, 0.0)], pens.CUT, "cut")
    text = write_hpgl([(drawing, (0.0, 0.0, 100.0, 10.0))], tmp_path / "o2.plt").read_text()
    assert text.split() == ["IN;", "PU;SP1;PA;", "PU0,0;", "PD2000,0;", "PU2800,0;", "PD3600,0;", "PU;SP0;"]


def test_o2_sixteen_bits_end_at_819_mm(tmp_path: Path) -> None:
    """32,767 units = 819.175 mm (from memory, calculated): what is longer comes in frames."""
    assert 32767 / UNITS_PER_MM == 819.175
    text = write_hpgl([(_line(2400.0), (0.0, 0.0, 2400.0, 10.0))], tmp_path / "long.plt").read_text()
    numbers = [int(n) for w in text.replace("\n", "").split(";") for n in w[2:].split(",") if n.isdigit()]
    assert text.count("PG;") == 3
    assert max(numbers) <= 32767


def test_o3_a_hundred_millimetres_are_283_4646_points(tmp_path: Path) -> None:
    """72 points an inch of 25.4 mm, exactly."""
    assert pytest.approx(2.834646, abs=5e-7) == POINTS_PER_MM
    assert pytest.approx(283.4646, abs=5e-5) == 100.0 * POINTS_PER_MM
    for name, points in (("A4", (595.276, 841.890)), ("A0", (2383.937, 3370.394))):
        wide, high = PAPER_MM[name]
        path = write_pdf([Page(wide, high, Drawing())], tmp_path / f"{name}.pdf", title=name)
        box = PdfReader(path).pages[0].mediabox
        assert (float(box[2]), float(box[3])) == pytest.approx(points, abs=5e-4)


def test_o4_no_page_is_longer_than_viewers_take(tmp_path: Path) -> None:
    """14,400 points = 5,080 mm (ISO 32000-1 annex C, from memory)."""
    assert pytest.approx(5080.0) == 14400 / POINTS_PER_MM
    assert PAGE_LIMIT_MM <= 5000.0
    with pytest.raises(UsageError):
        write_pdf([Page(5081.0, 100.0, Drawing())], tmp_path / "o4.pdf", title="o4")


def test_o5_a_dxf_states_millimetres(tmp_path: Path) -> None:
    """$INSUNITS 4 = mm, $MEASUREMENT 1 = metric (DXF reference, seen)."""
    document = ezdxf.readfile(write_dxf(_line(100.0), tmp_path / "o5.dxf"))
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    (line,) = document.modelspace()
    assert [tuple(p) for p in line.get_points("xy")] == [(0.0, 0.0), (100.0, 0.0)]


def test_o6_paper_sizes_halve() -> None:
    """ISO 216: each size is the larger one cut in half, rounded down; A0 is a square metre, B0 1 m wide."""
    for series, largest in (("ISO A", (841.0, 1189.0)), ("ISO B", (1000.0, 1414.0))):
        sizes = [(paper.width_mm, paper.height_mm) for paper in PAPERS if paper.series == series][::-1]
        assert sizes[0] == largest and len(sizes) == 5
        for (wide, high), (less_wide, less_high) in pairwise(sizes):
            assert (less_wide, less_high) == (high // 2, wide)


@pytest.mark.parametrize("dpi", [150, 300, 600])
def test_o7_the_check_square_prints_true(tmp_path: Path, dpi: int) -> None:
    """100.0 mm; common practice, no source, rejects a print that is 0.5 % off."""
    drawing = Drawing()
    draw_check_square(drawing, 20.0, 30.0)
    path = write_pdf([Page(140.0, 150.0, drawing)], tmp_path / "o7.pdf", title="o7")
    image = pdfium.PdfDocument(path)[0].render(scale=dpi / 72.0, grayscale=True).to_numpy()
    dark = image.reshape(image.shape[0], image.shape[1]) < 160
    for sums in (dark.sum(axis=0), dark.sum(axis=1)):
        sides = np.flatnonzero(sums > 0.95 * 100.0 / 25.4 * dpi)
        first, last = np.split(sides, np.flatnonzero(np.diff(sides) > 2) + 1)
        assert (last.mean() - first.mean()) / dpi * 25.4 == pytest.approx(100.0, abs=0.2)


def test_o8_inches_and_feet_are_exact() -> None:
    """1 in2 = 645.16 mm2, 1 ft2 = 0.09290304 m2, 1 yd = 914.4 mm (international inch, exact)."""
    assert pytest.approx(645.16, abs=1e-12) == 25.4**2
    assert pytest.approx(0.09290304, abs=1e-15) == (12 * 25.4 / 1000) ** 2
    assert pytest.approx(914.4, abs=1e-12) == 36 * 25.4
