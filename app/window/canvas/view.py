"""The drawing board's view: millimetres, y up, zoom to the pointer, pan, grid, pointer in mm."""

from __future__ import annotations

import math

from PySide6.QtCore import QEvent, QLineF, QPoint, QPointF, QRect, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPixmap,
    QPolygonF,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QWidget

from app.tools.pointer import Pointer
from app.window.canvas.pens import thin_pen
from app.window.widgets.theme import theme

UNSEEN_PX_PER_MM = 2.0
"""The zoom of a board that nobody has looked at yet."""

MIN_PX_PER_MM = 0.01
MAX_PX_PER_MM = 400.0
BOARD_MM = 400_000.0
ZOOM_STEP = 1.2
PAN_KEYS = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
"""Held while the left button moves the board, for a mouse without a middle button."""

CROWD = 1500
"""Items in view above which a moving board is shown as a moved picture (painted again it would fall
below some 40 frames a second; see docs/window.md)."""

REPAINT_AFTER_MS = 110


class BoardView(QGraphicsView):
    """A board. Signals carry a ``Pointer``; ``looked`` fires when the visible part changed.

    ``dropped`` carries the name of what was dragged here from a list that offers ``takes_mime``.
    Everything else that is dragged over the board is left to the window (files, say).
    """

    pressed = Signal(object)
    moved = Signal(object)
    released = Signal(object)
    left = Signal()
    looked = Signal()
    context_asked = Signal(object, QPoint)
    dropped = Signal(str, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        scene = QGraphicsScene(self)
        scene.setSceneRect(-BOARD_MM, -BOARD_MM, 2 * BOARD_MM, 2 * BOARD_MM)
        scene.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.BspTreeIndex)
        self.setScene(scene)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontSavePainterState)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.scale(UNSEEN_PX_PER_MM, -UNSEEN_PX_PER_MM)
        self.show_grid = True
        self._pan_from: QPoint | None = None
        self._down = False
        self.takes_mime = ""
        self.item_count = 0  # of the desk's making; counting the scene's own takes too long
        self.crowd = CROWD  # fewer where each takes longer to paint
        self._picture: QPixmap | None = None
        self._pictured_mm = QRectF()
        self._repaint_soon = QTimer(self)
        self._repaint_soon.setSingleShot(True)
        self._repaint_soon.setInterval(REPAINT_AFTER_MS)
        self._repaint_soon.timeout.connect(self._move_on)

    # -- looking ------------------------------------------------------------------------------
    @property
    def px_per_mm(self) -> float:
        """Zoom."""
        return self.transform().m11()

    def visible_mm(self) -> QRectF:
        """The visible part of the board."""
        return self.mapToScene(self.viewport().rect()).boundingRect()

    def to_mm(self, at: QPoint | QPointF) -> QPointF:
        """Return the board point under a viewport point, without rounding to whole pixels."""
        inverse, _ = self.viewportTransform().inverted()
        return inverse.map(QPointF(at))

    def place(self) -> tuple[QTransform, QPointF]:
        """Return what is looked at: the zoom, and the board point in the middle."""
        return self.transform(), self.to_mm(QPointF(self.viewport().rect().center()))

    def look_as(self, place: tuple[QTransform, QPointF]) -> None:
        """Look at the board as at a ``place`` kept before."""
        self.setTransform(place[0])
        self.centerOn(place[1])
        self.looked.emit()

    def zoom_by(self, factor: float, at: QPointF | None = None) -> None:
        """Zoom by ``factor``; the board point under ``at`` (default: the centre) stays put."""
        self._hold_still()
        place = QPointF(self.viewport().rect().center()) if at is None else at
        scale = min(max(self.px_per_mm * factor, MIN_PX_PER_MM), MAX_PX_PER_MM)
        factor = scale / self.px_per_mm
        before = self.to_mm(place)
        self.scale(factor, factor)
        shift = self.to_mm(place) - before
        self.translate(shift.x(), shift.y())
        self.looked.emit()

    def look_at(self, rect_mm: QRectF, margin_px: float = 48.0) -> None:
        """Show ``rect_mm`` whole, with a margin."""
        if rect_mm.isNull():
            return
        room = self.viewport().rect()
        width = max(room.width() - 2 * margin_px, 40.0)
        height = max(room.height() - 2 * margin_px, 40.0)
        scale = min(width / max(rect_mm.width(), 1e-6), height / max(rect_mm.height(), 1e-6))
        scale = min(max(scale, MIN_PX_PER_MM), MAX_PX_PER_MM)
        self.resetTransform()
        self.scale(scale, -scale)
        self.centerOn(rect_mm.center())
        self.looked.emit()

    def look_from_left(self, rect_mm: QRectF, margin_px: float = 48.0) -> None:
        """Show ``rect_mm`` whole with its left end at the left of the view."""
        room = self.viewport().rect()
        ratio = max(room.width() - 2 * margin_px, 40.0) / max(room.height() - 2 * margin_px, 40.0)
        wide = QRectF(rect_mm)
        wide.setWidth(max(rect_mm.width(), rect_mm.height() * ratio))
        self.look_at(wide, margin_px)

    def pan_by(self, dx_px: float, dy_px: float) -> None:
        """Move the board under the window."""
        self._hold_still()
        self.translate(dx_px / self.px_per_mm, -dy_px / self.px_per_mm)
        self.looked.emit()

    # -- a crowded board while it moves ---------------------------------------------------------
    def _hold_still(self) -> None:
        """On a crowded board, take a picture of it that is moved instead of painting it again."""
        if self._picture is None:
            if self.item_count < self.crowd or self._in_view() < self.crowd:
                return
            self._picture = self.viewport().grab()
            self._pictured_mm = QPolygonF(self.mapToScene(self.viewport().rect())).boundingRect()
        self._repaint_soon.start()

    def _in_view(self) -> int:
        by_box = Qt.ItemSelectionMode.IntersectsItemBoundingRect
        return len(self.scene().items(self.visible_mm(), by_box))

    @property
    def holding(self) -> bool:
        """Whether a picture of the board is moved instead of the board."""
        return self._picture is not None

    def _move_on(self) -> None:
        self._picture = None
        self.looked.emit()
        self.viewport().update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._picture is None:
            super().paintEvent(event)
            return
        painter = QPainter(self.viewport())
        painter.fillRect(self.viewport().rect(), theme().colour("canvas"))
        where = self.viewportTransform().mapRect(self._pictured_mm)
        painter.drawPixmap(where, self._picture, QRectF(self._picture.rect()))

    # -- events -------------------------------------------------------------------------------
    def _pointer(self, event: QMouseEvent, *, double: bool = False) -> Pointer:
        at = self.to_mm(event.position())
        keys = event.modifiers()
        return Pointer(
            at.x(),
            at.y(),
            self.px_per_mm,
            shift=bool(keys & Qt.KeyboardModifier.ShiftModifier),
            control=bool(keys & Qt.KeyboardModifier.ControlModifier),
            alt=bool(keys & Qt.KeyboardModifier.AltModifier),
            double=double,
        )

    def mousePressEvent(self, event: QMouseEvent) -> None:
        left = event.button() == Qt.MouseButton.LeftButton
        if event.button() == Qt.MouseButton.MiddleButton or (left and event.modifiers() == PAN_KEYS):
            self._pan_from = event.position().toPoint()
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        elif left:
            self._down = True
            self.pressed.emit(self._pointer(event))
        elif event.button() == Qt.MouseButton.RightButton:
            self.context_asked.emit(self._pointer(event), event.globalPosition().toPoint())
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._down = True
            self.pressed.emit(self._pointer(event, double=True))
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._pan_from is not None:
            here = event.position().toPoint()
            step = here - self._pan_from
            self._pan_from = here
            self.pan_by(step.x(), step.y())
        else:
            self.moved.emit(self._pointer(event))
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._pan_from is not None:
            self._pan_from = None
            self.viewport().setCursor(Qt.CursorShape.ArrowCursor)
        elif event.button() == Qt.MouseButton.LeftButton and self._down:
            self._down = False
            self.released.emit(self._pointer(event))
        event.accept()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        self._take(event)

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        self._take(event)

    def dropEvent(self, event: QDropEvent) -> None:
        if self._take(event):
            at = self.to_mm(event.position())
            name = bytes(event.mimeData().data(self.takes_mime).data()).decode("utf-8")
            self.dropped.emit(name, Pointer(at.x(), at.y(), self.px_per_mm))

    def _take(self, event: QDropEvent) -> bool:
        if self.takes_mime and event.mimeData().hasFormat(self.takes_mime):
            event.acceptProposedAction()
            return True
        event.ignore()
        return False

    def wheelEvent(self, event: QWheelEvent) -> None:
        fine = event.pixelDelta()
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            step = event.angleDelta()
            self.pan_by((step.y() or step.x()) / 2, 0)
        elif not fine.isNull() and event.phase() != Qt.ScrollPhase.NoScrollPhase:
            self.pan_by(fine.x(), fine.y())  # a touch pad: two fingers move the board
        else:
            self.zoom_by(ZOOM_STEP ** (event.angleDelta().y() / 120), event.position())
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.NativeGesture:
            gesture = event.gestureType()  # type: ignore[attr-defined]
            if gesture == Qt.NativeGestureType.ZoomNativeGesture:
                self.zoom_by(1.0 + event.value(), event.position())  # type: ignore[attr-defined]
                return True
        if event.type() == QEvent.Type.Leave:
            self.left.emit()
        return super().viewportEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()  # the desk's keys are actions; arrows must not scroll the board

    def resizeEvent(self, event) -> None:
        super().resizeEvent(event)
        self.looked.emit()

    # -- background ---------------------------------------------------------------------------
    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        rect = QRectF(rect)
        colours = theme()
        painter.fillRect(rect, colours.colour("canvas"))
        if not self.show_grid:
            return
        step = grid_step_mm(self.px_per_mm)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        for role, spacing in (("grid", step), ("grid_strong", step * 5)):
            pen = thin_pen(colours.colour(role), 1)
            painter.setPen(pen)
            low, high = rect.top(), rect.bottom()
            left, right = rect.left(), rect.right()
            across = range(math.floor(left / spacing), math.floor(right / spacing) + 1)
            up = range(math.floor(low / spacing), math.floor(high / spacing) + 1)
            lines = [QLineF(k * spacing, low, k * spacing, high) for k in across]
            lines += [QLineF(left, k * spacing, right, k * spacing) for k in up]
            painter.drawLines(lines)  # one by one they took as long as the pieces
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)


def grid_step_mm(px_per_mm: float, at_least_px: float = 12.0) -> float:
    """Return the finest of 1, 2, 10, 20, 100... mm whose lines stand ``at_least_px`` apart.

    Five steps make a strong line, so that strong lines fall on 5, 10, 50, 100... mm.
    """
    wanted = at_least_px / px_per_mm
    power = 10.0 ** math.floor(math.log10(wanted))
    for factor in (1.0, 2.0, 10.0):
        if power * factor >= wanted:
            return power * factor
    return power * 10.0
