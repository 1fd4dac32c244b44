"""The start page: go on with recent work, open a sample, or take the five-minute tour."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.style.file import EXTENSION
from app.window.settings import Settings
from app.window.widgets.icons import icon
from app.window.widgets.theme import theme, ui_font

translate = QCoreApplication.translate
SAMPLES = Path(__file__).resolve().parents[3] / "sample_styles"


@dataclass(frozen=True)
class StyleSummary:
    """What a card shows of a style file: enough for a look, without checking the file."""

    path: Path
    name: str
    about: str
    rings_mm: tuple[tuple[tuple[float, float], ...], ...]


def read_card(path: Path) -> StyleSummary | None:
    """Return the card of a style file, or None when it is not one."""
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        base = data["size_run"]["base"]
        rings = tuple(
            tuple((float(x), float(y)) for x, y in piece["drawings"][base]["outline_mm"])
            for piece in data["pieces"]
        )
        return StyleSummary(path, str(data["name"]), str(data.get("description", "")), rings)
    except (OSError, ValueError, KeyError, TypeError):
        return None


def sample_files(folder: Path = SAMPLES) -> list[Path]:
    """The style files of the bundled samples."""
    return sorted(folder.glob(f"*/*{EXTENSION}")) if folder.is_dir() else []


CARD_PX = 184  # a picture, the name, two lines about it


class StyleCard(QAbstractButton):
    """A style as a card: its pieces drawn small, its name, a line about it."""

    def __init__(self, card: StyleSummary) -> None:
        super().__init__()
        self.card = card
        self.setText(card.name)
        self.setAccessibleName(card.name)
        self.setAccessibleDescription(card.about)
        self.setToolTip(f"{card.about}\n{card.path}".strip())
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setMinimumWidth(200)
        self.setFixedHeight(CARD_PX)

    def sizeHint(self) -> QSize:
        return QSize(240, CARD_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        t = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        hot = self.underMouse() or self.hasFocus()
        painter.setPen(QPen(t.colour("accent" if hot else "line"), 1.5 if hot else 1))
        painter.setBrush(t.colour("field"))
        painter.drawRoundedRect(box, 9, 9)
        picture = QRectF(14, 12, self.width() - 28, 104)
        draw_rings(painter, self.card.rings_mm, picture)
        painter.setPen(t.colour("ink"))
        painter.setFont(ui_font(10, bold=True))
        metrics = painter.fontMetrics()
        wide = self.width() - 28
        painter.drawText(14, 138, metrics.elidedText(self.card.name, Qt.TextElideMode.ElideRight, wide))
        painter.setFont(ui_font(8.5))
        painter.setPen(t.colour("ink_soft"))
        about = QRectF(14, 144, wide, self.height() - 150)
        painter.drawText(about, Qt.TextFlag.TextWordWrap, self.card.about)


def draw_rings(painter: QPainter, rings: tuple[tuple[tuple[float, float], ...], ...], box: QRectF) -> None:
    """Draw outlines, y up, as large as fits in ``box``."""
    points = [point for ring in rings for point in ring]
    if not points:
        return
    x0, x1 = min(p[0] for p in points), max(p[0] for p in points)
    y0, y1 = min(p[1] for p in points), max(p[1] for p in points)
    scale = min(box.width() / max(x1 - x0, 1e-6), box.height() / max(y1 - y0, 1e-6))
    t = theme()
    painter.save()
    painter.translate(box.center())
    painter.scale(scale, -scale)
    painter.translate(-(x0 + x1) / 2, -(y0 + y1) / 2)
    pen = QPen(t.colour("leather_line"), 1.1)
    pen.setCosmetic(True)
    painter.setPen(pen)
    painter.setBrush(t.colour("leather", 90))
    from app.window.canvas.paths import polyline_path

    for ring in rings:
        painter.drawPath(polyline_path(ring, closed=True))
    painter.restore()


class StartPage(QScrollArea):
    """Filled by ``refresh``, each time it comes to the front.

    Signals: ``chosen`` a style file, ``sample`` a sample's file; the others ask for a dialog.
    """

    chosen = Signal(object)
    sample = Signal(object)
    open_asked = Signal()
    new_asked = Signal()
    trace_asked = Signal()
    tour_asked = Signal()

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self._settings = settings
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)

    def refresh(self) -> None:
        """Look again at the recent files and the samples."""
        page = QWidget()
        outer = QHBoxLayout(page)
        outer.addStretch(1)
        column = QWidget()
        column.setMaximumWidth(1040)
        column.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        outer.addWidget(column, 8)
        outer.addStretch(1)
        layout = QVBoxLayout(column)
        layout.setContentsMargins(24, 38, 24, 30)
        layout.setSpacing(8)
        head = QLabel(translate("Start", "From the upper's drawing to the cut cloth"))
        head.setFont(ui_font(20, bold=True))
        layout.addWidget(head)
        line = QLabel(
            translate(
                "Start",
                "Mark the edges of the upper pieces, derive their backing, lay it on the roll, cost a pair.",
            )
        )
        line.setProperty("role", "soft")
        line.setFont(ui_font(10.5))
        line.setWordWrap(True)
        layout.addWidget(line)
        layout.addSpacing(12)
        buttons = QHBoxLayout()
        for name, text, signal, main in (
            ("new", translate("Start", "New style from a DXF…"), self.new_asked, True),
            ("trace", translate("Start", "New style from card patterns…"), self.trace_asked, False),
            ("open", translate("Start", "Open a style…"), self.open_asked, False),
            ("tour", translate("Start", "Five-minute tour"), self.tour_asked, False),
        ):
            button = QPushButton(text)
            button.setIcon(icon(name, role="accent_ink" if main else "ink"))
            button.setDefault(main)
            button.setMinimumHeight(30)
            button.clicked.connect(signal)
            buttons.addWidget(button)
        drop = QLabel(translate("Start", "or drop files anywhere in this window"))
        drop.setProperty("role", "soft")
        buttons.addStretch(1)
        layout.addLayout(buttons)
        layout.addWidget(drop)
        layout.addSpacing(18)
        self._section(layout, translate("Start", "Continue with"), self._settings.recent[:6], self._recent)
        self._section(layout, translate("Start", "Sample styles"), sample_files(), self._sample)
        layout.addStretch(1)
        old = self.takeWidget()
        if old is not None:
            old.hide()
            old.deleteLater()  # not at once: a click on one of its own cards may have led here
        self.setWidget(page)

    def _section(self, layout, title: str, files: list[Path], handler) -> None:
        cards = [card for card in map(read_card, files) if card is not None]
        if not cards:
            return
        label = QLabel(title)
        label.setProperty("role", "heading")
        layout.addWidget(label)
        grid = QGridLayout()
        grid.setSpacing(12)
        for index, card in enumerate(cards):
            button = StyleCard(card)
            button.clicked.connect(handler)
            grid.addWidget(button, index // 3, index % 3)
        for column in range(3):
            grid.setColumnStretch(column, 1)
        layout.addLayout(grid)
        layout.addSpacing(16)

    def _recent(self) -> None:
        self.chosen.emit(self.sender().card.path)  # type: ignore[attr-defined]

    def _sample(self) -> None:
        self.sample.emit(self.sender().card.path)  # type: ignore[attr-defined]
