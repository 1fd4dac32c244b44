"""The pieces of the style with thumbnails; what is unconfirmed shows on each."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractListModel,
    QCoreApplication,
    QModelIndex,
    QPersistentModelIndex,
    QRectF,
    QSize,
    QSizeF,
    Qt,
    Signal,
)
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPixmap, QTransform
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from app.window.canvas.paths import outline_path
from app.window.desks.draft.board_scene import Shown
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme, ui_font

translate = QCoreApplication.translate
ROW_PX = 62
LEAST_PX = 100
"""A row is as wide as the list, and no narrower than this."""
PICTURE_SHARE = 0.3
"""Of a narrow row the picture takes this share: names can be read."""
Index = QModelIndex | QPersistentModelIndex


class PieceModel(QAbstractListModel):
    """Rows are ``Shown`` pieces."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self.rows: list[Shown] = []
        self.lengths = lengths

    def set_rows(self, rows: list[Shown]) -> list[int]:
        """Show other pieces; returns the rows to paint again where their names stayed, and the selection.

        A view that is notified of changed data lays out and paints all rows, though each keeps its height.
        """
        names = [row.piece.name for row in rows]
        if names == [row.piece.name for row in self.rows]:
            changed = [k for k, row in enumerate(rows) if not _drawn_alike(self.rows[k], row)]
            for number in changed:
                self.rows[number] = rows[number]
            return changed
        self.beginResetModel()
        self.rows = list(rows)
        self.endResetModel()
        return []

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        shown = self.rows[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return shown.piece.name
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{shown.piece.name}, {about(shown, self.lengths)}"
        return None


def _drawn_alike(a: Shown, b: Shown) -> bool:
    """Whether the very same upper and backings are shown: a row painted again takes as long as the board."""
    same = a.piece.upper is b.piece.upper and len(a.backings) == len(b.backings)
    return same and all(x is y for x, y in zip(a.backings, b.backings, strict=True))


def unconfirmed_count(shown: Shown) -> int:
    """Return how many edges and axes of a piece are still suggestions."""
    edges = sum(not edge.edge.confirmed for edge in shown.piece.edges)
    return edges + (not shown.piece.upper.pull_axis.confirmed)


def about(shown: Shown, lengths: Lengths) -> str:
    """Return the line under a piece's name."""
    if not shown.backings:
        return translate("Draft", "not backed")
    text = f"{lengths.area(sum(b.area_mm2 for b in shown.backings), 0)} {lengths.area_unit}"
    if len(shown.backings) > 1:
        text += " · " + translate("Draft", "{0} layers").format(len(shown.backings))
    parts = sum(len(b.outlines) for b in shown.backings)
    if parts > len(shown.backings):
        text += " · " + translate("Draft", "{0} parts").format(parts)
    return text


class PieceDelegate(QStyledItemDelegate):
    """Paints a row: thumbnail, name, area, and a count of what is to confirm."""

    def __init__(self, parent: QWidget, lengths: Lengths) -> None:
        super().__init__(parent)
        self._lengths = lengths
        self._pictures: dict[str, tuple[Shown, tuple[object, ...], QPixmap]] = {}

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return QSize(LEAST_PX, ROW_PX)

    def _picture(self, shown: Shown, size: QSizeF, ratio: float) -> QPixmap:
        """Return the picture of a piece, drawn when it changed: a list lays out all rows when one does."""
        look = (size.width(), size.height(), ratio, theme().name)
        held = self._pictures.get(shown.piece.name)
        if held is not None and held[1] == look and _drawn_alike(held[0], shown):
            return held[2]
        picture = QPixmap((size * ratio).toSize())
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _thumbnail(painter, shown, QRectF(1, 1, size.width() - 2, size.height() - 2))
        painter.end()
        self._pictures[shown.piece.name] = (shown, look, picture)
        return picture

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        t = theme()
        shown: Shown = index.model().rows[index.row()]  # type: ignore[attr-defined]
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(option.rect).adjusted(3, 2, -3, -2)
        state = option.state
        if state & QStyle.StateFlag.State_Selected:
            painter.setPen(QPen(t.colour("accent"), 1))
            painter.setBrush(t.colour("accent_soft"))
            painter.drawRoundedRect(box, 6, 6)
        elif state & QStyle.StateFlag.State_MouseOver:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(t.colour("panel_deep"))
            painter.drawRoundedRect(box, 6, 6)
        picture = QRectF(
            box.left() + 6, box.top() + 5, min(66.0, PICTURE_SHARE * box.width()), box.height() - 10
        )
        ratio = painter.device().devicePixelRatioF()
        painter.drawPixmap(picture.topLeft(), self._picture(shown, picture.size(), ratio))
        count = unconfirmed_count(shown)
        taken = 40 if count else 14
        words = QRectF(picture.right() + 8, box.top() + 6, box.right() - picture.right() - taken, 20)
        painter.setPen(t.colour("ink"))
        painter.setFont(ui_font(9.5, bold=True))
        name = painter.fontMetrics().elidedText(
            shown.piece.name, Qt.TextElideMode.ElideMiddle, int(words.width())
        )
        painter.drawText(words, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, name)
        painter.setPen(t.colour("ink_soft"))
        painter.setFont(ui_font(8.5))
        told = painter.fontMetrics().elidedText(
            about(shown, self._lengths), Qt.TextElideMode.ElideRight, int(words.width())
        )
        painter.drawText(
            words.translated(0, 20), Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, told
        )
        if count:
            badge = QRectF(box.right() - 28, box.center().y() - 9, 20, 18)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(t.colour("question"))
            painter.drawRoundedRect(badge, 9, 9)
            painter.setPen(t.colour("field"))
            painter.setFont(ui_font(8, bold=True))
            painter.drawText(badge, Qt.AlignmentFlag.AlignCenter, str(count))
        painter.restore()


def _thumbnail(painter: QPainter, shown: Shown, box: QRectF) -> None:
    t = theme()
    x0, y0, x1, y1 = shown.piece.outline.bbox_mm
    scale = min(box.width() / max(x1 - x0, 1e-6), box.height() / max(y1 - y0, 1e-6))
    centre = box.center()
    transform = QTransform(
        scale, 0, 0, -scale, centre.x() - scale * (x0 + x1) / 2, centre.y() + scale * (y0 + y1) / 2
    )
    _shape(
        painter,
        transform.map(outline_path(shown.piece.outline)),
        t.colour("leather_line"),
        t.colour("leather", 90),
    )
    for backing in shown.backings[:1]:
        for outline in backing.outlines:
            _shape(
                painter, transform.map(outline_path(outline)), t.colour("cloth_line"), t.colour("cloth", 150)
            )


def _shape(painter: QPainter, path: QPainterPath, line: QColor, fill: QColor) -> None:
    painter.setPen(QPen(line, 1.0))
    painter.setBrush(QBrush(fill))
    painter.drawPath(path)


class PieceList(QListView):
    """``picked`` carries the name of the piece chosen in the list."""

    picked = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._model = PieceModel(lengths)
        self._model.setParent(self)
        self.setModel(self._model)
        self.setItemDelegate(PieceDelegate(self, lengths))
        self.setMouseTracking(True)
        self.setUniformItemSizes(True)
        self.setFrameShape(QListView.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setAccessibleName(translate("Draft", "Pieces"))
        self.clicked.connect(self._clicked)
        self.activated.connect(self._clicked)
        self.selectionModel().currentChanged.connect(self._current)
        self._quiet = False

    def set_rows(self, rows: list[Shown], selected: str) -> None:
        """Show the pieces and mark the selected one."""
        self._quiet = True
        for number in self._model.set_rows(rows):
            self.update(self._model.index(number))
        names = [row.piece.name for row in rows]
        if selected in names:
            self.setCurrentIndex(self._model.index(names.index(selected)))
        else:
            self.setCurrentIndex(QModelIndex())
            self.clearSelection()
        self._quiet = False

    def _clicked(self, index: QModelIndex) -> None:
        self.picked.emit(str(index.data()))

    def _current(self, index: QModelIndex, before: QModelIndex) -> None:
        if not self._quiet and index.isValid():
            self.picked.emit(str(index.data()))
