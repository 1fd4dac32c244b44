"""The pointer on the draft board: hands events to the tool in use and carries out its answers."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QObject, QPoint, Qt

from app.tools.board import EdgeName
from app.tools.breaks import BreakTool
from app.tools.draw import DrawTool
from app.tools.hold_line import HoldTool
from app.tools.measure import MeasureTool
from app.tools.outcome import Commit, Dropped, Outcome, Preview, Refused, Select, Sketch, Span, Sweep
from app.tools.pointer import Pointer
from app.tools.select import REACH_PX, SelectTool
from app.tools.shape import ShapeTool
from app.window.canvas.view import BoardView
from app.window.desks.draft.drawing.bar import DrawBar
from app.window.desks.draft.drawing.shape_bar import ShapeBar
from app.window.desks.draft.drawing.sketch import BoardSketch
from app.window.desks.draft.drawing.specs import DRAW_MODES, SHAPE_MODES
from app.window.desks.draft.interface import DraftBench
from app.window.widgets.fields import TextField
from app.window.widgets.theme import theme
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name

translate = QCoreApplication.translate
Tool = SelectTool | BreakTool | HoldTool | MeasureTool | DrawTool | ShapeTool
TOOLS = (
    *("select", "breaks", "hold", "measure"),
    *(f"draw_{mode}" for mode in DRAW_MODES),
    *(f"new_{mode}" for mode in SHAPE_MODES),
)
CURSORS = {
    "axis": Qt.CursorShape.SizeAllCursor,
    "break": Qt.CursorShape.PointingHandCursor,
    "edge": Qt.CursorShape.PointingHandCursor,
}


def snap_word(what: str) -> str:
    """Return the word for what a drawn point lies on."""
    return {
        "corner": translate("Draft", "corner"),
        "middle of edge": translate("Draft", "middle of edge"),
        "point": translate("Draft", "drawn point"),
        "notch": translate("Draft", "notch"),
        "backing": translate("Draft", "backing"),
        "crossing": translate("Draft", "crossing"),
        "line": translate("Draft", "drawn line"),
        "start": translate("Draft", "closes"),
        "edge": translate("Draft", "edge"),
        "pull axis": translate("Draft", "pull axis"),
        "angle": translate("Draft", "whole step"),
    }.get(what, "")


class Gestures(QObject):
    """Holds the tools; ``hover`` is the edge under the pointer, as (piece, edge)."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__(desk)
        self._desk = desk
        self.selecting = SelectTool()
        self.breaking = BreakTool()
        self.holding = HoldTool()
        self.measuring = MeasureTool()
        self.drawing = DrawTool()
        self.bar = DrawBar(desk.session.lengths, self.drawing)
        self.bar.point_typed.connect(self._point_typed)
        self.bar.ended.connect(self.end_line)
        self.bar.refused.connect(desk.status)
        self.shaping = ShapeTool()
        self.shape_bar = ShapeBar(desk.session.lengths, self.shaping)
        self.shape_bar.typed.connect(self._figures_typed)
        self.shape_bar.ended.connect(self.end_line)
        self.shape_bar.refused.connect(desk.status)
        self.tool: Tool = self.selecting
        self.hover: tuple[str, EdgeName] | None = None

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handlers of the tool actions."""
        return {
            "draft.select": self._use_select,
            "draft.breaks": self._use_breaks,
            "draft.hold": self._use_hold,
            "draft.measure": self._use_measure,
            "draft.let_go": self.let_go,
            **{f"draft.draw_{mode}": self._use_drawing for mode in DRAW_MODES},
            **{f"draft.new_{mode}": self._use_shape for mode in SHAPE_MODES},
        }

    def connect_view(self, view: BoardView) -> None:
        """Take the view's pointer events."""
        self._sketch = BoardSketch(view.scene())
        fields = (*self.bar.findChildren(TextField), *self.shape_bar.findChildren(TextField))
        for field in fields:
            field.done.connect(self._back_to_board)
        view.pressed.connect(self._pressed)
        view.moved.connect(self._moved)
        view.released.connect(self._released)
        view.left.connect(self._left_board)
        view.context_asked.connect(self._context)

    # -- which tool -------------------------------------------------------------------------------
    def _use_select(self, on: bool) -> None:
        self._use(self.selecting, "select")

    def _use_breaks(self, on: bool) -> None:
        self._use(self.breaking, "breaks")

    def _use_hold(self, on: bool) -> None:
        self._use(self.holding, "hold")

    def _use_measure(self, on: bool) -> None:
        self._use(self.measuring, "measure")

    def _use_drawing(self, on: bool) -> None:
        mode = self.sender().objectName().removeprefix("draft.draw_")
        self._carry_out(self.drawing.cancel())
        self.drawing.mode = mode  # type: ignore[assignment]
        self._use(self.drawing, f"draw_{mode}")
        self.bar.begin(self.drawing.mode, self._desk.session.style)

    def _use_shape(self, on: bool) -> None:
        mode = self.sender().objectName().removeprefix("draft.new_")
        self._carry_out(self.shaping.cancel())
        self.shaping.mode = mode  # type: ignore[assignment]
        self._use(self.shaping, f"new_{mode}")
        self.shape_bar.begin(mode)

    def end_line(self) -> bool:
        """End the line or shape that is drawn; returns whether one was."""
        tool = self.tool
        if not isinstance(tool, DrawTool | ShapeTool) or not tool.points_mm:
            return False
        self._carry_out(tool.finish())
        return True

    def _figures_typed(self, first_mm: float, second: float) -> None:
        self._carry_out(self.shaping.typed(first_mm, second))
        self._back_to_board()

    def _back_to_board(self) -> None:
        self._desk.view.setFocus()

    def _point_typed(self, length_mm: float, angle_deg: float) -> None:
        self._carry_out(self.drawing.typed(length_mm, angle_deg))
        self._back_to_board()

    def _use(self, tool: Tool, name: str) -> None:
        self.bar.setVisible(tool is self.drawing)
        self.shape_bar.setVisible(tool is self.shaping)
        if tool is not self.tool:
            if self.tool is not self.selecting:
                self._carry_out(self.tool.cancel())
            self.tool = tool
            self.breaking.piece = self.holding.piece = self.drawing.piece = self.selecting.piece
        for other in TOOLS:
            action = self._desk.actions_made[f"draft.{other}"]
            action.blockSignals(True)
            action.setChecked(other == name)
            action.blockSignals(False)
            action.changed.emit()
        plain = name == "select"
        self._desk.view.viewport().setCursor(
            Qt.CursorShape.ArrowCursor if plain else Qt.CursorShape.CrossCursor
        )

    def let_go(self) -> None:
        """Give up the gesture, then the tool, then the selection."""
        self._desk.scene_of.show_rings([], theme().colour("note"))
        if self.tool is not self.selecting:
            self._carry_out(self.tool.cancel())
            self._use(self.selecting, "select")
        else:
            self._carry_out(self.selecting.cancel())

    def take_piece(self, piece: str) -> None:
        """Another piece is selected: what a tool holds in the hand belongs to the piece before."""
        held = self.drawing.piece if self.tool is self.drawing else self.holding.piece
        if piece != held and self.tool is not self.selecting:
            self.abandon()
        self.breaking.piece = self.holding.piece = self.drawing.piece = piece
        if self.tool is self.drawing:
            self.bar.offer_layers(self._desk.session.style, self._desk.piece_data)

    def abandon(self) -> None:
        """End a running gesture without a step: undo was pressed, or another desk comes."""
        self.selecting.abandon()
        self.breaking.cancel()
        self.holding.abandon()
        self.drawing.abandon()
        self.shaping.abandon()
        self._sketch.show(Sketch(()))
        self._desk.scene_of.show_sweep(None)
        self._desk.scene_of.show_span(None, None)
        if self._desk.session.document is not None:
            self._desk.session.document.preview(None)

    # -- events -----------------------------------------------------------------------------------
    def _pressed(self, at: Pointer) -> None:
        document = self._desk.session.document
        if document is None:
            return
        document.seal()
        if not self._desk.on_base and self.tool is not self.measuring:
            self._desk.status.emit(
                translate(
                    "Draft", "Edges, axes and hold lines are marked on the base size; this size follows."
                )
            )
        self._carry_out(self.tool.press(document.style, self._desk.board, at))

    def _context(self, at: Pointer, on_screen: QPoint) -> None:
        """The right button: what is under it is taken unless edges are selected, then the desk's menu."""
        if self.tool is self.selecting and not self.selecting.edges:
            self._pressed(at)
            self._released(at)
        self._desk.show_context(on_screen)

    def _moved(self, at: Pointer) -> None:
        outcomes = self.tool.move(at)
        self._carry_out(outcomes)
        if not outcomes:
            lengths = self._desk.session.lengths
            self._desk.passing.emit(f"x {lengths.text(at.x_mm)}   y {lengths.text(at.y_mm)}")
            self._hover_at(at)

    def _released(self, at: Pointer) -> None:
        self._carry_out(self.tool.release(at))

    def _left_board(self) -> None:
        if self.hover is not None:
            self.hover = None
            self._desk.refresh()

    def _hover_at(self, at: Pointer) -> None:
        if self.tool is self.holding:
            held = self.holding.cursor(self._desk.board, at) in ("from", "to", "line")
            shape = Qt.CursorShape.SizeAllCursor if held else Qt.CursorShape.CrossCursor
            self._desk.view.viewport().setCursor(shape)
        if self.tool is not self.selecting:
            return
        board = self._desk.board
        what = self.selecting.cursor(board, at)
        self._desk.view.viewport().setCursor(CURSORS.get(what, Qt.CursorShape.ArrowCursor))
        edge = what == "edge"
        hit = board.edge_near(at.xy_mm, at.reach_mm(REACH_PX), self.selecting.piece) if edge else None
        hover = None if hit is None else (hit[0].name, hit[1].name)
        if hover != self.hover:
            self.hover = hover
            self._desk.refresh()

    # -- answers ----------------------------------------------------------------------------------
    def _carry_out(self, outcomes: list[Outcome]) -> None:
        desk = self._desk
        document = desk.session.document
        if document is None:
            return
        for outcome in outcomes:
            match outcome:
                case Preview(style) if desk.on_base:
                    document.preview(style)
                case Commit(step, style) if desk.on_base:
                    tool = self.tool
                    piece = (
                        tool.piece
                        if isinstance(tool, BreakTool | HoldTool | DrawTool | ShapeTool)
                        else self.selecting.piece
                    )
                    desk.session.apply(step_name(step, piece), style)
                case Dropped():
                    document.preview(None)
                case Refused(message):
                    desk.status.emit(told_text(message))
                case Select(piece, names):
                    desk.select(piece, names)
                case Sweep(box):
                    desk.scene_of.show_sweep(box)
                case Sketch():
                    self._show_sketch(outcome)
                case Span(a, b):
                    self._show_span(a, b)
                case _:
                    pass

    def _show_span(self, a: tuple[float, float] | None, b: tuple[float, float] | None) -> None:
        scene = self._desk.scene_of
        if a is None or b is None:
            scene.show_span(None, None)
            return
        dx, dy = b[0] - a[0], b[1] - a[1]
        lengths = self._desk.session.lengths
        text = lengths.text((dx * dx + dy * dy) ** 0.5, 2)
        scene.show_span(a, b, text)
        self._desk.status.emit(f"{text}   Δx {lengths.text(dx, 2)}   Δy {lengths.text(dy, 2)}")

    def _show_sketch(self, sketch: Sketch) -> None:
        words = (
            translate("Draft", "click the side that stays") if sketch.asks_side else snap_word(sketch.snap)
        )
        self._sketch.show(sketch, words)
        bar = self.shape_bar if self.tool is self.shaping else self.bar
        bar.show_step(sketch)
