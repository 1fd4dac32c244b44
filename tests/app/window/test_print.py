"""Printing from the window: the papers of the commands, at true size, through a real printer object."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QFileDialog, QLineEdit, QPushButton

from app.papers.formats.drawing import Drawing, Page, Pen
from app.papers.registry import papers_of
from app.papers.shown import Drafted
from app.window.printing.dialog import PrintDialog, page_size
from app.window.printing.onto_sheets import onto_sheets, shrink_share
from app.window.printing.painting import print_pages
from app.window.wording.words import paper_name
from geometry.paper import PAPERS
from tests.app.window.hands import HANG_MS, key, with_next_dialog

POINT_MM = 25.4 / 72.0
A4 = (210.0, 297.0)


def pdf_printer(path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    return printer


def paths_mm(path):
    """Width and height of every drawn path, page by page; pdfium adds the pen's width on each side."""
    pdfium = pytest.importorskip("pypdfium2")
    pages = []
    for page in pdfium.PdfDocument(str(path)):
        found = []
        for thing in page.get_objects(max_depth=15):
            if thing.type == pdfium.raw.FPDF_PAGEOBJ_PATH:
                x0, y0, x1, y1 = thing.get_bounds()
                found.append(((x1 - x0) * POINT_MM, (y1 - y0) * POINT_MM))
        pages.append(np.array(found))
    return pages


def squares(path, pens_mm):
    return [
        int(sum(np.all(np.abs(sizes - 100.0 - 2 * pen) < 0.02, axis=1).sum() for pen in pens_mm))
        for sizes in paths_mm(path)
    ]


def wait_for_sheets(dialog: PrintDialog, qtbot) -> None:
    qtbot.waitUntil(lambda: not dialog.busy, timeout=HANG_MS)


def test_the_100_mm_square_of_the_boards_is_printed_at_true_size(derby, qtbot, tmp_path):
    out = tmp_path / "printed.pdf"
    said: list[str] = []

    def choose_pdf(asked) -> None:
        assert isinstance(asked, QPrintDialog)
        file = asked.findChild(QLineEdit, "filename")  # no printer here: the dialog offers a PDF
        assert file is not None
        file.setText(str(out))
        asked.accept()

    def print_it(dialog) -> None:
        assert isinstance(dialog, PrintDialog)
        wait_for_sheets(dialog, qtbot)
        said.append(dialog.note.text())
        with_next_dialog(choose_pdf)
        qtbot.mouseClick(dialog.print_button, Qt.MouseButton.LeftButton)

    with_next_dialog(print_it)
    key(derby, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert "fit to page" in said[0] and "100 mm square" in said[0]
    found = squares(out, (0.12, 0.2))  # the two pens squares are drawn with
    assert len(found) > 5 and sum(found) > 0, f"squares a sheet: {found}"
    assert "Measure" in derby.statusBar().currentMessage()


def test_a_page_larger_than_the_sheet_is_tiled_at_true_size_and_nothing_is_left_off(tmp_path):
    drawing = Drawing()
    pen = Pen(0.2)
    for x in (5.0, 395.0, 690.0):
        drawing.box((x, 40.0, x + 100.0, 140.0), pen, "frame")
    pages = onto_sheets([Page(800.0, 180.0, drawing)], *A4, true_size=True, title="Lay 1")
    assert len(pages) > 2 and {(p.width_mm, p.height_mm) for p in pages} <= {A4, A4[::-1]}
    assert print_pages(pdf_printer(tmp_path / "tiles.pdf"), pages)
    # each tile places the whole drawing behind its window, so every square is measured on every tile
    shown = squares(tmp_path / "tiles.pdf", (0.2,))
    assert all(shown), shown


def test_a_paper_that_is_not_full_size_is_shrunk_to_the_sheet():
    page = Page(420.0, 297.0, Drawing())
    assert shrink_share(page, *A4) == pytest.approx(297.0 / 420.0, abs=0.001)
    (placed,) = onto_sheets([page], *A4, true_size=False)
    assert (placed.width_mm, placed.height_mm) == A4[::-1]
    assert shrink_share(page, 297.0, 420.0) == 1.0


def test_a_paper_kept_as_pdf_is_the_commands_own(derby, qtbot, tmp_path, monkeypatch):
    pypdf = pytest.importorskip("pypdf")
    out = tmp_path / "sheet.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a, **k: (str(out), ""))

    def keep(dialog) -> None:
        at = dialog.kind.findText(paper_name("reinforcement-sheet"))
        dialog.kind.setCurrentIndex(at)
        dialog.kind.activated.emit(at)
        wait_for_sheets(dialog, qtbot)
        buttons = {b.text(): b for b in dialog.findChildren(QPushButton)}
        qtbot.mouseClick(buttons["Save as PDF…"], Qt.MouseButton.LeftButton)

    with_next_dialog(keep)
    derby.actions_made["file.print"].trigger()
    box = pypdf.PdfReader(str(out)).pages[0].mediabox
    assert [round(float(side) * POINT_MM) for side in (box.width, box.height)] == [420, 297]


def test_boards_are_offered_on_letter_paper_and_the_sheet_is_remembered(derby, qtbot):
    shown: list[set[tuple[float, float]]] = []

    def choose(dialog) -> None:
        at = dialog.sheet.findData("Letter")
        assert dialog.sheet.itemText(at).endswith("8.5 × 11 in")
        dialog.sheet.setFocus()
        while dialog.sheet.currentIndex() < at:
            qtbot.keyClick(dialog.sheet, Qt.Key.Key_Down)
        dialog.sheet.activated.emit(at)
        assert not dialog.print_button.isEnabled(), "sheets of another choice are never printed"
        wait_for_sheets(dialog, qtbot)
        shown.append({tuple(sorted((p.width_mm, p.height_mm))) for p in dialog.preview.pages})

    def again(dialog) -> None:
        assert dialog.choice.sheet == "Letter"

    for look in (choose, again):
        with_next_dialog(look)
        derby.actions_made["file.print"].trigger()
    assert [(pytest.approx(215.9), pytest.approx(279.4))] == list(shown[0])


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_the_printer_knows_every_sheet_by_the_same_size(qapp, paper):
    size = page_size(paper.name).size(QPageSize.Unit.Millimeter)
    assert (size.width(), size.height()) == pytest.approx((paper.width_mm, paper.height_mm), abs=0.5)


def test_a_lay_with_nothing_on_it_is_not_printed(derby, qtbot):
    derby.show_desk(2)
    told: list[str] = []
    with_next_dialog(lambda dialog: told.append(dialog.windowTitle()))
    derby.actions_made["file.print"].trigger()
    assert told == ["This could not be done"]


def test_boards_and_backing_are_written_beside_the_window(derby, qtbot, tmp_path):
    desk, style = derby.desks[0], derby.session.style
    few = style.model_copy(
        update={
            "pieces": style.pieces[-1:],
            "size_run": style.size_run.model_copy(update={"sizes": (style.size_run.base,)}),
        }
    )
    derby.session.apply("fewer", few)
    desk.out.export(tmp_path)
    assert desk.busy()
    qtbot.waitUntil(lambda: not desk.out.run.running and (tmp_path / "boards" / "backing.dxf").exists())
    names = {path.name for path in (tmp_path / "boards").iterdir()}
    assert names == {"backing.dxf", *(file for paper in papers_of(Drafted) for file in paper.files)}
