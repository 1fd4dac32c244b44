"""Two charts of the cost desk: cost of a pair by roll width, and where the cloth goes."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.cost_compare import ComparedWidth
from app.window.theme import theme, ui_font

translate = QCoreApplication.translate

SHARES: tuple[tuple[str, Qt.BrushStyle], ...] = (
    ("pieces", Qt.BrushStyle.SolidPattern),
    ("between_pieces", Qt.BrushStyle.Dense4Pattern),
    ("selvedge", Qt.BrushStyle.BDiagPattern),
    ("ends_of_plies", Qt.BrushStyle.VerPattern),
    ("ends_of_rolls", Qt.BrushStyle.HorPattern),
    ("rejects", Qt.BrushStyle.CrossPattern),
)
"""Parts of the cloth paid for, each with a hatching of its own so that no colour is needed."""


def share_names() -> dict[str, str]:
    """Return the names of the parts in the current language."""
    return {
        "pieces": translate("Cost", "pieces"),
        "between_pieces": translate("Cost", "between pieces"),
        "selvedge": translate("Cost", "selvedges"),
        "ends_of_plies": translate("Cost", "ends of plies"),
        "ends_of_rolls": translate("Cost", "ends of rolls"),
        "rejects": translate("Cost", "rejects"),
    }


class WidthCharts(QWidget):
    """Bars for every width counted, and below them where its cloth goes."""

    def __init__(self) -> None:
        super().__init__()
        self._results: tuple[tuple[str, ComparedWidth], ...] = ()
        self._currency = ""
        self._marked = ""
        self.setMinimumHeight(220)
        self.setAccessibleName(translate("Cost", "Charts of cost by width and of waste"))

    def sizeHint(self) -> QSize:
        return QSize(600, 260)

    def show_results(self, results: Sequence[tuple[str, ComparedWidth]], currency: str, marked: str) -> None:
        """Show named widths; ``marked`` is the one whose sizes are listed."""
        self._results, self._currency, self._marked = tuple(results), currency, marked
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(ui_font(8.5))
        area = QRectF(self.rect()).adjusted(12, 8, -12, -8)
        if not self._results:
            painter.setPen(theme().colour("ink_faint"))
            hint = translate("Cost", "Compare roll widths to see what a pair costs on each (F9)")
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, hint)
            return
        half = area.width() * 0.46
        self._costs(painter, QRectF(area.left(), area.top(), half, area.height()))
        self._shares(painter, QRectF(area.right() - half, area.top(), half, area.height()))

    def _costs(self, painter: QPainter, area: QRectF) -> None:
        priced = all(result.cost_per_pair is not None for _, result in self._results)
        values = [
            float(result.cost_per_pair or 0) if priced else result.row["m2_per_pair"]
            for _, result in self._results
        ]
        title = (
            translate("Cost", "Cost of a pair, {0}").format(self._currency)
            if priced
            else translate("Cost", "Cloth of a pair, m²")
        )
        area = self._title(painter, area, title)
        best = min(values)
        top = max(values) * 1.15 or 1.0
        step = area.width() / max(4, len(values))
        wide = min(step * 0.6, 54.0)
        base = area.bottom() - 18
        painter.setPen(QPen(theme().colour("line"), 1))
        painter.drawLine(int(area.left()), int(base), int(area.right()), int(base))
        for i, ((name, _), value) in enumerate(zip(self._results, values, strict=True)):
            x = area.left() + step * (i + 0.5)
            high = (base - area.top() - 14) * value / top
            bar = QRectF(x - wide / 2, base - high, wide, high)
            cheapest = value == best
            painter.fillRect(bar, theme().colour("accent" if cheapest else "cloth", 255 if cheapest else 170))
            painter.setPen(theme().colour("ink"))
            number = f"{value:.4f}"
            painter.drawText(
                QRectF(x - step / 2, bar.top() - 16, step, 14), Qt.AlignmentFlag.AlignCenter, number
            )
            painter.setPen(theme().colour("ink" if name == self._marked else "ink_soft"))
            painter.drawText(QRectF(x - step / 2, base + 3, step, 14), Qt.AlignmentFlag.AlignCenter, name)

    def _shares(self, painter: QPainter, area: QRectF) -> None:
        area = self._title(painter, area, translate("Cost", "Where the cloth goes"))
        legend = 34.0
        row = min(30.0, (area.height() - legend) / max(1, len(self._results)))
        label = 64.0
        for i, (name, result) in enumerate(self._results):
            y = area.top() + i * row
            painter.setPen(theme().colour("ink" if name == self._marked else "ink_soft"))
            painter.drawText(
                QRectF(area.left(), y, label - 6, row - 6),
                Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
                name,
            )
            x = area.left() + label
            for key, brush in SHARES:
                wide = (area.width() - label) * result.shares.get(key, 0.0)
                box = QRectF(x, y, wide, row - 6)
                painter.fillRect(box, theme().colour("field"))
                painter.fillRect(box, QBrush(self._colour(key), brush))
                painter.setPen(QPen(theme().colour("line"), 0.7))
                painter.drawRect(box)
                if key == "pieces" and wide > 44:
                    painter.setPen(theme().colour("accent_ink"))
                    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, f"{result.shares[key]:.1%}")
                x += wide
        self._legend(
            painter, QRectF(area.left() + label, area.bottom() - legend, area.width() - label, legend)
        )

    def _legend(self, painter: QPainter, area: QRectF) -> None:
        names = share_names()
        x, y = area.left(), area.top() + 6
        for key, brush in SHARES:
            wide = painter.fontMetrics().horizontalAdvance(names[key]) + 28
            if x + wide > area.right() and x > area.left():
                x, y = area.left(), y + 15
            painter.fillRect(QRectF(x, y, 12, 10), QBrush(self._colour(key), brush))
            painter.setPen(QPen(theme().colour("line"), 0.7))
            painter.drawRect(QRectF(x, y, 12, 10))
            painter.setPen(theme().colour("ink_soft"))
            painter.drawText(QRectF(x + 16, y - 3, wide, 16), Qt.AlignmentFlag.AlignVCenter, names[key])
            x += wide

    @staticmethod
    def _colour(key: str) -> QColor:
        return theme().colour("accent" if key == "pieces" else "ink_soft")

    @staticmethod
    def _title(painter: QPainter, area: QRectF, text: str) -> QRectF:
        painter.setFont(ui_font(9.0, bold=True))
        painter.setPen(theme().colour("ink_soft"))
        painter.drawText(QRectF(area.left(), area.top(), area.width(), 18), Qt.AlignmentFlag.AlignLeft, text)
        painter.setFont(ui_font(8.5))
        return area.adjusted(0, 22, 0, 0)
