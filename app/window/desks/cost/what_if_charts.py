"""What moves the cost of a pair, drawn: four small charts, the style as it is costed marked in each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme, ui_font

translate = QCoreApplication.translate

LEAST_SPAN = 0.04
"""A chart's scale spans at least this share of its values, so that a tenth of a percent looks small."""


class SensitivityCharts(QWidget):
    """Gap and end loss above on one scale, plies and order below on another."""

    def __init__(self) -> None:
        super().__init__()
        self._told: Mapping[str, Any] | None = None
        self._lengths = Lengths()
        self._hint = ""
        self.setMinimumHeight(280)
        self.setAccessibleName(translate("Cost", "Charts of the sensitivity of the cost per pair"))

    def sizeHint(self) -> QSize:
        return QSize(560, 400)

    def show_tables(self, told: Mapping[str, Any] | None, lengths: Lengths, hint: str) -> None:
        """Show the tables of a sensitivity, or a hint while there are none."""
        self._told, self._lengths, self._hint = told, lengths, hint
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(ui_font(8.5))
        area = QRectF(self.rect()).adjusted(6, 4, -6, -4)
        if self._told is None:
            painter.setPen(theme().colour("ink_faint"))
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self._hint)
            return
        titles = {
            "gap": translate("Cost", "Gap between pieces, {0}").format(self._lengths.unit.value),
            "end_loss": translate("Cost", "End loss at each end of a ply, {0}").format(
                self._lengths.unit.value
            ),
            "plies": translate("Cost", "Plies for the order"),
            "order": translate("Cost", "Pairs ordered"),
        }
        fields = {"gap": "gap_mm", "end_loss": "end_loss_mm", "plies": "plies", "order": "pairs"}
        wide, high = area.width() / 2 - 12, area.height() / 2 - 8
        for line, pair in enumerate((("gap", "end_loss"), ("plies", "order"))):
            values = [value for key in pair for value in self._values(self._told[key])]
            low, top = _span(values)
            for column, key in enumerate(pair):
                at = QRectF(area.left() + column * (wide + 24), area.top() + line * (high + 16), wide, high)
                rows = sorted(self._told[key], key=lambda row, field=fields[key]: row[field])  # type: ignore[misc]
                names = [self._name(fields[key], row[fields[key]]) for row in rows]
                self._chart(painter, at, titles[key], rows, names, (low, top))

    def _name(self, field: str, value: float) -> str:
        """What stands below a point: a length in the unit shown, or a count."""
        return self._lengths.short(value) if field.endswith("_mm") else str(value)

    def _priced(self, rows: Sequence[Mapping[str, Any]]) -> bool:
        return all(row["cost_per_pair"] is not None for row in rows)

    def _values(self, rows: Sequence[Mapping[str, Any]]) -> list[float]:
        if self._priced(rows):
            return [float(row["cost_per_pair"]) for row in rows]
        return [self._lengths.measures.area(row["m2_per_pair"]) for row in rows]

    def _chart(
        self,
        painter: QPainter,
        area: QRectF,
        title: str,
        rows: Sequence[Mapping[str, Any]],
        names: Sequence[str],
        span: tuple[float, float],
    ) -> None:
        painter.setFont(ui_font(9.0, bold=True))
        painter.setPen(theme().colour("ink_soft"))
        painter.drawText(QRectF(area.left(), area.top(), area.width(), 16), Qt.AlignmentFlag.AlignLeft, title)
        painter.setFont(ui_font(8.0))
        plot = area.adjusted(50, 26, -14, -22)
        low, top = span
        values = self._values(rows)
        for k in range(3):
            value = low + (top - low) * k / 2
            y = plot.bottom() - plot.height() * k / 2
            painter.setPen(QPen(theme().colour("line"), 0.8))
            painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
            painter.setPen(theme().colour("ink_soft"))
            box = QRectF(area.left(), y - 8, 44, 16)
            painter.drawText(
                box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, localised(f"{value:.3f}")
            )
        step = plot.width() / max(1, len(rows) - 1)
        points = [
            QPointF(plot.left() + k * step, plot.bottom() - plot.height() * (value - low) / (top - low))
            for k, value in enumerate(values)
        ]
        painter.setPen(QPen(theme().colour("cloth_line"), 1.6))
        painter.drawPolyline(QPolygonF(points))
        for point, row, name in zip(points, rows, names, strict=True):
            own = row["own"]
            painter.setPen(QPen(theme().colour("accent" if own else "cloth_line"), 1.6))
            painter.setBrush(theme().colour("accent" if own else "field"))
            painter.drawEllipse(point, 5.0 if own else 3.4, 5.0 if own else 3.4)
            painter.setPen(theme().colour("ink" if own else "ink_soft"))
            painter.setFont(ui_font(8.0, bold=own))
            below = QRectF(point.x() - 30, plot.bottom() + 5, 60, 15)
            painter.drawText(below, Qt.AlignmentFlag.AlignCenter, name)


def _span(values: Sequence[float]) -> tuple[float, float]:
    """The scale of values: a little room around them, and never so narrow that scatter looks like a jump."""
    low, top = min(values), max(values)
    room = max((top - low) * 0.12, (LEAST_SPAN * top - (top - low)) / 2, 1e-9)
    return max(0.0, low - room), top + room
