"""Card patterns from a picture: how it is measured, the outlines over it, corrections, one length to check."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.errors import AppError
from app.papers.shown import CardSheet
from app.tools.outcome import Refused, Span
from app.tools.pointer import Pointer
from app.tools.trace_hand import Answer, Cards, TraceHand, renamed
from app.window.canvas.view import BoardView
from app.window.problems import show_problem
from app.window.running.trace_run import TraceRun
from app.window.tracing.board import TraceBoard
from app.window.tracing.found_list import FoundList
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.lengths import Lengths
from app.window.wording.cautions import caution_label
from app.window.wording.core_words import told_text
from app.window.wording.words import system_name
from geometry.errors import TraceError
from geometry.paper import PAPER_MM
from geometry.piece import DrawnPiece
from geometry.sizing.sizes import SizeSystem
from geometry.trace.read import Traced
from geometry.trace.sheet import trace_sheet

translate = QCoreApplication.translate
SIDE_PX = 320
USUAL_DPI = 300.0
NOT_ALIKE = 2.0
"""Two ends are uncertain: a length may differ by this many times the uncertainty told before it is wrong."""


class TraceDialog(QDialog):
    """``taken`` are the cards ticked when it ends; ``asks_size``: they become a style of their own."""

    def __init__(self, path: Path, lengths: Lengths, parent: QWidget, *, asks_size: bool) -> None:
        super().__init__(parent)
        self._path, self._lengths = path, lengths
        self._cards: tuple[DrawnPiece, ...] = ()
        self._before: list[tuple[DrawnPiece, ...]] = []
        self._uncertainty_mm = 0.0
        self._hand = TraceHand()
        self.run = TraceRun(self)
        self.run.done.connect(self._traced)
        self.setWindowTitle(translate("Trace", "Card patterns from {0}").format(path.name))
        self.view = BoardView()
        self.view.setAccessibleName(translate("Trace", "Outlines over the picture"))
        self.view.setMinimumSize(320, 300)
        self.board = TraceBoard(self.view.scene())
        self.view.pressed.connect(self._pressed)
        self.view.moved.connect(self._moved)
        self.view.released.connect(self._released)
        self._make_fields(asks_size)
        across = QHBoxLayout()
        across.addWidget(self.view, 1)
        across.addWidget(self._side(asks_size))
        column = QVBoxLayout(self)
        column.addLayout(across, 1)
        column.addWidget(self.told)
        column.addWidget(self.buttons)
        undo = QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), self)
        undo.activated.connect(self.undo)
        room = parent.window().size()
        self.resize(min(1180, room.width() - 24), min(760, room.height() - 24))
        self._show_cards()

    # -- making -----------------------------------------------------------------------------------
    def _make_fields(self, asks_size: bool) -> None:
        self.scale = Chooser()
        self.scale.setAccessibleName(translate("Trace", "How the picture is scaled"))
        for name in PAPER_MM:
            self.scale.addItem(translate("Trace", "photograph on the printed sheet {0}").format(name), name)
        self.scale.addItem(translate("Trace", "scan of known resolution"), "")
        self.scale.setCurrentIndex(self.scale.findData("A3"))
        self.scale.currentIndexChanged.connect(self._scale_chosen)
        self.scale.setMinimumContentsLength(16)
        self.dpi = NumberField(translate("Trace", "Dots per inch"))
        self.dpi.set_value(USUAL_DPI)
        self.dpi.setEnabled(False)
        self.find_button = QPushButton(translate("Trace", "Find the cards"))
        self.find_button.setDefault(True)
        self.find_button.clicked.connect(self.trace)
        self.sure = QLabel()
        self.sure.setWordWrap(True)
        self.list = QListWidget()
        self.list.setAccessibleName(translate("Trace", "Cards found"))
        self.list.setMinimumHeight(80)
        self.list.currentRowChanged.connect(self._show_cards)
        self.list.itemChanged.connect(self._item_changed)
        self.found = FoundList(self._lengths)
        self.found.itemChanged.connect(self._show_cards)
        self.check = QPushButton(translate("Trace", "Click two points"))
        self.check.setCheckable(True)
        self.check.toggled.connect(self._checking)
        self.seen = QLabel("–")
        self.known = LengthField(translate("Trace", "Known length"), self._lengths, optional=True, digits=2)
        self.known.entered.connect(self._show_difference)
        self.differs = QLabel()
        self.differs.setWordWrap(True)
        self.size_field = TextField()
        self.size_field.setText("37")
        self.size_field.setAccessibleName(translate("Trace", "Size of the cards"))
        self.system = Chooser()
        for system in get_args(SizeSystem):
            self.system.addItem(system_name(system), system)
        self.told = QLabel(translate("Trace", "Choose how the picture is scaled, then find the cards."))
        self.told.setWordWrap(True)
        self.buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        self.take = self.buttons.button(QDialogButtonBox.StandardButton.Ok)
        self.take.setText(
            translate("Trace", "Make a style from them")
            if asks_size
            else translate("Trace", "Add to the style")
        )
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

    def _side(self, asks_size: bool) -> QWidget:
        side = QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(6, 0, 6, 0)
        form = QFormLayout()
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        form.addRow(self.scale)
        form.addRow(translate("Trace", "Dots per inch"), self.dpi)
        column.addLayout(form)
        column.addWidget(self.find_button)
        sheet = QPushButton(translate("Trace", "Write the sheet to print…"))
        sheet.clicked.connect(self._write_sheet)
        column.addWidget(sheet)
        column.addWidget(self.sure)
        column.addWidget(self.list, 1)
        column.addWidget(self.found, 1)
        head = QLabel(translate("Trace", "Check one length"))
        head.setProperty("role", "heading")
        column.addWidget(head)
        column.addWidget(self.check)
        lengths = QFormLayout()
        lengths.addRow(translate("Trace", "In the outline"), self.seen)
        lengths.addRow(translate("Trace", "On the card"), self.known)
        column.addLayout(lengths)
        column.addWidget(self.differs)
        if asks_size:
            sizes = QFormLayout()
            sizes.addRow(translate("Trace", "Size of the cards"), self.size_field)
            sizes.addRow(translate("Trace", "Size system"), self.system)
            column.addLayout(sizes)
        column.addWidget(caution_label("trace"))
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(side)
        scroll.setFixedWidth(SIDE_PX)
        return scroll

    # -- finding ----------------------------------------------------------------------------------
    def trace(self) -> None:
        """Find the cards in the picture; the window goes on meanwhile."""
        if self.run.running:
            return
        self.dpi.enter()
        sheet = str(self.scale.currentData())
        self.find_button.setEnabled(False)
        self.told.setText(translate("Trace", "Looking for the cards in {0}…").format(self._path.name))
        self.run.start(
            self._path,
            sheet=sheet,
            dpi=None if sheet else self.dpi.value,
            shown=True,
            called=translate("Trace", "card {0}"),
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter in a field enters its figure: it neither looks for the cards again nor takes them."""
        field = self.focusWidget()
        entered = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if not (entered and isinstance(field, TextField) and field is not self.dpi):
            super().keyPressEvent(event)

    def done(self, result: int) -> None:
        """The dialog ends: so does the tracing."""
        self.run.stop()
        super().done(result)

    def _traced(self, found: Traced | TraceError) -> None:
        self.find_button.setEnabled(True)
        if isinstance(found, TraceError):
            self.told.setText(told_text(str(found)))
            return
        assert found.flat is not None
        self.view.look_at(self.board.show_picture(found.flat), margin_px=8)
        self._uncertainty_mm = found.uncertainty_mm
        figure = self._lengths.text(found.uncertainty_mm, 2)
        if found.scale_from == "markers":
            text = translate("Trace", "Accurate to ± {0} (one standard deviation), from {1} markers.")
            self.sure.setText(text.format(figure, found.markers))
        else:
            text = translate(
                "Trace", "Accurate to ± {0} (one standard deviation), if the resolution is right."
            )
            self.sure.setText(text.format(figure))
        self.told.setText(
            translate(
                "Trace",
                "Drag an outline to where the edge is seen (Alt: one point only), Ctrl+Z takes it back. Double click a name to change it.",
            )
        )
        self._before = []
        self._check_anew()
        self._fill(found.pieces)

    def _fill(self, cards: tuple[DrawnPiece, ...]) -> None:
        self._cards = cards
        self.found.fill(cards)
        self.list.blockSignals(True)
        self.list.clear()
        for card in cards:
            item = QListWidgetItem(card.name)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsEditable)
            item.setCheckState(Qt.CheckState.Checked)
            x0, y0, x1, y1 = card.outline.bbox_mm
            item.setToolTip(f"{self._lengths.number(x1 - x0)} × {self._lengths.text(y1 - y0)}")
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        self.list.blockSignals(False)
        self._show_cards()

    # -- the cards ----------------------------------------------------------------------------------
    @property
    def ticked(self) -> frozenset[int]:
        """The numbers of the cards that are ticked."""
        rows = range(self.list.count())
        return frozenset(k for k in rows if self.list.item(k).checkState() == Qt.CheckState.Checked)

    @property
    def taken(self) -> tuple[DrawnPiece, ...]:
        """The cards that are ticked, as they were corrected."""
        return tuple(card for k, card in enumerate(self.found.kept(self._cards)) if k in self.ticked)

    @property
    def size(self) -> str:  # type: ignore[override]
        """The size typed for a style of their own."""
        return self.size_field.text().strip()

    def undo(self) -> None:
        """Take the last correction back."""
        if self._before:
            self._cards = self._before.pop()
            self._show_cards()

    def _show_cards(self, *_: object) -> None:
        self._draw(self._cards)
        self.take.setEnabled(bool(self.ticked))

    def _draw(self, cards: tuple[DrawnPiece, ...]) -> None:
        self.board.show_cards(self.found.kept(cards), self.ticked, self.list.currentRow())

    def _item_changed(self, item: QListWidgetItem) -> None:
        row, name = self.list.row(item), " ".join(item.text().split())
        if name and name != self._cards[row].name:
            self._cards = renamed(self._cards, row, name)
            self._before = [renamed(cards, row, name) for cards in self._before]
        self._show_cards()

    # -- the pointer --------------------------------------------------------------------------------
    def _pressed(self, at: Pointer) -> None:
        self._carry_out(self._hand.press(self._cards, at))

    def _moved(self, at: Pointer) -> None:
        self._carry_out(self._hand.move(at))

    def _released(self, at: Pointer) -> None:
        self._carry_out(self._hand.release(at))

    def _carry_out(self, answers: list[Answer]) -> None:
        for each in answers:
            match each:
                case Cards(cards, done):
                    if done:
                        self._before.append(self._cards)
                        self._cards = cards
                    self._draw(cards)
                case Span(a, b):
                    self._show_span(a, b)
                case Refused(message):
                    self.told.setText(told_text(message))

    # -- one length -----------------------------------------------------------------------------------
    def _checking(self, on: bool) -> None:
        self._hand.checking = on
        cursor = Qt.CursorShape.CrossCursor if on else Qt.CursorShape.ArrowCursor
        self.view.viewport().setCursor(cursor)
        if not on:
            self._carry_out(self._hand.abandon())

    def _check_anew(self) -> None:
        self.check.setChecked(False)
        self._carry_out(self._hand.abandon())

    def _show_span(self, a: tuple[float, float] | None, b: tuple[float, float] | None) -> None:
        length = self._hand.length_mm
        text = "" if a is None or b is None else self._lengths.text(_apart(a, b), 2)
        self.board.show_span(a, b, text)
        self.seen.setText("–" if length is None else self._lengths.text(length, 2))
        self._show_difference()

    def _show_difference(self) -> None:
        length, known = self._hand.length_mm, self.known.value
        if length is None or not known:
            self.differs.setText("")
            return
        off = length - known
        text = translate("Trace", "Difference {0} ({1})").format(
            f"{'+' if off >= 0 else ''}{self._lengths.text(off, 2)}", self._lengths.percent(off / known)
        )
        if abs(off) <= NOT_ALIKE * self._uncertainty_mm:
            text += ": " + translate("Trace", "within the accuracy of the picture.")
        else:
            why = translate(
                "Trace", "more than the accuracy of the picture. Is the scale right, was the card flat?"
            )
            text += ": " + why
        self.differs.setText(text)

    # -- scale --------------------------------------------------------------------------------------
    def _scale_chosen(self) -> None:
        self.dpi.setEnabled(not self.scale.currentData())

    def _write_sheet(self) -> None:
        name = str(self.scale.currentData() or "A3")
        path, _ = QFileDialog.getSaveFileName(
            self,
            translate("Trace", "Write the sheet to print"),
            f"trace-sheet-{name}.pdf",
            translate("Trace", "PDF (*.pdf)"),
        )
        if not path:
            return
        from app.papers import registry  # and with it what writes papers

        out = Path(path)
        try:
            registry.write(CardSheet(trace_sheet(name), out.name), out.parent)
        except AppError as error:
            show_problem(error, self)
            return
        told = translate("Trace", "{0} is written: print it at 100 % and measure the 100 mm square.")
        self.told.setText(told.format(out.name))


def _apart(a: tuple[float, float], b: tuple[float, float]) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)
