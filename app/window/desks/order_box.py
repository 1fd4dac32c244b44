"""The order of the open style: typed, pasted from a spreadsheet or opened from a file, on any desk."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QAction, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QTableWidgetItem, QVBoxLayout, QWidget

from app.errors import AppError
from app.style.orders import MOST_PAIRS, for_style, kept_order, order_of_text, read_order, with_order
from app.window.desks.draft.view_strip import action_button
from app.window.desks.size_offer import with_sizes_offered
from app.window.session import Session
from app.window.widgets.table import Table
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name
from geometry.errors import GeometryError

translate = QCoreApplication.translate


def shown_order(session: Session) -> dict[str, int]:
    """Return the pairs of every size as the desks show them; nothing while no style is open."""
    style, document = session.style, session.document
    if style is None or document is None:
        return {}
    return kept_order(style, document.source)


def keep_order(session: Session, pairs: dict[str, int]) -> None:
    """Keep an order with the open style, as one step that can be undone; raises OrderError."""
    style = session.style
    if style is not None:
        session.apply(step_name("style order"), with_order(style, pairs), merge="style order")


def keep_asking(session: Session, pairs: dict[str, int], *, source: str = "") -> None:
    """Keep an order; sizes that the style lacks are offered to be added in the same step.

    Raises OrderError when they are not added, GeometryError or EditError when they cannot be.
    """
    style = None if session.document is None else session.document.style
    if style is not None:
        style = with_sizes_offered(style, pairs)
        session.apply(step_name("style order"), with_order(style, for_style(pairs, style, source=source)))


class OrderTable(Table):
    """Pairs by size, to be typed. ``changed`` when a number was; ``pasted`` carries pasted text."""

    changed = Signal()
    pasted = Signal(str)

    def __init__(self) -> None:
        super().__init__(
            [translate("Cost", "Size"), translate("Cost", "Pairs")],
            translate("Cost", "Pairs ordered by size"),
            editable=True,
        )
        self.setToolTip(translate("Order", "Type pairs, or paste sizes and pairs from a spreadsheet"))
        self.itemChanged.connect(self._typed)
        self._pairs: dict[str, int] = {}

    @property
    def pairs(self) -> dict[str, int]:
        """Pairs by size, sizes without pairs left out."""
        return {size: pairs for size, pairs in self._pairs.items() if pairs}

    def show_pairs(self, pairs: dict[str, int]) -> None:
        """Show an order. Cells that stay are not made again: one of them may be the one typed into."""
        if pairs == self._pairs and list(pairs) == list(self._pairs):
            return
        same_sizes = list(pairs) == list(self._pairs)
        self._pairs = dict(pairs)
        self.blockSignals(True)
        if same_sizes:
            for row, count in enumerate(pairs.values()):
                self.cell(row, 1).setText(str(count))
        else:
            self.fill([[size, str(count)] for size, count in pairs.items()])
            self.words_first()
            self.fit(8, yields_to=3)
            self.blockSignals(True)  # filling lets them through again
            for row in range(self.rowCount()):
                self.cell(row, 0).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.blockSignals(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take what is pasted; everything else goes its way."""
        if event.matches(QKeySequence.StandardKey.Paste):
            self.pasted.emit(QGuiApplication.clipboard().text())
        else:
            super().keyPressEvent(event)

    def _typed(self, item: QTableWidgetItem) -> None:
        if item.column() != 1:
            return
        size = list(self._pairs)[item.row()]
        text = item.text().strip() or "0"
        known = self._pairs[size]
        if text.isdecimal() and int(text) <= MOST_PAIRS:
            self._pairs[size] = int(text)
        self.blockSignals(True)
        item.setText(str(self._pairs[size]))
        self.blockSignals(False)
        if self._pairs[size] != known:
            self.changed.emit()


class OrderBox(QWidget):
    """The order with its sum and the button that opens a file; what is changed is a step of the style.

    ``told`` carries a line for the status bar.
    """

    told = Signal(str)

    def __init__(self, session: Session, open_file: QAction) -> None:
        super().__init__()
        self._session = session
        self.table = OrderTable()
        self.table.changed.connect(self._typed)
        self.table.pasted.connect(self._paste)
        self.total = QLabel()
        self.total.setProperty("role", "soft")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(7)
        row = QHBoxLayout()
        head = QLabel(translate("Cost", "Order"))
        head.setProperty("role", "heading")
        row.addWidget(head)
        row.addStretch(1)
        row.addWidget(action_button(open_file))
        column.addLayout(row)
        column.addWidget(self.table)
        column.addWidget(self.total)
        session.opened.connect(self._show)
        session.changed.connect(self._show)
        self._show()

    def ask_file(self) -> None:
        """Ask for an order's file and keep it."""
        path = ask_order_file(self)
        if path is not None:
            self.open_file(path)

    def open_file(self, path: Path) -> None:
        """Keep the order of a file; says what is wrong with it."""
        open_order(self._session, path, self.told.emit)

    def _paste(self, text: str) -> None:
        try:
            keep_asking(self._session, order_of_text(text))
        except (AppError, GeometryError) as error:
            self.told.emit(str(error))

    def _typed(self) -> None:
        self._keep(lambda: self.table.pairs)

    def _keep(self, pairs: Callable[[], dict[str, int]]) -> None:
        try:
            keep_order(self._session, pairs())
        except AppError as error:
            self.told.emit(told_text(str(error)))

    def _show(self) -> None:
        self.table.show_pairs(shown_order(self._session))
        pairs = sum(self.table.pairs.values())
        self.total.setText(translate("Cost", "{0} pairs").format(pairs))


def ask_order_file(parent: QWidget) -> Path | None:
    """Ask for the file of an order."""
    path, _ = QFileDialog.getOpenFileName(
        parent, translate("Cost", "Open an order"), "", translate("Cost", "Orders (*.csv *.xlsx *.txt)")
    )
    return Path(path) if path else None


def open_order(session: Session, path: Path, told: Callable[[str], object]) -> None:
    """Keep the order of a file with the open style; ``told`` is called with what is wrong with it."""
    style = session.style
    if style is None:
        return
    try:
        keep_asking(session, read_order(path), source=str(path))
    except (AppError, GeometryError) as error:
        told(str(error))
