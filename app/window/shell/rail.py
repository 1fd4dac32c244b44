"""The rail: the desks as eyelets along a stitched line, in the order of the job."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from app.window.widgets.figures import localised
from app.window.widgets.icons import icon_pixmap
from app.window.widgets.theme import theme, ui_font
from app.window.wording.words import yield_means

STATION_PX = 128
EYELET_PX = 15.0


class Stations(QWidget):
    """The switcher itself. ``chosen`` carries the index of a station; -1 is the start page."""

    chosen = Signal(int)

    def __init__(self, stations: list[tuple[str, str]], keys: list[str], name: str) -> None:
        super().__init__()
        self._stations = stations
        self._keys = keys
        self._current = -1
        self._hover = -1
        self._enabled = False
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(name)

    def sizeHint(self) -> QSize:
        return QSize(STATION_PX * len(self._stations) + 24, 44)

    def set_current(self, index: int) -> None:
        """Mark a station as the one in front."""
        self._current = index
        if index >= 0:
            self.setAccessibleDescription(self._stations[index][1])
        self.update()

    def set_open(self, is_open: bool) -> None:
        """Stations can be chosen only when a style is open."""
        self._enabled = is_open
        self.update()

    def centre_of(self, index: int) -> QPointF:
        """Where the eyelet of a station is."""
        return QPointF(12 + STATION_PX * index + 24, self.height() / 2)

    def _at(self, x: float) -> int:
        index = int((x - 12) // STATION_PX)
        return index if 0 <= index < len(self._stations) else -1

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._hover = self._at(event.position().x())
        self.setToolTip(
            f"{self._stations[self._hover][1]}  ({self._keys[self._hover]})" if self._hover >= 0 else ""
        )
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        self._hover = -1
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        index = self._at(event.position().x())
        if self._enabled and index >= 0 and event.button() == Qt.MouseButton.LeftButton:
            self.chosen.emit(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()), 0)
        if step and self._enabled:
            self.chosen.emit(max(0, min(len(self._stations) - 1, self._current + step)))
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        t = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        y = self.height() / 2
        font = ui_font(10)
        for index, (name, title) in enumerate(self._stations):
            at = self.centre_of(index)
            current = index == self._current
            font.setBold(current)
            painter.setFont(font)
            wide = QFontMetricsF(font).horizontalAdvance(title)
            if index + 1 < len(self._stations):  # the seam to the next station, behind the words
                pen = QPen(t.colour("accent" if index < self._current else "ink_faint"), 1.6)
                pen.setDashPattern([3.0, 2.2])
                pen.setCapStyle(Qt.PenCapStyle.RoundCap)
                painter.setPen(pen)
                painter.drawLine(
                    QPointF(at.x() + EYELET_PX + 8 + wide + 7, y),
                    QPointF(self.centre_of(index + 1).x() - EYELET_PX - 4, y),
                )
            if current:
                painter.setPen(QPen(t.colour("accent"), 1.6))
                painter.setBrush(t.colour("accent"))
            else:
                hot = index == self._hover and self._enabled
                painter.setPen(QPen(t.colour("accent" if hot else "line"), 1.4))
                painter.setBrush(t.colour("field" if self._enabled else "panel"))
            painter.drawEllipse(at, EYELET_PX, EYELET_PX)
            ink = t.accent_ink if current else (t.ink if self._enabled else t.ink_faint)
            accent = t.accent_ink if current else (t.accent if self._enabled else t.ink_faint)
            pixmap = icon_pixmap(name, 19, ink, accent, self.devicePixelRatioF())
            painter.drawPixmap(QPointF(at.x() - 9.5, y - 9.5), pixmap)
            painter.setPen(t.colour("ink" if self._enabled else "ink_faint"))
            box = QRectF(at.x() + EYELET_PX + 7, 0, wide + 8, self.height())
            painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, title)
        if self.hasFocus():
            painter.setPen(QPen(t.colour("accent"), 1, Qt.PenStyle.DotLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(3, 3, -3, -3), 6, 6)


class Facts(QLabel):
    """Figures that give way to the stations in a narrow window; the tip tells them whole."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(theme().colour("ink_soft"))
        shown = painter.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width())
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, shown)


class Rail(QWidget):
    """The style's name, the stations, and at the right the facts of the desk in front."""

    home = Signal()

    def __init__(self, stations: list[tuple[str, str]], keys: list[str], name: str, home_tip: str) -> None:
        super().__init__()
        self.setAutoFillBackground(True)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 0, 14, 0)
        layout.setSpacing(10)
        self._home = QToolButton()
        self._home.setFont(ui_font(12, bold=True))
        self._home.setText("stayply")
        self._home.setToolTip(home_tip)
        self._home.setAccessibleName(home_tip)
        self._home.clicked.connect(self.home)
        self.stations = Stations(stations, keys, name)
        self._style = QLabel()
        self._style.setFont(ui_font(10.5, bold=True))
        self._facts = Facts()
        layout.addWidget(self._home)
        layout.addWidget(self.stations)
        layout.addWidget(self._facts, 1)
        layout.addWidget(self._style)

    def set_style_name(self, name: str, unsaved: bool, unsaved_word: str) -> None:
        """Show the name of the open style, with a mark when it is not saved."""
        self._style.setText(f"{name} •" if unsaved else name)
        self._style.setToolTip(unsaved_word if unsaved else "")

    def set_facts(self, text: str) -> None:
        """Show the front desk's figures."""
        self._facts.setText(localised(text))
        self._facts.setToolTip(f"{localised(text)}\n{yield_means()}" if text else yield_means())

    def paintEvent(self, event: QPaintEvent) -> None:
        t = theme()
        painter = QPainter(self)
        painter.fillRect(self.rect(), t.colour("panel"))
        painter.setPen(QPen(t.colour("line"), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
