"""The question piece by piece: the old outline under the new one, what is carried, accept or not."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.style.model import PieceData, Style
from app.style.pieces import piece_backings
from app.style.revision.revise import MatchedPiece, Revision, revise
from app.window.widgets.chooser import Chooser
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme
from app.window.wording.core_words import told_text
from geometry.dxf.read import ReadDrawing
from geometry.errors import GeometryError

translate = QCoreApplication.translate
MARGIN_PX = 18
Points = tuple[tuple[float, float], ...]


class RevisedDrawing(QDialog):
    """Shows what a revised drawing would change; ``revision`` is what was accepted when it ends."""

    def __init__(
        self, style: Style, drawing: ReadDrawing, file: Path, lengths: Lengths, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._style, self._drawing, self._source, self._lengths = style, drawing, file.name, lengths
        self.setWindowTitle(translate("Revision", "Revised drawing: {0}").format(file.name))
        self.resize(920, 560)
        self.revision = revise(style, drawing, source=self._source)
        self._list = QListWidget()
        self._list.setAccessibleName(translate("Revision", "Pieces of the revised drawing"))
        self._list.setMinimumWidth(380)
        self._list.setWordWrap(True)
        self._list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._picture = _Outlines()
        self._told = QLabel()
        self._told.setWordWrap(True)
        self._names = Chooser()
        self._names.setAccessibleName(translate("Revision", "Names that look swapped"))
        self._names.addItem(translate("Revision", "Names look swapped: choose"), "")
        self._names.addItem(translate("Revision", "The names are right"), "keep")
        self._names.addItem(translate("Revision", "The names were swapped: match by shape"), "swap")
        self._names.setVisible(self.revision.open)
        self._names.currentIndexChanged.connect(self._answered)
        self._buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        self._buttons.button(QDialogButtonBox.StandardButton.Ok).setText(
            translate("Revision", "Update the ticked pieces")
        )
        self._buttons.accepted.connect(self.accept)
        self._buttons.rejected.connect(self.reject)
        self._list.currentRowChanged.connect(self._show)
        across = QHBoxLayout()
        across.addWidget(self._list)
        right = QVBoxLayout()
        right.addWidget(self._picture, 1)
        right.addWidget(self._told)
        across.addLayout(right, 1)
        column = QVBoxLayout(self)
        column.addLayout(across, 1)
        column.addWidget(self._names)
        column.addWidget(self._buttons)
        self._fill()

    def taken(self) -> Revision:
        """Return the revision with the pieces that are ticked; the others stay as they are."""
        refused = [
            str(item.data(Qt.ItemDataRole.UserRole))
            for item in map(self._list.item, range(self._list.count()))
            if item.checkState() != Qt.CheckState.Checked
        ]
        return revise(
            self._style, self._drawing, source=self._source, by_shape=self._by_shape(), refused=refused
        )

    def _by_shape(self) -> tuple[str, ...]:
        if self._names.currentData() != "swap":
            return ()
        first = revise(self._style, self._drawing, source=self._source)
        pairs = [(each.piece, each.other) for each in first.asked if each.code == "NAMES_SWAPPED"]
        return tuple(name for pair in pairs for name in pair)

    def _answered(self) -> None:
        self.revision = revise(self._style, self._drawing, source=self._source, by_shape=self._by_shape())
        self._fill()

    def _fill(self) -> None:
        self._list.clear()
        for matched in self.revision.matched:
            self._add(matched.match.piece, _line(matched, self._lengths))
        for piece in self.revision.added:
            self._add(piece.name, translate("Revision", "{0}: added").format(piece.name))
        for piece in self.revision.removed:
            text = translate("Revision", "{0}: not in the drawing, will be removed").format(piece.name)
            self._add(piece.name, text)
        waits = self.revision.open and not self._names.currentData()
        self._buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(not waits)
        self._list.setCurrentRow(0)

    def _add(self, name: str, text: str) -> None:
        item = QListWidgetItem(text)
        item.setData(Qt.ItemDataRole.UserRole, name)
        item.setToolTip(text)
        item.setCheckState(Qt.CheckState.Checked)
        self._list.addItem(item)

    def _show(self, row: int) -> None:
        if row < 0:
            return
        name = str(self._list.item(row).data(Qt.ItemDataRole.UserRole))
        base = self._style.size_run.base
        matched = next((m for m in self.revision.matched if m.match.piece == name), None)
        lines = [told_text(each.message) for each in self.revision.asked if name in (each.piece, each.other)]
        if matched is not None:
            dx, dy = matched.match.shift_mm
            old = _shifted(matched.before.drawings[base].outline_mm, dx, dy)
            cut = (
                *((_shifted(ring, dx, dy), True) for ring in _backing(self._style, name)),
                *((ring, False) for ring in _backing(self.revision.style, name)),
            )
            new = matched.after.drawings[base].outline_mm
            self._picture.show_outlines(old, new, matched.edges.asked, cut)
        else:
            added = next((p for p in self.revision.added if p.name == name), None)
            gone = next((p for p in self.revision.removed if p.name == name), None)
            self._picture.show_outlines(_ring(gone, base), _ring(added, base), ())
        if self.revision.stale_lays:
            told = translate("Revision", "Lays to be filled again: {0}")
            lines.append(told.format(", ".join(self.revision.stale_lays)))
        self._told.setText("\n".join(lines))


def _ring(piece: PieceData | None, base: str) -> Points:
    return () if piece is None else piece.drawings[base].outline_mm


def _shifted(ring: Points, dx: float, dy: float) -> Points:
    return tuple((x + dx, y + dy) for x, y in ring)


def _backing(style: Style, name: str) -> list[Points]:
    """The backing of a piece in the base size, with all that is drawn on it; none where it cannot be."""
    data = style.piece(name)
    if not data.layers:
        return []
    try:
        layers = piece_backings(style, name, style.size_run.base, data.hand)
    except GeometryError:
        return []
    return [
        tuple((float(x), float(y)) for x, y in ring)
        for layer in layers
        for outline in layer.outlines
        for ring in outline.rings_mm
    ]


def _line(matched: MatchedPiece, lengths: Lengths) -> str:
    match, edges = matched.match, matched.edges
    text = translate("Revision", "{0}: moved by {1}, edges kept: {2}").format(
        match.piece, lengths.text(match.max_move_mm), edges.carried
    )
    if edges.asked:
        text += translate("Revision", ", {0} to confirm").format(len(edges.asked))
    return text


class _Outlines(QWidget):
    """The old outline dashed under the new one; places that are asked about are ringed."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(translate("Revision", "Old outline dashed, new outline solid"))
        self.setMinimumSize(320, 240)
        self._old: Points = ()
        self._new: Points = ()
        self._asked: Points = ()
        self._cut: tuple[tuple[Points, bool], ...] = ()

    def show_outlines(
        self, old: Points, new: Points, asked: Points, cut: tuple[tuple[Points, bool], ...] = ()
    ) -> None:
        """Show two outlines in one frame; ``cut`` are rings of the backing, and whether of the old one."""
        self._old, self._new, self._asked, self._cut = old, new, asked, cut
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        points = [*self._old, *self._new]
        if not points:
            return
        xs, ys = [x for x, _ in points], [y for _, y in points]
        box = QRectF(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
        scale = min(
            (self.width() - 2 * MARGIN_PX) / max(box.width(), 1e-6),
            (self.height() - 2 * MARGIN_PX) / max(box.height(), 1e-6),
        )

        def at(point: tuple[float, float]) -> QPointF:
            return QPointF(
                self.width() / 2 + (point[0] - box.center().x()) * scale,
                self.height() / 2 - (point[1] - box.center().y()) * scale,
            )

        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for ring, before in self._cut:
            dash = Qt.PenStyle.DashLine if before else Qt.PenStyle.SolidLine
            painter.setPen(QPen(theme().colour("cloth_line", 150 if before else 255), 1.0, dash))
            painter.setBrush(Qt.BrushStyle.NoBrush if before else theme().colour("cloth", 90))
            painter.drawPolygon(QPolygonF([at(point) for point in ring]))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for ring, pen in (
            (self._old, QPen(theme().colour("note"), 1.4, Qt.PenStyle.DashLine)),
            (self._new, QPen(theme().colour("ink"), 1.8)),
        ):
            painter.setPen(pen)
            painter.drawPolygon(QPolygonF([at(point) for point in ring]))
        painter.setPen(QPen(theme().colour("warning"), 2.0))
        for point in self._asked:
            painter.drawEllipse(at(point), 6.0, 6.0)
        painter.end()
