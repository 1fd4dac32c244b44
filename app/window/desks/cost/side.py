"""The left side of the cost desk: the order, the cloth, what is to be compared, and for how long."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.cost.compare import style_on_width
from app.defaults.work import COST_SECONDS
from app.style.model import ClothData, Style
from app.window.desks.cost.comparison import Candidate
from app.window.desks.cost.priced_tables import ClothTable, WidthTable
from app.window.desks.order_box import OrderBox
from app.window.session import Session
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import NumberField

translate = QCoreApplication.translate

SECONDS = COST_SECONDS.value
"""Time given to each lay unless another is typed."""


class CostSide(QWidget):
    """Fields and tables only; the desk listens to them."""

    def __init__(self, session: Session, order: QAction, run: Sequence[QAction]) -> None:
        super().__init__()
        self.box = OrderBox(session, order)
        self.order, self.total = self.box.table, self.box.total
        self.cloths = Chooser()
        self.cloths.setAccessibleName(translate("Cost", "Cloth"))
        self.widths = WidthTable(session.lengths)
        self.others = ClothTable()
        self.seconds = NumberField(translate("Cost", "Seconds per lay"), step=5.0, digits=0)
        self.seconds.setToolTip(translate("Cost", "How long to search for each lay"))
        self.seconds.set_value(SECONDS)
        self.seconds.setMaximumWidth(64)
        self._compared = QStackedWidget()
        for table in (self.widths, self.others):
            page = QWidget()
            inside = QVBoxLayout(page)
            inside.setContentsMargins(0, 0, 0, 0)
            inside.addWidget(table)
            inside.addStretch(1)
            self._compared.addWidget(page)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 10, 10, 10)
        column.setSpacing(7)
        column.addWidget(self.box)
        column.addSpacing(6)
        column.addLayout(_head(translate("Cost", "Cloth")))
        column.addWidget(self.cloths)
        column.addWidget(self._compared, 1)
        time = QHBoxLayout()
        time.addWidget(QLabel(translate("Cost", "Seconds per lay")))
        time.addStretch(1)
        time.addWidget(self.seconds)
        column.addLayout(time)
        buttons = QHBoxLayout()
        for action in run:
            buttons.addWidget(ActionPush(action), 1)
        column.addLayout(buttons)

    def show_page(self, page: str) -> None:
        """Show what is to be compared on a page of the results."""
        self._compared.setCurrentIndex(1 if page == "cloths" else 0)

    def carried(self) -> dict[str, Any]:
        """What is typed and ticked here, for a side made again."""
        return {
            "widths": self.widths.carried(),
            "others": self.others.carried(),
            "seconds": self.seconds.value,
        }

    def take_over(self, carried: Mapping[str, Any]) -> None:
        """Take over what was typed and ticked; the tables have it when they are shown next."""
        self.widths.take_over(carried["widths"])
        self.others.take_over(carried["others"])
        self.seconds.set_value(carried["seconds"])

    def let_go(self) -> None:
        """Forget what was typed and ticked for another style."""
        self.widths.let_go()
        self.others.let_go()

    def widths_ticked(self, style: Style, cloth: ClothData) -> list[Candidate]:
        """Return the ticked widths of the cloth, each as what is nested for it."""
        table = self.widths
        return [
            Candidate(key, table.name(width), style_on_width(style, cloth.id, width), width)
            for key, width in ((key, table.width_of(key)) for key in table.ticked_keys)
        ]


class ActionPush(QPushButton):
    """A push button for an action: the work of this desk starts here."""

    def __init__(self, action: QAction, text: str = "") -> None:
        super().__init__(text or action.text())
        self._action = action
        self.setToolTip(action.toolTip())
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.clicked.connect(self._trigger)
        action.changed.connect(self._follow)
        self._follow()

    def _trigger(self) -> None:
        self._action.trigger()

    def _follow(self) -> None:
        self.setEnabled(self._action.isEnabled())


def _head(text: str, *widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    label = QLabel(text)
    label.setProperty("role", "heading")
    row.addWidget(label)
    row.addStretch(1)
    for widget in widgets:
        row.addWidget(widget)
    return row
