"""A desk about a board: how its view is moved, left and taken up again."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QTimer
from PySide6.QtGui import QTransform
from PySide6.QtWidgets import QWidget

from app.window.canvas.view import UNSEEN_PX_PER_MM, BoardView
from app.window.desks.base import Desk
from app.window.session import Session
from app.window.widgets.fields import TextField

CLOSER, FARTHER = 1.25, 0.8


class BoardDesk(Desk):
    """A desk with a ``view``, drawn by ``refresh``."""

    view: BoardView

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._left_at: tuple[QTransform, QPointF] | None = None

    def refresh(self) -> None:
        """Draw what the session's style says now."""
        raise NotImplementedError

    def fit(self) -> None:
        """Show everything."""
        raise NotImplementedError

    def fit_soon(self) -> None:
        """Show everything once the widgets have their sizes."""
        QTimer.singleShot(0, self.fit)

    def fit_at_first(self) -> None:
        """Show everything where nobody has looked at the board yet."""
        if self.view.px_per_mm == UNSEEN_PX_PER_MM:
            self.fit_soon()

    def look_soon(self, place: tuple[QTransform, QPointF]) -> None:
        """Look at a place that a desk before carried, after the fit that opening or entering asks for."""
        self._left_at = place
        QTimer.singleShot(0, self._look_as_before)

    def looking(self) -> dict[str, Callable[..., object]]:
        """Return what each action that only moves the view does."""
        return {
            f"{self.name}.fit": self.fit,
            f"{self.name}.zoom_in": self._zoom_in,
            f"{self.name}.zoom_out": self._zoom_out,
        }

    def back_from_fields_of(self, panel: QWidget) -> None:
        """Let a text that is entered in one of a panel's fields give the keys back to the board."""
        for field in panel.findChildren(TextField):
            field.done.connect(self._back_to_board)

    def _back_to_board(self) -> None:
        self.view.setFocus()

    def _changed(self) -> None:
        if self.isVisible():
            self.refresh()

    def _look_as_before(self) -> None:
        if self._left_at is not None:
            self.view.look_as(self._left_at)

    def _zoom_in(self) -> None:
        self.view.zoom_by(CLOSER)

    def _zoom_out(self) -> None:
        self.view.zoom_by(FARTHER)
