"""Two charts of the cost desk: cost of a pair by roll width or cloth, and where the cloth goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from app.cost.compare import ComparedWidth
from app.measures import METRIC, Measures
from app.window.widgets.figures import localised
from app.window.widgets.theme import theme, ui_font
from geometry.said import percent

translate = QCoreApplication.translate

SHARES: tuple[tuple[str, Qt.BrushStyle], ...] = (
    ("pieces", Qt.BrushStyle.SolidPattern),
    ("between_pieces", Qt.BrushStyle.Dense4Pattern),
    ("selvedge", Qt.BrushStyle.BDiagPattern),
    ("ends_of_plies", Qt.BrushStyle.VerPattern),
    ("ends_of_rolls", Qt.BrushStyle.HorPattern),
    ("splices", Qt.BrushStyle.FDiagPattern),
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
        "splices": translate("Cost", "splices"),
        "rejects": translate("Cost", "rejects"),
    }


@dataclass(frozen=True)
class Bar:
    """One width or cloth in the charts; ``note`` is said of it in place of what it costs more (say, of
    the hold), and it ``fails`` when its backing breaks a limit. Only the ``eligible`` are cheapest;
    one that ``holds`` is called so."""

    name: str
    result: ComparedWidth
    note: str = ""
    fails: bool = False
    eligible: bool = True
    holds: bool = False


class CostCharts(QWidget):
    """Bars for every width or cloth counted, and beside them where its cloth goes."""

    def __init__(self, hint: str) -> None:
        super().__init__()
        self._bars: tuple[Bar, ...] = ()
        self._currency = ""
        self._marked = ""
        self._hint = hint
        self._running = False
        self._measures = METRIC
        self.setMinimumHeight(190)
        self.setAccessibleName(translate("Cost", "Charts of cost and of where the cloth goes"))

    def sizeHint(self) -> QSize:
        return QSize(600, 260)

    def show_bars(
        self, bars: Sequence[Bar], currency: str, marked: str, measures: Measures, *, running: bool
    ) -> None:
        """Show what is counted; ``marked`` is the one whose sizes are listed. Money is shown where
        all are priced in one ``currency``, else cloth."""
        self._running = running
        self._bars, self._currency, self._marked = tuple(bars), currency, marked
        self._measures = measures
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(ui_font(8.5))
        area = QRectF(self.rect()).adjusted(4, 4, -4, -4)
        if not self._bars:
            painter.setPen(theme().colour("ink_faint"))
            hint = (
                translate("Cost", "Nesting several lays, one after another") if self._running else self._hint
            )
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, hint)
            return
        half = area.width() * 0.47
        self._costs(painter, QRectF(area.left(), area.top(), half, area.height()))
        self._shares(painter, QRectF(area.right() - half, area.top(), half, area.height()))

    def _costs(self, painter: QPainter, area: QRectF) -> None:
        priced = bool(self._currency) and all(bar.result.cost_per_pair is not None for bar in self._bars)
        values = [
            float(bar.result.cost_per_pair or 0)
            if priced
            else self._measures.area(bar.result.row["m2_per_pair"])
            for bar in self._bars
        ]
        title = (
            translate("Cost", "Cost of a pair, {0}").format(self._currency)
            if priced
            else translate("Cost", "Cloth of a pair, {0}").format(self._measures.area_sign)
        )
        area = self._title(painter, area, title)
        eligible = [value for bar, value in zip(self._bars, values, strict=True) if bar.eligible]
        best = min(eligible or values)
        top = max(values) * 1.02 or 1.0
        step = area.width() / max(3, len(values))
        wide = min(step * 0.62, 64.0)
        base = area.bottom() - 20
        painter.setPen(QPen(theme().colour("line"), 1))
        painter.drawLine(int(area.left()), int(base), int(area.right()), int(base))
        for i, (bar, value) in enumerate(zip(self._bars, values, strict=True)):
            x = area.left() + step * (i + 0.5)
            high = max(1.0, (base - area.top() - 32) * value / top)
            box = QRectF(x - wide / 2, base - high, wide, high)
            cheapest = value == best and bar.eligible
            self._bar(painter, box, best=cheapest, fails=bar.fails)
            painter.setPen(theme().colour("ink"))
            over = QRectF(x - step / 2, box.top() - 31, step, 15)
            painter.drawText(over, Qt.AlignmentFlag.AlignCenter, localised(f"{value:.4f}"))
            painter.setPen(theme().colour("error" if bar.fails else "ink_soft"))
            told = bar.note or localised(percent(value / best - 1, sign=True))
            if cheapest:
                holds = translate("Cost", "cheapest that holds")
                told = holds if bar.holds else translate("Cost", "cheapest")
            told = painter.fontMetrics().elidedText(told, Qt.TextElideMode.ElideRight, int(step - 6))
            painter.drawText(over.translated(0, 14), Qt.AlignmentFlag.AlignCenter, told)
            painter.setPen(theme().colour("ink" if bar.name == self._marked else "ink_soft"))
            name = painter.fontMetrics().elidedText(bar.name, Qt.TextElideMode.ElideRight, int(step - 8))
            painter.drawText(QRectF(x - step / 2, base + 4, step, 15), Qt.AlignmentFlag.AlignCenter, name)

    @staticmethod
    def _bar(painter: QPainter, box: QRectF, *, best: bool, fails: bool) -> None:
        if fails:
            painter.fillRect(box, QBrush(theme().colour("ink_faint"), Qt.BrushStyle.BDiagPattern))
            painter.setPen(QPen(theme().colour("ink_faint"), 1))
            painter.drawRect(box)
            return
        painter.fillRect(box, theme().colour("accent" if best else "cloth", 255 if best else 170))

    def _shares(self, painter: QPainter, area: QRectF) -> None:
        area = self._title(painter, area, translate("Cost", "Where the cloth goes"))
        metrics = painter.fontMetrics()
        longest = max(metrics.horizontalAdvance(bar.name) for bar in self._bars)
        label = min(longest + 10.0, area.width() * 0.34)
        shown = [part for part in SHARES if any(bar.result.shares.get(part[0]) for bar in self._bars)]
        legend = 40.0
        row = min(28.0, (area.height() - legend) / len(self._bars))
        for i, bar in enumerate(self._bars):
            y = area.top() + i * row
            painter.setPen(theme().colour("ink" if bar.name == self._marked else "ink_soft"))
            name = metrics.elidedText(bar.name, Qt.TextElideMode.ElideRight, int(label - 8))
            painter.drawText(
                QRectF(area.left(), y, label - 8, row - 5),
                Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
                name,
            )
            x = area.left() + label
            for key, brush in shown:
                wide = (area.width() - label) * bar.result.shares.get(key, 0.0)
                box = QRectF(x, y, wide, row - 5)
                painter.fillRect(box, theme().colour("field"))
                painter.fillRect(box, QBrush(self._colour(key), brush))
                painter.setPen(QPen(theme().colour("line"), 0.7))
                painter.drawRect(box)
                if key == "pieces" and wide > 44:
                    painter.setPen(theme().colour("accent_ink"))
                    painter.drawText(
                        box, Qt.AlignmentFlag.AlignCenter, localised(percent(bar.result.shares[key]))
                    )
                x += wide
        y = area.top() + len(self._bars) * row
        self._legend(painter, QRectF(area.left() + label, y, area.width() - label, legend), shown)

    def _legend(self, painter: QPainter, area: QRectF, shown: Sequence[tuple[str, Qt.BrushStyle]]) -> None:
        names = share_names()
        x, y = area.left(), area.top() + 6
        for key, brush in shown:
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
