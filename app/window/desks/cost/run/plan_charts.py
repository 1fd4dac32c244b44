"""The plan in pictures: lays as bars to take hold of, where the cloth goes, the lay selected as it lies."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.window.desks.cost.charts import SHARES, share_names
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme, ui_font
from geometry.said import percent

translate = QCoreApplication.translate


PULL_PX = 6.0
"""A bar is pulled so far for a ply more or less."""


def lay_name(lay: Mapping[str, Any], lays: Sequence[Mapping[str, Any]]) -> str:
    """Return a lay's name, with its cloth where the plan has several."""
    several = len({each["cloth"] for each in lays}) > 1
    return f"{lay['cloth']} {lay['name']}" if several else str(lay["name"])


class LayBars(QWidget):
    """A bar per lay: as long as the lay, as thick as its plies; the table's end is marked.

    A bar is clicked to see its lay, and pulled down or up for more or fewer plies: ``pulled`` then
    carries its row and plies. Face to face they change by two.
    """

    chosen = Signal(int)
    pulled = Signal(int, int)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._lays: tuple[Mapping[str, Any], ...] = ()
        self._table_mm = 0.0
        self._marked = -1
        self._most_plies = 0
        self._held: tuple[int, float] | None = None
        self._plies: int | None = None
        self.setMinimumHeight(120)
        self.setMouseTracking(True)
        self.setAccessibleName(translate("Cost", "Length and plies of every lay"))
        self.setToolTip(
            translate("Cost", "Drag a bar down or up for more or fewer plies; its lay is then kept")
        )

    def show_lays(
        self, lays: Sequence[Mapping[str, Any]], table_mm: float, marked: int, most_plies: int = 0
    ) -> None:
        """Show the lays of a plan; no bar is pulled beyond ``most_plies`` (0: no limit)."""
        self._lays, self._table_mm, self._marked = tuple(lays), table_mm, marked
        self._most_plies = most_plies
        self._held = self._plies = None
        self.update()

    def row_at(self, y: float) -> int | None:
        """Return the lay at a height of the widget."""
        area = self._area()
        if not self._lays or not area.top() <= y < area.bottom():
            return None
        return int((y - area.top()) / (area.height() / len(self._lays)))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self.row_at(event.position().y())
        if row is not None and event.button() == Qt.MouseButton.LeftButton:
            self.chosen.emit(row)
            self._held = (row, event.position().y())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held is None:
            over = self.row_at(event.position().y()) is not None
            self.setCursor(Qt.CursorShape.SizeVerCursor if over else Qt.CursorShape.ArrowCursor)
            return
        row, from_y = self._held
        lay = self._lays[row]
        step = 2 if lay["mode"] == "face-to-face" else 1
        plies = lay["plies"] + step * round((event.position().y() - from_y) / (PULL_PX * step))
        most = self._most_plies - self._most_plies % step if self._most_plies else plies
        self._plies = max(step, min(plies, max(most, lay["plies"])))
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        held, plies = self._held, self._plies
        self._held = self._plies = None
        if held is not None and plies is not None and plies != self._lays[held[0]]["plies"]:
            self.pulled.emit(held[0], plies)
        self.update()

    def _area(self) -> QRectF:
        return QRectF(self.rect()).adjusted(12, 8, -12, -8)

    def _shown_plies(self, row: int) -> int:
        if self._held is not None and self._held[0] == row and self._plies is not None:
            return self._plies
        return int(self._lays[row]["plies"])

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(ui_font(8.5))
        area = self._area()
        if not self._lays:
            painter.setPen(theme().colour("ink_faint"))
            hint = translate("Cost", "Plan the run to see its lays")
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter, hint)
            return
        names = [lay_name(lay, self._lays) for lay in self._lays]
        label = max(40.0, max(painter.fontMetrics().horizontalAdvance(name) for name in names) + 10.0)
        full = area.width() - label - 90
        top_mm = max([self._table_mm, *(lay["length_mm"] for lay in self._lays)])
        most = max(self._shown_plies(row) for row in range(len(self._lays)))
        step = area.height() / len(self._lays)
        for i, lay in enumerate(self._lays):
            plies = self._shown_plies(i)
            thick = max(4.0, min(step - 6, 34.0) * plies / most)
            middle = area.top() + step * (i + 0.5)
            bar = QRectF(area.left() + label, middle - thick / 2, full * lay["length_mm"] / top_mm, thick)
            painter.fillRect(bar, theme().colour("accent" if i == self._marked else "cloth"))
            painter.setPen(theme().colour("ink"))
            line = QRectF(area.left(), middle - 9, label - 8, 18)
            painter.drawText(line, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, names[i])
            told = translate("Cost", "{0}, 1 ply") if plies == 1 else translate("Cost", "{0}, {1} plies")
            told = told.format(self._lengths.roll_text(lay["length_mm"]), plies)
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


class ClothBars(QWidget):
    """A bar per cloth of the plan: what becomes pieces, what is lost and where."""

    def __init__(self) -> None:
        super().__init__()
        self._shares: Mapping[str, Mapping[str, float]] = {}
        self.setFixedHeight(0)
        self.setAccessibleName(translate("Cost", "Where the cloth goes"))

    def show_shares(self, shares: Mapping[str, Mapping[str, float]]) -> None:
        """Show the shares of every cloth, by the parts' names; each cloth's add up to 1."""
        self._shares = shares
        self.setFixedHeight(22 * len(shares) + 26 if shares else 0)
        names = share_names()
        told = [
            ", ".join(f"{names[key]} {localised(percent(share))}" for key, share in parts.items())
            for parts in shares.values()
        ]
        self.setToolTip("\n".join(told))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setFont(ui_font(8.5))
        metrics = painter.fontMetrics()
        area = QRectF(self.rect()).adjusted(12, 2, -12, 0)
        label = max((metrics.horizontalAdvance(name) for name in self._shares), default=0) + 10.0
        for i, (name, parts) in enumerate(self._shares.items()):
            y = area.top() + 22 * i
            painter.setPen(theme().colour("ink"))
            middle = Qt.AlignmentFlag.AlignVCenter
            painter.drawText(QRectF(area.left(), y, label, 17), middle, name)
            x = area.left() + label
            for key, brush in SHARES:
                box = QRectF(x, y, (area.width() - label) * parts.get(key, 0.0), 17)
                if box.width() <= 0.0:
                    continue
                painter.fillRect(box, theme().colour("field"))
                painter.fillRect(box, QBrush(_share_colour(key), brush))
                painter.setPen(QPen(theme().colour("line"), 0.7))
                painter.drawRect(box)
                if key == "pieces":
                    painter.setPen(theme().colour("accent_ink"))
                    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, localised(percent(parts[key])))
                x = box.right()
        x, y = area.left() + label, area.top() + 22 * len(self._shares) + 3
        names = share_names()
        for key, brush in SHARES:
            if any(parts.get(key) for parts in self._shares.values()):
                painter.fillRect(QRectF(x, y, 12, 10), QBrush(_share_colour(key), brush))
                painter.setPen(theme().colour("ink_soft"))
                wide = metrics.horizontalAdvance(names[key])
                painter.drawText(
                    QRectF(x + 16, y - 3, wide + 2, 16), Qt.AlignmentFlag.AlignVCenter, names[key]
                )
                x += wide + 30


def _share_colour(key: str) -> QColor:
    return theme().colour("accent" if key == "pieces" else "ink_soft")


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
