"""The plan in pictures: length and cloth by lay, and the lay that is selected as it lies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.window.theme import theme, ui_font

translate = QCoreApplication.translate


class LayBars(QWidget):
    """A bar a lay: as long as the lay, as thick as its plies; the table's end is marked."""

    def __init__(self) -> None:
        super().__init__()
        self._lays: tuple[Mapping[str, Any], ...] = ()
        self._table_mm = 0.0
        self._marked = -1
        self.setMinimumHeight(120)
        self.setAccessibleName(translate("Cost", "Length and plies of every lay"))

    def show_lays(self, lays: Sequence[Mapping[str, Any]], table_mm: float, marked: int) -> None:
        """Show the lays of a plan."""
        self._lays, self._table_mm, self._marked = tuple(lays), table_mm, marked
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(ui_font(8.5))
        area = QRectF(self.rect()).adjusted(12, 8, -12, -8)
        if not self._lays:
            painter.setPen(theme().colour("ink_faint"))
            hint = translate("Cost", "Plan the run to see its lays")
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter, hint)
            return
        label = 40.0
        full = area.width() - label - 90
        top_mm = max([self._table_mm, *(lay["length_mm"] for lay in self._lays)])
        most = max(lay["plies"] for lay in self._lays)
        step = area.height() / len(self._lays)
        for i, lay in enumerate(self._lays):
            thick = max(4.0, min(step - 6, 34.0) * lay["plies"] / most)
            middle = area.top() + step * (i + 0.5)
            bar = QRectF(area.left() + label, middle - thick / 2, full * lay["length_mm"] / top_mm, thick)
            painter.fillRect(bar, theme().colour("accent" if i == self._marked else "cloth"))
            painter.setPen(theme().colour("ink"))
            line = QRectF(area.left(), middle - 9, label - 8, 18)
            painter.drawText(line, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, lay["name"])
            told = translate("Cost", "{0} m, {1} plies").format(
                f"{lay['length_mm'] / 1000:.2f}", lay["plies"]
            )
            if bar.width() > 180 and thick >= 16:
                painter.setPen(theme().colour("accent_ink" if i == self._marked else "ink"))
                inside = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
                painter.drawText(bar.adjusted(0, 0, -8, 0), inside, told)
            else:
                beside = QRectF(area.left() + label, middle + thick / 2, 220, 16)
                painter.drawText(beside, Qt.AlignmentFlag.AlignVCenter, told)
        if self._table_mm:
            x = area.left() + label + full * self._table_mm / top_mm
            painter.setPen(QPen(theme().colour("ink_soft"), 1, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))


class LayPicture(QWidget):
    """A lay as it lies on the roll, from its lay.json; tinted by hand."""

    def __init__(self) -> None:
        super().__init__()
        self._document: Mapping[str, Any] | None = None
        self._polygons: list[tuple[QPolygonF, bool]] = []
        self.setMinimumHeight(140)
        self.setAccessibleName(translate("Cost", "Picture of the selected lay"))

    def show_document(self, document: Mapping[str, Any] | None) -> None:
        """Show a lay, or nothing."""
        self._document = document
        self._polygons = []
        if document is not None:
            self._polygons = [
                (QPolygonF([QPointF(x, -y) for x, y in at["outline_mm"]]), at["hand"] == "right")
                for at in document["placements"]
            ]
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._document is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        long, wide = self._document["length_mm"], self._document["roll"]["usable_width_mm"]
        room = QRectF(self.rect()).adjusted(12, 6, -12, -6)
        scale = min(room.width() / long, room.height() / wide)
        painter.translate(room.left(), room.top() + wide * scale)
        painter.scale(scale, scale)
        roll = QRectF(0, -wide, long, wide)
        painter.fillRect(roll, theme().colour("field"))
        pen = QPen(theme().colour("cloth_line"), 0)
        painter.setPen(pen)
        for polygon, right in self._polygons:
            painter.setBrush(theme().colour("cloth", 150 if right else 60))
            painter.drawPolygon(polygon)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(theme().colour("ink_soft"), 0))
        painter.drawRect(roll)
