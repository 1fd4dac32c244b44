"""The print dialog: which paper, on which sheet, with a preview; to a printer or into a PDF."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import QByteArray, QCoreApplication, QSize, Qt
from PySide6.QtGui import QColor, QPageSize, QPainter, QPaintEvent
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.errors import AppError
from app.papers.formats.drawing import Page
from app.papers.formats.pdf import write_pdf
from app.style.model import Style
from app.style.pieces import HANDS
from app.window.printing.offer import Choice, Offer
from app.window.printing.onto_sheets import onto_sheets, shrink_share
from app.window.printing.painting import paint_page, print_pages
from app.window.problems import show_problem
from app.window.running.beside import WorkBeside
from app.window.session import Session
from app.window.widgets.chooser import Chooser
from app.window.widgets.figures import localised
from app.window.widgets.theme import theme, ui_font
from app.window.wording.core_words import told_text
from geometry.errors import GeometryError
from geometry.inch import MM_PER_INCH
from geometry.paper import PAPER_MM, PAPERS, PaperSize
from geometry.said import percent

translate = QCoreApplication.translate


LAST_SHEET = "print.sheet"


def page_size(name: str) -> QPageSize:
    """Return a size of paper as the printer knows it."""
    return QPageSize(getattr(QPageSize.PageSizeId, name.replace("ANSI", "Ansi").replace(" ", "")))


def _sheet_words(paper: PaperSize) -> str:
    """A sheet with its size, in the unit of those who use it."""
    inch = not paper.series.startswith("ISO")
    wide, high = (side / (MM_PER_INCH if inch else 1.0) for side in (paper.width_mm, paper.height_mm))
    return f"{paper.name}   " + localised(f"{wide:g} × {high:g} {'in' if inch else 'mm'}")


@dataclass(frozen=True)
class _Made:
    """The sheets of a choice as the thread made them, or why there are none."""

    key: tuple[int, Choice]
    pages: tuple[Page, ...] = ()
    problem: str = ""


class PrintDialog(QDialog):
    """``told`` is what was done, for the status bar ('' when the dialog was closed).

    The sheets are made beside the window; until they are there ``busy`` is True and nothing can be printed.
    """

    def __init__(
        self, papers: Sequence[Offer], style: Style, session: Session, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(translate("Print", "Print"))
        self._papers, self._style, self._session = list(papers), style, session
        self._pages: list[Page] = []
        self._made: dict[tuple[int, Choice], _Made] = {}
        self._beside: WorkBeside[_Made] = WorkBeside(self)
        self.told = ""
        self.resize(940, 680)
        self._make_widgets()
        self._offer()

    # -- making ---------------------------------------------------------------------------------
    def _make_widgets(self) -> None:
        self.kind = Chooser()
        self.kind.setAccessibleName(translate("Print", "Paper"))
        self.kind.addItems([paper.name for paper in self._papers])
        self.sheet = Chooser()
        self.sheet.setAccessibleName(translate("Print", "Sheet of paper"))
        for paper in PAPERS:
            self.sheet.addItem(_sheet_words(paper), paper.name)
        last = self._session.settings.state(LAST_SHEET)
        if last is not None:
            self.sheet.setCurrentIndex(max(self.sheet.findData(bytes(last.data()).decode()), 0))
        run = self._style.size_run
        self.sizes = Chooser()
        self.sizes.setAccessibleName(translate("Print", "Sizes"))
        for size in run.sizes:
            self.sizes.addItem(size, (size,))
        self.sizes.addItem(translate("Print", "all sizes"), run.sizes)
        self.sizes.setCurrentIndex(run.sizes.index(run.base) if run.base in run.sizes else 0)
        self.hands = Chooser()
        self.hands.setAccessibleName(translate("Print", "Left or right"))
        self.hands.addItem(translate("Print", "left"), ("left",))
        self.hands.addItem(translate("Print", "right"), ("right",))
        self.hands.addItem(translate("Print", "both"), tuple(HANDS))
        self._form = QFormLayout()
        self._form.setHorizontalSpacing(12)
        self._form.setVerticalSpacing(8)
        self._form.addRow(translate("Print", "Paper"), self.kind)
        self._form.addRow(translate("Print", "Sheet"), self.sheet)
        self._form.addRow(translate("Print", "Sizes"), self.sizes)
        self._form.addRow(translate("Print", "Left or right"), self.hands)
        self.note = QLabel()
        self.note.setWordWrap(True)
        self.note.setContentsMargins(0, 6, 0, 0)
        left = QVBoxLayout()
        left.addLayout(self._form)
        left.addWidget(self.note)
        left.addStretch(1)
        side = QWidget()
        side.setLayout(left)
        side.setFixedWidth(290)
        left.setContentsMargins(0, 0, 0, 0)
        self.preview = SheetPreview()
        self.back = _turner(Qt.ArrowType.LeftArrow, translate("Print", "Previous sheet"))
        self.on = _turner(Qt.ArrowType.RightArrow, translate("Print", "Next sheet"))
        self.counter = QLabel()
        turn = QHBoxLayout()
        turn.addStretch(1)
        turn.addWidget(self.back)
        turn.addWidget(self.counter)
        turn.addWidget(self.on)
        turn.addStretch(1)
        right = QVBoxLayout()
        right.addWidget(self.preview, 1)
        right.addLayout(turn)
        across = QHBoxLayout()
        across.setSpacing(16)
        across.addWidget(side)
        across.addLayout(right, 1)
        buttons = QDialogButtonBox()
        self.print_button = QPushButton(translate("Print", "Print…"))
        self.print_button.setDefault(True)
        self.pdf_button = QPushButton(translate("Print", "Save as PDF…"))
        self.pdf_button.setAutoDefault(False)
        close = QPushButton(translate("Print", "Close"))
        buttons.addButton(self.pdf_button, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.addButton(self.print_button, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.addButton(close, QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(12)
        column.addLayout(across, 1)
        column.addWidget(buttons)
        for box in (self.kind, self.sheet, self.sizes, self.hands):
            box.activated.connect(self._changed)
        self.back.clicked.connect(self._page_back)
        self.on.clicked.connect(self._page_on)
        self.print_button.clicked.connect(self.ask_printer)
        self.pdf_button.clicked.connect(self.ask_pdf)

    # -- what is chosen -------------------------------------------------------------------------
    @property
    def paper(self) -> Offer:
        """The paper chosen."""
        return self._papers[max(self.kind.currentIndex(), 0)]

    @property
    def choice(self) -> Choice:
        """Sheet, sizes and hands chosen."""
        return Choice(
            self.sheet.currentData(), tuple(self.sizes.currentData()), tuple(self.hands.currentData())
        )

    def _changed(self, row: int = 0) -> None:
        self._session.settings.keep_state(LAST_SHEET, QByteArray(self.choice.sheet.encode()))
        self._offer()

    @property
    def busy(self) -> bool:
        """Whether the sheets of what is chosen are still being made."""
        return (self.kind.currentIndex(), self.choice) not in self._made

    def _offer(self) -> None:
        """Show the sheets of what is chosen; have them made first where they are not yet."""
        paper, key = self.paper, (self.kind.currentIndex(), self.choice)
        self._form.setRowVisible(self.sizes, paper.by_size)
        self._form.setRowVisible(self.hands, paper.by_size)
        made = self._made.get(key)
        if made is not None:
            self._show_made(made)
            return
        self._show_made(_Made(key, (), translate("Print", "The sheets are being made …")))
        if self._beside.busy:
            return  # of another choice; this one is next
        try:
            work = paper.prepare(key[1])
        except (AppError, GeometryError) as error:
            self._take(_Made(key, (), str(error)))
            return
        self._beside.begin("print", partial(_make, key, work), self._take, self._failed)

    def _take(self, made: _Made) -> None:
        self._made[made.key] = made
        self._offer()

    def _failed(self) -> None:
        """After an unexpected fault (it is reported): nothing may wait for ever."""
        told = translate("Print", "The sheets could not be made; the problem was reported.")
        self._take(_Made((self.kind.currentIndex(), self.choice), (), told))

    def _show_made(self, made: _Made) -> None:
        self._pages = list(made.pages)
        fitted = self._on(*PAPER_MM[made.key[1].sheet])
        self.preview.show_pages(fitted)
        self.note.setText(told_text(made.problem) or self._advice(len(fitted)))
        for button in (self.print_button, self.pdf_button):
            button.setEnabled(bool(fitted))
        self._show_counter()

    def _on(self, width_mm: float, height_mm: float) -> list[Page]:
        paper = self.paper
        title = f"{self._style.name}, {paper.name}"
        return onto_sheets(self._pages, width_mm, height_mm, true_size=paper.true_size, title=title)

    def _advice(self, sheets: int) -> str:
        if self.paper.true_size:
            tiled = sheets > len(self._pages)
            parts = [
                translate(
                    "Print",
                    "Full size: in the printer's dialog choose 100 % (“actual size”), never “fit to page”, and "
                    "measure the 100 mm square or lines on the print before anything is cut.",
                )
            ]
            if tiled:
                parts.insert(
                    0, translate("Print", "Larger than the sheet: printed in tiles to be stuck together.")
                )
            return "\n\n".join(parts)
        share = min(shrink_share(page, *PAPER_MM[self.choice.sheet]) for page in self._pages)
        if share < 1.0:
            return translate("Print", "Shrunk to {0} of its size to fit the sheet.").format(percent(share, 0))
        return ""

    # -- sheets shown ---------------------------------------------------------------------------
    def _page_back(self) -> None:
        self.preview.turn(-1)
        self._show_counter()

    def _page_on(self) -> None:
        self.preview.turn(1)
        self._show_counter()

    def _show_counter(self) -> None:
        count, at = len(self.preview.pages), self.preview.index
        self.counter.setText(translate("Print", "sheet {0} of {1}").format(at + 1, count) if count else "")
        self.back.setEnabled(at > 0)
        self.on.setEnabled(at + 1 < count)

    # -- out ------------------------------------------------------------------------------------
    def ask_printer(self) -> None:
        """Ask which printer, and print."""
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setDocName(f"{self._style.name} {self.paper.file}")
        printer.setCreator("stayply")
        printer.setFullPage(True)
        printer.setPageSize(page_size(self.choice.sheet))
        dialog = QPrintDialog(printer, self)
        taken = dialog.exec() == QDialog.DialogCode.Accepted
        dialog.deleteLater()
        if taken:
            self.print_on(printer)

    def print_on(self, printer: QPrinter) -> None:
        """Print what is chosen on the paper that the printer has."""
        sheet = printer.pageLayout().pageSize().size(QPageSize.Unit.Millimeter)
        pages = self._on(sheet.width(), sheet.height())
        first = max(printer.fromPage(), 1)
        last = printer.toPage() or len(pages)
        chosen = pages[first - 1 : last]
        QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            done = bool(chosen) and print_pages(printer, chosen)
        finally:
            QApplication.restoreOverrideCursor()
        if not done:
            self.note.setText(
                translate(
                    "Print", "The printer did not accept it. Check that it is on, or save the paper as PDF."
                )
            )
            return
        self.told = translate("Print", "{0}: {1} sheets sent to the printer").format(
            self.paper.name, len(chosen)
        )
        if self.paper.true_size:
            self.told += ". " + translate("Print", "Measure the 100 mm square or lines before cutting.")
        self.accept()

    def ask_pdf(self) -> None:
        """Ask for a file name and write the paper as the commands do, at its own page size."""
        start = Path(self._session.settings.folder) / f"{self.paper.file}.pdf"
        name, _ = QFileDialog.getSaveFileName(
            self, translate("Print", "Save as PDF"), str(start), translate("Print", "PDF (*.pdf)")
        )
        if not name:
            return
        path = Path(name)
        if path.suffix.lower() != ".pdf":
            path = path.with_name(path.name + ".pdf")
        try:
            write_pdf(self._pages, path, title=f"{self._style.name}: {self.paper.name}")
        except AppError as error:
            show_problem(error, self)
            return
        self.told = translate("Print", "Written: {0}").format(path)
        self.accept()


class SheetPreview(QWidget):
    """Shows one sheet at a time, small."""

    def __init__(self) -> None:
        super().__init__()
        self.pages: list[Page] = []
        self.index = 0
        self.setAccessibleName(translate("Print", "Preview"))

    def sizeHint(self) -> QSize:
        return QSize(560, 560)

    def show_pages(self, pages: list[Page]) -> None:
        """Show the first of some sheets."""
        self.pages, self.index = pages, 0
        self.update()

    def turn(self, step: int) -> None:
        """Show another sheet."""
        self.index = min(max(self.index + step, 0), max(len(self.pages) - 1, 0))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if not self.pages:
            return
        page = self.pages[self.index]
        scale = min((self.width() - 16) / page.width_mm, (self.height() - 16) / page.height_mm)
        painter = QPainter(self)
        painter.translate(
            (self.width() - page.width_mm * scale) / 2, (self.height() - page.height_mm * scale) / 2
        )
        wide, high = round(page.width_mm * scale), round(page.height_mm * scale)
        painter.fillRect(3, 3, wide, high, theme().colour("ink", 46))
        painter.fillRect(0, 0, wide, high, QColor("white"))
        painter.scale(scale, scale)
        paint_page(painter, page)
        painter.end()


def _make(key: tuple[int, Choice], work: Callable[[], Sequence[Page]]) -> _Made:
    try:
        return _Made(key, tuple(work()))
    except (AppError, GeometryError) as error:
        return _Made(key, (), str(error))


def _turner(arrow: Qt.ArrowType, name: str) -> QToolButton:
    button = QToolButton()
    button.setArrowType(arrow)
    button.setAccessibleName(name)
    button.setToolTip(name)
    button.setFont(ui_font(9))
    return button
