"""The size run on the draft desk: system, base size, the sizes and how each comes about."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QFormLayout, QGridLayout, QHeaderView, QLabel, QPushButton, QVBoxLayout, QWidget

from app.style.model import Style
from app.style.whole import sizes
from app.window.desks.draft.interface import DraftBench
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, TextField
from app.window.widgets.lengths import Unit
from app.window.widgets.table import Table
from app.window.wording.core_words import told_text
from app.window.wording.words import system_name
from geometry.errors import SizeError
from geometry.sizing.sizes import SYSTEMS

translate = QCoreApplication.translate


def grading_words() -> dict[str, str]:
    """How a piece grows from size to size, in words."""
    return {
        "both": translate("Sizes", "length and width"),
        "length": translate("Sizes", "length only"),
        "width": translate("Sizes", "width only"),
        "none": translate("Sizes", "not at all"),
    }


PIECES = 4
"""The last column of the table."""
CELL_ROOM_PX = 13


class SizesPage(QWidget):
    """Shows the run of the open style; every change is an edit of the desk."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__()
        self._desk = desk
        self._lengths = desk.session.lengths
        self._style: Style | None = None
        self._piece = ""
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 12, 12, 10)
        column.setSpacing(8)
        column.addLayout(self._run_form())
        self.table = Table(self._heads(), translate("Sizes", "Sizes of the style"))
        self.table.itemSelectionChanged.connect(self._row_chosen)
        how = self.table.columnCount() - 1  # its words are never cut off, whatever the language
        self.table.horizontalHeader().setSectionResizeMode(how, QHeaderView.ResizeMode.ResizeToContents)
        column.addWidget(self.table)
        column.addLayout(self._buttons())
        self._head = QLabel()
        self._head.setProperty("role", "heading")
        self._head.setWordWrap(True)
        column.addWidget(self._head)
        column.addLayout(self._piece_form())
        self.told = QLabel()
        self.told.setProperty("role", "soft")
        self.told.setWordWrap(True)
        column.addWidget(self.told)
        column.addStretch(1)

    # -- making -------------------------------------------------------------------------------
    def _run_form(self) -> QFormLayout:
        form = QFormLayout()
        form.setVerticalSpacing(6)
        self.system = Chooser()
        for name in SYSTEMS:
            self.system.addItem(system_name(name), name)
        self.system.setAccessibleName(translate("Sizes", "Size system"))
        self.system.activated.connect(self._system)
        self.base = TextField()
        self.base.setAccessibleName(translate("Sizes", "Base size"))
        self.base.setToolTip(
            translate(
                "Sizes",
                "The size that is marked. Where only one size is drawn: the size that the drawing is of",
            )
        )
        self.base.editingFinished.connect(self._base)
        self.girth = LengthField(translate("Sizes", "Ball girth of the base size"), self._lengths)
        self.girth.entered.connect(self._girth)
        self.girth.refused.connect(self._desk.status)
        form.addRow(translate("Sizes", "System"), self.system)
        form.addRow(translate("Sizes", "Base size"), self.base)
        form.addRow(translate("Sizes", "Ball girth"), self.girth)
        return form

    def _buttons(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setSpacing(6)
        self.new = TextField()
        self.new.setPlaceholderText("36-41")
        self.new.setAccessibleName(translate("Sizes", "Sizes to add"))
        self.new.returnPressed.connect(self._add)
        self.add = _button(translate("Sizes", "Add"), self._add)
        self.remove = _button(translate("Sizes", "Remove"), self._remove)
        self.draw = _button(translate("Sizes", "Keep as drawn"), self._draw)
        self.draw.setToolTip(
            translate("Sizes", "The graded outlines of this size become its drawings, to be corrected")
        )
        self.grade = _button(translate("Sizes", "Grade again"), self._grade)
        self.grade.setToolTip(
            translate("Sizes", "Discard the drawings of this size: it is graded from the base size again")
        )
        grid.addWidget(self.new, 0, 0)
        grid.addWidget(self.add, 0, 1)
        grid.addWidget(self.remove, 1, 1)
        grid.addWidget(self.draw, 1, 0)
        grid.addWidget(self.grade, 2, 0)
        grid.addWidget(_button(translate("Sizes", "Show the nest"), self._nest), 2, 1)
        return grid

    def _piece_form(self) -> QFormLayout:
        form = QFormLayout()
        form.setVerticalSpacing(6)
        self.grading = Chooser()
        for how, words in grading_words().items():
            self.grading.addItem(words, how)
        self.grading.setAccessibleName(translate("Sizes", "What grows from size to size"))
        self.grading.activated.connect(self._grading)
        self.cut_as = Chooser()
        self.cut_as.setAccessibleName(translate("Sizes", "Cut in the shape of size"))
        self.cut_as.setToolTip(
            translate(
                "Sizes", "One card or die for several sizes: the size chosen above is cut in this shape"
            )
        )
        self.cut_as.activated.connect(self._cut_as)
        form.addRow(translate("Sizes", "Grows in"), self.grading)
        form.addRow(translate("Sizes", "Cut as size"), self.cut_as)
        return form

    def _heads(self) -> list[str]:
        return [
            translate("Sizes", "Size"),
            translate("Sizes", "Last"),
            translate("Sizes", "Step"),
            translate("Sizes", "Girth"),
            translate("Sizes", "Pieces"),
        ]

    # -- showing ------------------------------------------------------------------------------
    def show_style(self, style: Style, piece: str) -> None:
        """Show the run, and the grading of the selected piece."""
        if style is self._style and piece == self._piece:
            return
        self._style, self._piece = style, piece
        run = style.size_run
        self.system.setCurrentIndex(self.system.findData(run.system))
        self.base.setText(run.base)
        self.girth.set_value(run.base_girth_mm)
        chosen = self.size_chosen
        try:
            rows = sizes.size_rows(style)
        except SizeError as error:
            self.told.setText(told_text(str(error)))
            rows = ()
        else:
            self.told.setText("")
        self.table.blockSignals(True)
        base = next((i for i, row in enumerate(rows) if row.base), 0)
        lines = [self._row(row, len(style.pieces)) for row in rows]
        self.table.fill(lines, words=(PIECES,), spoken=True)
        self.table.words_first((PIECES,))
        self._fit_figures(lines)
        self.table.fit(9)
        self._sizes = [row.size for row in rows]
        self.table.blockSignals(False)
        self.table.selectRow(self._sizes.index(chosen) if chosen in self._sizes else base)
        self._row_chosen()

    def relook(self) -> None:
        """The unit of display changed."""
        self.girth.relook()
        self._style, style = None, self._style
        if style is not None:
            self.show_style(style, self._piece)

    @property
    def size_chosen(self) -> str:
        """The size chosen in the table, '' = none."""
        row = self.table.currentRow()
        return self._sizes[row] if 0 <= row < len(self._sizes) else ""

    _sizes: Sequence[str] = ()

    def _row(self, row: sizes.SizeRow, pieces: int) -> list[str]:
        number, inch = self._lengths.number, self._lengths.unit is Unit.INCH
        step = "" if row.last_step_mm is None else f"+{number(row.last_step_mm, 1 if inch else 2)}"
        how = [
            (row.drawn, translate("Sizes", "drawn")),
            (row.graded, translate("Sizes", "graded")),
            (row.cut_as, translate("Sizes", "as another")),
            (row.missing, translate("Sizes", "missing")),
        ]
        told = [words if count == pieces else f"{count} {words}" for count, words in how if count]
        size = f"{row.size} *" if row.base else row.size  # as above the board
        return [size, number(row.last_mm), step, number(row.girth_mm), ", ".join(told)]

    def _fit_figures(self, lines: Sequence[Sequence[str]]) -> None:
        """Give the figures the width that they take: what is left is for how the pieces come about."""
        header, metrics = self.table.horizontalHeader(), self.table.fontMetrics()
        for column in range(PIECES):
            texts = (self.table.head(column).text(), *(line[column] for line in lines))
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
            header.resizeSection(column, max(map(metrics.horizontalAdvance, texts)) + CELL_ROOM_PX)

    def _row_chosen(self) -> None:
        style = self._style
        if style is None:
            return
        size, run = self.size_chosen, style.size_run
        other = bool(size) and size != run.base
        drawn = other and any(size in piece.drawings for piece in style.pieces)
        for button, on in (
            (self.remove, other),
            (self.draw, other and any(size not in p.drawings for p in style.pieces)),
            (self.grade, drawn),
        ):
            button.setEnabled(on)
        piece = next((p for p in style.pieces if p.name == self._piece), None)
        self._head.setText(
            translate("Sizes", "Grading of {0}").format(piece.name)
            if piece is not None
            else translate("Sizes", "Grading of a piece: select one on the board")
        )
        self.grading.setEnabled(piece is not None)
        self.cut_as.setEnabled(piece is not None and other)
        self.cut_as.clear()
        if piece is None:
            return
        self.grading.setCurrentIndex(self.grading.findData(piece.grading))
        self.cut_as.addItem(translate("Sizes", "its own shape"), "")
        for each in self._sizes:
            if each != size and each not in piece.cut_as:
                self.cut_as.addItem(each, each)
        self.cut_as.setCurrentIndex(max(self.cut_as.findData(piece.cut_as.get(size, "")), 0))

    # -- entering -----------------------------------------------------------------------------
    def _system(self, index: int) -> None:
        self._edit("size system", sizes.set_system, self.system.itemData(index))

    def _base(self) -> None:
        if self._style is not None and self.base.text().strip() != self._style.size_run.base:
            self._edit("base size", sizes.set_base, self.base.text())

    def _girth(self, value: object) -> None:
        if isinstance(value, float):
            self._edit("girth", sizes.set_girth, value)

    def _add(self) -> None:
        text = self.new.text().strip()
        if text and self._edit("add sizes", sizes.add_sizes, text):
            self.new.clear()

    def _remove(self) -> None:
        self._edit("remove size", sizes.remove_size, self.size_chosen)

    def _draw(self) -> None:
        self._edit("draw size", sizes.draw_size, self.size_chosen)

    def _grade(self) -> None:
        self._edit("grade size", sizes.grade_size, self.size_chosen)

    def _nest(self) -> None:
        self._desk.actions_made["draft.show_nest"].toggle()

    def _grading(self, index: int) -> None:
        self._edit("grading", sizes.set_grading, self._piece, self.grading.itemData(index))

    def _cut_as(self, index: int) -> None:
        style, other = self._style, str(self.cut_as.itemData(index))
        if style is None:
            return
        same = {**style.piece(self._piece).cut_as, self.size_chosen: other}
        self._edit("cut as", sizes.set_cut_as, self._piece, {s: o for s, o in same.items() if o})

    def _edit(self, step: str, change, *args: object) -> bool:
        done = self._desk.edit(step, change, *args)
        if not done and self._style is not None:  # what was refused leaves the fields
            style, self._style = self._style, None
            self.show_style(style, self._piece)
        return done


def _button(text: str, pressed) -> QPushButton:
    button = QPushButton(text)
    button.setAutoDefault(False)
    button.clicked.connect(pressed)
    return button
