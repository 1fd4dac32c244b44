"""What is to be laid: pairs per size, cloth, plies' way, and the engine's progress."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.style.model import LayData, Style
from app.style.pieces import used_cloths
from app.window.desks.draft.view_strip import action_button
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField
from app.window.widgets.icons import icon
from app.window.widgets.lengths import Lengths
from nesting.defaults import LAY_SECONDS

translate = QCoreApplication.translate
COLUMNS = 4
SECONDS = LAY_SECONDS.value


class OrderPanel(QWidget):
    """``entered`` carries the fields of the lay that a person changed."""

    entered = Signal(object)
    refused = Signal(str)

    def __init__(
        self,
        lengths: Lengths,
        fill: QAction,
        improve: QAction,
        stop: QAction,
        take: QAction,
        open_order: QAction,
    ) -> None:
        super().__init__()
        self._lengths = lengths
        self._fill, self._improve, self._stop = fill, improve, stop
        self._sizes: tuple[str, ...] = ()
        self._fields: dict[str, NumberField] = {}
        self._lay: LayData | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 10, 12, 8)
        column.setSpacing(7)
        head = QLabel(translate("Lay", "Pairs of each size"))
        head.setProperty("role", "heading")
        column.addWidget(head)
        self._grid = QGridLayout()
        self._grid.setSpacing(5)
        column.addLayout(self._grid)
        self.ordered = QLabel()
        self.ordered.setProperty("role", "soft")
        self.ordered.setWordWrap(True)
        column.addWidget(self.ordered)
        given = QHBoxLayout()
        for action in (take, open_order):
            given.addWidget(action_button(action, words=True))
        given.addStretch(1)
        column.addLayout(given)
        form = QFormLayout()
        form.setHorizontalSpacing(10)
        form.setVerticalSpacing(6)
        self.cloth = Chooser()
        self.cloth.setAccessibleName(translate("Lay", "Cloth"))
        self.cloth.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.cloth.setMinimumContentsLength(8)
        self.cloth.activated.connect(self._cloth)
        form.addRow(translate("Lay", "Cloth"), self.cloth)
        self.mode = Chooser()
        self.mode.addItem(translate("Lay", "glue side up"), "face-up")
        self.mode.addItem(translate("Lay", "face to face"), "face-to-face")
        self.mode.setAccessibleName(translate("Lay", "How the plies lie"))
        self.mode.setToolTip(
            translate(
                "Lay",
                "Glue side up, each ply gives both shoes; face to face, two plies give a left and a right from one shape",
            )
        )
        self.mode.activated.connect(self._mode)
        form.addRow(translate("Lay", "Plies"), self.mode)
        self.gap = LengthField(translate("Lay", "Gap between pieces"), lengths, optional=True)
        self.gap.setToolTip(translate("Lay", "Minimum distance between two pieces; empty: the house rule"))
        self.gap.entered.connect(self._gap)
        self.gap.refused.connect(self.refused)
        form.addRow(translate("Lay", "Gap"), self.gap)
        self.longest = LengthField(translate("Lay", "Maximum length of the lay"), lengths, optional=True)
        self.longest.setToolTip(translate("Lay", "The table’s length; empty is as long as it takes"))
        self.longest.entered.connect(self._longest)
        self.longest.refused.connect(self.refused)
        form.addRow(translate("Lay", "Max. length"), self.longest)
        self.seconds = NumberField(translate("Lay", "Seconds to search"), step=10.0, digits=0)
        self.seconds.set_value(SECONDS)
        form.addRow(translate("Lay", "Seconds"), self.seconds)
        column.addLayout(form)
        row = QHBoxLayout()
        self.fill_button = QPushButton(icon("fill", role="accent_ink"), fill.text())
        self.fill_button.setDefault(True)
        self.fill_button.clicked.connect(fill.trigger)
        self.stop_button = QPushButton(stop.icon(), stop.text())
        self.stop_button.clicked.connect(stop.trigger)
        row.addWidget(self.fill_button)
        row.addWidget(self.stop_button)
        column.addLayout(row)
        self.improve_button = action_button(improve, words=True)
        column.addWidget(self.improve_button)
        self.progress = QProgressBar()
        self.progress.setTextVisible(False)
        self.progress.setFixedHeight(6)
        column.addWidget(self.progress)
        self.told = QLabel()
        self.told.setProperty("role", "soft")
        self.told.setWordWrap(True)
        column.addWidget(self.told)
        self.show_running(False)

    def show_lay(self, style: Style, lay: LayData, order: Mapping[str, int]) -> None:
        """Show what a lay holds, and the order it is a part of."""
        self._lay = lay
        if self._sizes != style.size_run.sizes:
            self._build(style.size_run.sizes)
        for size, field in self._fields.items():
            field.set_value(float(lay.pairs.get(size, 0)))
            field.setToolTip(
                translate("Lay", "{0} pairs of size {1} are ordered").format(order.get(size, 0), size)
            )
        held, ordered = sum(lay.pairs.values()), sum(order.values())
        self.ordered.setText(translate("Lay", "{0} in this lay, {1} ordered").format(held, ordered))
        ids = used_cloths(style)
        names = [style.cloth(cloth).name for cloth in ids]
        if [self.cloth.itemText(i) for i in range(self.cloth.count())] != names:
            self.cloth.clear()
            for cloth, name in zip(ids, names, strict=True):
                self.cloth.addItem(name, cloth)
        self.cloth.setCurrentIndex(max(self.cloth.findData(lay.cloth or style.cloths[0].id), 0))
        self.mode.setCurrentIndex(self.mode.findData(lay.mode))
        self.longest.set_value(lay.max_length_mm)
        self.gap.set_value(lay.gap_mm)
        self.gap.setPlaceholderText(self.gap.to_text(style.rules.gap_mm))

    def show_running(self, running: bool) -> None:
        """The engine began or ended."""
        self.fill_button.setVisible(not running)
        self.stop_button.setVisible(running)
        self.improve_button.setVisible(not running)
        self._fill.setEnabled(not running)
        self._improve.setEnabled(not running)
        self._stop.setEnabled(running)
        self.progress.setVisible(running)

    def show_preparing(self, text: str) -> None:
        """Show that something is worked out whose end is not known ('' = it is there)."""
        self.progress.setMaximum(0 if text else 1000)
        self.progress.setVisible(bool(text))
        self.told.setText(text)

    def show_progress(self, elapsed_s: float, text: str) -> None:
        """Show how far the engine is."""
        whole = self.seconds.value or SECONDS
        self.progress.setMaximum(1000)
        self.progress.setValue(min(int(1000 * elapsed_s / whole), 1000))
        self.told.setText(text)

    def _build(self, sizes: tuple[str, ...]) -> None:
        while self._grid.count():
            taken = self._grid.takeAt(0)
            if taken is not None and (widget := taken.widget()) is not None:
                widget.deleteLater()
        self._sizes, self._fields = sizes, {}
        for number, size in enumerate(sizes):
            row, at = divmod(number, COLUMNS)
            label = QLabel(size)
            label.setProperty("role", "soft")
            field = NumberField(translate("Lay", "Pairs of size {0}").format(size), digits=0)
            field.setObjectName(size)
            field.setMinimumWidth(44)
            field.entered.connect(self._pairs)
            field.refused.connect(self.refused)
            self._grid.addWidget(label, 2 * row, at)
            self._grid.addWidget(field, 2 * row + 1, at)
            self._fields[size] = field

    def _pairs(self, value: object) -> None:
        if self._lay is None or not isinstance(value, float):
            return
        pairs = dict(self._lay.pairs)
        pairs[self.sender().objectName()] = max(int(value), 0)
        self.entered.emit({"pairs": {size: count for size, count in pairs.items() if count}})

    def _cloth(self, index: int) -> None:
        self.entered.emit({"cloth": self.cloth.itemData(index), "placements": ()})

    def _mode(self, index: int) -> None:
        self.entered.emit({"mode": self.mode.itemData(index), "placements": ()})

    def _longest(self, value: object) -> None:
        self.entered.emit({"max_length_mm": value or None})

    def _gap(self, value: object) -> None:
        self.entered.emit({"gap_mm": value})
