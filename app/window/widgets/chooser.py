"""A box to choose from that shows as much of a long name as goes in: both its ends, and all of it as a tip."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QHelpEvent, QPaintEvent
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox, QStylePainter, QToolTip

ROOM_PX = 28
"""Of the width, for arrow, border and padding as the theme has them."""


class Chooser(QComboBox):
    """A ``QComboBox`` whose text is never cut off in the middle of a letter."""

    def _option(self) -> QStyleOptionComboBox:
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        option.currentText = self.fontMetrics().elidedText(
            self.currentText(), Qt.TextElideMode.ElideMiddle, self.width() - ROOM_PX
        )
        return option

    @property
    def shown_text(self) -> str:
        """What of the text is shown."""
        return str(self._option().currentText)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QStylePainter(self)
        option = self._option()
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and self.shown_text != self.currentText():
            tip = "\n".join(filter(None, [self.currentText(), self.toolTip()]))
            QToolTip.showText(event.globalPos(), tip, self)
            return True
        return super().event(event)
