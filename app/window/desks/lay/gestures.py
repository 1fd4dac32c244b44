"""The pointer on the roll: what the hands answer is shown, and committed when they let go."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QObject, QPoint

from app.tools.lay_hands import Answer, Dragging, Picked, PiecesMoved, PutDown, SweepBox
from app.tools.lay_table import Clash
from app.tools.pointer import Pointer
from app.window.canvas.view import BoardView
from app.window.desks.lay.interface import LayBench
from app.window.desks.lay.lay_scene import clashing

translate = QCoreApplication.translate


class LayGestures(QObject):
    """Carries gestures between the view and ``LayHands``; holds nothing but its desk."""

    def __init__(self, desk: LayBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def connect_view(self, view: BoardView) -> None:
        """Listen to a view."""
        view.pressed.connect(self._pressed)
        view.moved.connect(self._moved)
        view.released.connect(self._released)
        view.dropped.connect(self._dropped)
        view.context_asked.connect(self._context)

    def let_go(self) -> None:
        """Give up the drag, or select nothing."""
        self._carry_out(self._desk.hands.cancel())

    def abandon(self) -> None:
        """Give up a drag that is under way; the selection stays."""
        if self._desk.hands.busy:
            self.let_go()

    def _pressed(self, at: Pointer) -> None:
        desk = self._desk
        if desk.table is not None and not desk.run.running:
            self._carry_out(desk.hands.press(desk.table, at))

    def _moved(self, at: Pointer) -> None:
        answers = self._desk.hands.move(at)
        self._carry_out(answers)
        if not answers:
            lengths = self._desk.session.lengths
            self._desk.passing.emit(f"x {lengths.text(at.x_mm)}   y {lengths.text(at.y_mm)}")

    def _released(self, at: Pointer) -> None:
        self._carry_out(self._desk.hands.release(at))

    def _dropped(self, item_id: str, at: Pointer) -> None:
        """A piece dragged from the side table was let go here."""
        self._desk.moves.put_back(item_id, at.xy_mm)
        self._desk.view.setFocus()

    def _context(self, at: Pointer, on_screen: QPoint) -> None:
        """The right button: the piece under it is taken, then the desk's menu."""
        desk = self._desk
        if desk.table is not None and not desk.run.running:
            hit = desk.table.at(at.xy_mm)
            if hit >= 0 and hit not in desk.hands.chosen:
                desk.hands.chosen = frozenset({hit})
                desk.refresh()
        desk.show_context(on_screen)

    def _carry_out(self, answers: list[Answer]) -> None:
        desk = self._desk
        for answer in answers:
            match answer:
                case Picked():
                    desk.refresh()
                case Dragging(dx, dy, clashes):
                    assert desk.table is not None
                    desk.scene_of.drag(desk.table, desk.hands.loose(desk.table), dx, dy, clashing(clashes))
                    desk.passing.emit(self._clash_text(clashes))
                case PiecesMoved(placements):
                    desk.scene_of.end_drag()
                    desk.put("move pieces", placements)
                    desk.refresh()
                case PutDown():
                    desk.scene_of.end_drag()
                    desk.refresh()
                case SweepBox(box):
                    desk.scene_of.show_sweep(box)

    def _clash_text(self, clashes: tuple[Clash, ...]) -> str:
        worst = max(clashes, key=lambda c: (c.overlap, c.amount_mm), default=None)
        if worst is None:
            return translate("Lay", "Fits here")
        text = translate("Lay", "Overlaps by {0}") if worst.overlap else translate("Lay", "Too close by {0}")
        return text.format(self._desk.session.lengths.text(worst.amount_mm, 2))
