"""The draft desk: board, pieces, inspector and findings over the open style."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication, Qt, QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.errors import AppError
from app.style import pieces as style_pieces
from app.style.model import PieceData, Style
from app.style.whole.seams import seam_findings
from app.tools.board import Board, BoardEdge, EdgeName, spread_offsets
from app.window.canvas.rulers import RuledBoard
from app.window.canvas.view import BoardView
from app.window.desks.draft.board_hold import hold_mark
from app.window.desks.draft.board_scene import CROWD, BoardScene, Layers, Shown
from app.window.desks.draft.draft_actions import DRAFT
from app.window.desks.draft.draft_out import DraftOut
from app.window.desks.draft.drawing.figures import DrawActions
from app.window.desks.draft.edit_actions import EditActions
from app.window.desks.draft.findings_list import FindingsList
from app.window.desks.draft.gestures import Gestures
from app.window.desks.draft.inspector import Inspector
from app.window.desks.draft.interface import DraftBench
from app.window.desks.draft.on_board import OnBoard
from app.window.desks.draft.piece_list import PieceList
from app.window.desks.draft.step_offer import StepOffer
from app.window.desks.draft.view_strip import ViewStrip
from app.window.desks.draft.whole.nest import NO_NEST, nest_of
from app.window.desks.draft.whole.piece_edits import PieceEdits
from app.window.desks.draft.whole.side import DraftSide
from app.window.desks.draft.whole.size_on_board import SizeOnBoard
from app.window.desks.draft.whole.specs import PAGES, WHOLE
from app.window.printing.offer import Offer
from app.window.running.hold_judge import judge_of
from app.window.session import Session
from app.window.widgets.theme import theme
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name
from geometry.errors import GeometryError
from geometry.findings import Finding, Severity

translate = QCoreApplication.translate
FINDINGS_AFTER_MS = 250

NAMES_PX = 150
"""So narrow may the list of pieces become: picture and name can still be read."""


class DraftDesk(DraftBench):
    """The pattern maker's view of the style."""

    name = "draft"

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.gestures = Gestures(self)
        self.selecting = self.gestures.selecting
        self._offsets: dict[str, tuple[float, float]] = {}
        self._spread: list[object] = []
        self._on_board = OnBoard()
        self._found: list[Finding] = []
        self._still = True
        self._taking_over = False
        self.size_on_board = SizeOnBoard(self, self.refresh, self.status.emit)
        self.judge = judge_of(session)
        self.judge.judged.connect(self._judged)
        self._findings_due = QTimer(self)
        self._findings_due.setSingleShot(True)
        self._findings_due.setInterval(FINDINGS_AFTER_MS)
        self._findings_due.timeout.connect(self._find)
        self.edits = EditActions(self)
        self.whole = PieceEdits(self)
        self.end_line = self.gestures.end_line  # type: ignore[method-assign]
        self.drawing = DrawActions(self)
        self.out = DraftOut(self)
        self._make_actions()
        self._make_widgets()
        session.changed.connect(self._changed)
        session.lengths_changed.connect(self._lengths_changed)

    @classmethod
    def specs(cls):
        return (*DRAFT, *WHOLE, *PAGES)

    # -- making -------------------------------------------------------------------------------
    def _make_actions(self) -> None:
        handlers: dict[str, Callable[..., object]] = {
            "draft.fit_piece": self.fit_piece,
            "draft.solo": self._looks_changed,
            "draft.flip": self._looks_changed,
            "draft.show_upper": self._looks_changed,
            "draft.show_backing": self._looks_changed,
            "draft.show_setbacks": self._looks_changed,
            "draft.show_axis": self._looks_changed,
            "draft.show_hold": self._looks_changed,
            "draft.show_nest": self._looks_changed,
            **{spec.id: self._page_chosen for spec in PAGES},
        }
        handlers |= self.looking() | self.edits.handlers() | self.gestures.handlers() | self.out.handlers()
        handlers |= self.whole.handlers() | self.drawing.handlers()
        for spec in self.specs():
            action = self.actions_made.add(spec, handlers[spec.id])
            shown = spec.id.startswith("draft.show_") and spec.id != "draft.show_nest"
            if shown or spec.id == "draft.select":
                action.blockSignals(True)
                action.setChecked(True)
                action.blockSignals(False)

    def _make_widgets(self) -> None:
        a = self.actions_made
        self.view = BoardView()
        self.view.setAccessibleName(translate("Draft", "Drawing board"))
        self.view.crowd = CROWD
        self.scene_of = BoardScene(self.view.scene(), self.session.lengths)
        self.view.looked.connect(self._looked)
        self.strip = ViewStrip(
            [
                a[f"draft.{n}"]
                for n in ("select", "breaks", "hold", "measure", "confirm", "next_open", "confirm_all")
            ],
            [a[f"draft.{n}"] for n in ("show_setbacks", "solo", "flip", "fit_piece", "fit")],
        )
        self.piece_list = PieceList(self.session.lengths)
        self.piece_list.setMinimumWidth(NAMES_PX)
        self.inspector = Inspector(self.session.lengths)
        self.findings = FindingsList()
        self.step_offer = StepOffer(self)
        self.findings.add_below(self.step_offer)
        middle = QWidget()
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.strip)
        column.addWidget(self.gestures.bar)
        column.addWidget(self.gestures.shape_bar)
        column.addWidget(RuledBoard(self.view, self.session.lengths), 1)
        self.side = DraftSide(self, self.inspector)
        self.side.setMinimumWidth(self.inspector.minimumSizeHint().width())
        right = self.beside("right", (self.side, self.findings), [540, 230], Qt.Orientation.Vertical)
        across = self.beside("across", (self.piece_list, middle, right), [216, 800, 312])
        self.fill_with(across)
        self.gestures.connect_view(self.view)
        self.strip.sizes_chosen.connect(self._sizes_chosen)
        self.piece_list.picked.connect(self.pick_piece)
        self.findings.picked.connect(self.step_offer.show_place)
        self.edits.connect_inspector(self.inspector)
        self.inspector.refused.connect(self.status)
        self.side.measures.compared.connect(self._sizes_chosen)
        self.back_from_fields_of(self.side)

    # -- the shell's calls ----------------------------------------------------------------------
    def entered(self) -> None:
        self.refresh()
        self._findings_due.start()
        self.view.setFocus()

    def left(self) -> None:
        self.gestures.abandon()
        self._findings_due.stop()

    def busy(self) -> str:
        return translate("Draft", "The boards are being written.") if self.out.run.running else ""

    def papers(self) -> list[Offer]:
        return self.out.papers()

    def stop(self) -> None:
        self._findings_due.stop()
        self.out.run.stop()

    def carried(self) -> dict[str, Any]:
        return {
            "view": self.view.place(),
            "selected": (self.selecting.piece, self.selecting.edges),
            "sizes": (self.strip.size_shown, self.strip.size_over),
            "checked": {spec.id: a.isChecked() for spec, a in self.actions_made.all() if spec.checkable},
        }

    def take_over(self, carried: Mapping[str, Any]) -> None:
        self._taking_over = True  # drawn once, when all is as it was
        for name, checked in carried["checked"].items():
            self.actions_made[name].setChecked(checked)
        self.strip.choose_sizes(*carried["sizes"])
        self._taking_over = False
        self.select(*carried["selected"])
        self.look_soon(carried["view"])

    # -- what is open ---------------------------------------------------------------------------
    def opened(self) -> None:
        self.gestures.abandon()
        self.selecting.piece, self.selecting.edges = "", frozenset()
        self.gestures.hover = None
        self._offsets = {}
        self.whole.first_edge = None
        self.side.measures.forget()
        self.scene_of.show_rings([], theme().colour("note"))
        self.scene_of.show_span(None, None)
        style = self.session.style
        if style is not None:
            self.strip.base = ""
            self.strip.show_sizes(style.size_run.sizes, style.size_run.base)
            self.refresh()
            self.fit_soon()

    def _changed(self) -> None:
        self._still = False
        if self.isVisible():
            self.refresh()
            self._findings_due.start()

    def _lengths_changed(self) -> None:
        self.inspector.relook()
        self.piece_list.viewport().update()  # its areas
        self.side.relook()
        self.piece_list.viewport().update()
        self.refresh()
        self.view.looked.emit()

    def _looks_changed(self) -> None:
        self.refresh()

    def _sizes_chosen(self) -> None:
        style = self.session.style
        if style is not None:
            strip = self.strip
            self.size_on_board.want(style, (strip.size_shown, strip.size_over, self.side.measures.over_size))

    def _page_chosen(self, on: bool) -> None:
        self.side.chosen(on)
        self.refresh()

    @property
    def on_base(self) -> bool:
        """Whether the base size is shown: edges and axes are marked on it."""
        style = self.session.style
        return style is not None and self.strip.size_shown in ("", style.size_run.base)

    # -- showing --------------------------------------------------------------------------------
    def _looked(self) -> None:
        if not self.view.holding:
            self.scene_of.look(self.view.px_per_mm)

    def refresh(self) -> None:
        """Draw what the session's style says now."""
        style = self.session.style
        if style is None or self._taking_over:
            return
        if self.selecting.piece and not any(p.name == self.selecting.piece for p in style.pieces):
            self.selecting.piece, self.selecting.edges = "", frozenset()
        if self.strip.sizes != style.size_run.sizes or self.strip.base != style.size_run.base:
            self.strip.show_sizes(style.size_run.sizes, style.size_run.base)
        try:
            shown = self._shown(style)
        except GeometryError as error:  # a size that cannot be graded; the base size is drawn, not graded
            self.strip.choose_sizes(style.size_run.base, "")
            shown = self._shown(style)
            self.status.emit(told_text(str(error)))
        checked = self._checked
        layers = Layers(
            *(checked(f"show_{what}") for what in ("upper", "backing", "setbacks", "axis", "hold"))
        )
        piece = self.selecting.piece
        on_board = [s for s in shown if s.piece.name == piece] if checked("solo") and piece else shown
        self.scene_of.show(on_board, layers, piece, self.selecting.edges, self.gestures.hover)
        self.view.item_count = self.scene_of.item_count
        if not self.session.dragging:  # its pictures and areas follow when the hand lets go
            self.piece_list.set_rows(shown, piece)
        self.inspector.show_piece(self.piece_data)
        self.inspector.show_edges(self.edges_selected, style_pieces.draft_rules(style))
        self.side.show_style(style, self.size_on_board.shown)
        self._show_facts(shown)

    def _shown(self, style: Style) -> list[Shown]:
        base = style.size_run.base
        size, over = self.size_on_board.drawn(style, self.strip.size_shown, self.strip.size_over)
        names = tuple(piece.name for piece in style.pieces)
        drawings = [piece.drawings[base] for piece in style.pieces]
        if list(map(id, drawings)) != list(map(id, self._spread)) or set(self._offsets) != set(names):
            self._spread = [*drawings]
            boxes = [
                style_pieces.upper_piece(style, p.name, base, p.hand).outline.bbox_mm for p in style.pieces
            ]
            self._offsets = dict(zip(names, spread_offsets(boxes), strict=True))
        rules = style_pieces.draft_rules(style)
        setbacks = {kind: rule.setback_mm for kind, rule in rules.edge_rules.items()}
        held = self.judge.held_for(style)
        nested = self._checked("show_nest")
        shown = []
        for piece in style.pieces:
            upper = style_pieces.upper_piece(style, piece.name, size, piece.hand)
            backings = style_pieces.piece_backings(style, piece.name, size, piece.hand)
            flipped = self._checked("flip")
            line = piece.hold_line if size == base else None
            drawn = self._on_board.piece(upper, backings, setbacks, self._offsets[piece.name], flipped, line)
            mark = hold_mark(held, piece.name)
            own = self._still and piece.name == self.selecting.piece
            nest = nest_of(style, piece.name, size, drawn=own) if nested else NO_NEST
            outline, others = self.side.laid_over(style, piece.name, size, over) or (None, ())
            shown.append(Shown(drawn, backings, outline, others, mark, nest))
        return shown

    def _show_facts(self, shown: list[Shown]) -> None:
        count = sum(
            sum(not e.edge.confirmed for e in s.piece.edges) + (not s.piece.upper.pull_axis.confirmed)
            for s in shown
        )
        text = (
            translate("Draft", "{0} to confirm").format(count)
            if count
            else translate("Draft", "all confirmed")
        )
        self.facts.emit(text)

    def _find(self) -> None:
        style = self.session.style
        if style is None or not self.isVisible():
            return
        self._still = True
        if self._checked("show_nest"):
            self.refresh()  # what is drawn on the piece, in all sizes: too slow while something is dragged
        try:
            found = list(style_pieces.findings(style, [style.size_run.base], ("left",)))
            found += seam_findings(style, style.size_run.base)
        except GeometryError as error:
            self.status.emit(told_text(str(error)))
            found = []
        self._found = found
        self.judge.ask(style)
        self._show_findings()

    def _judged(self) -> None:
        if self.isVisible():
            self.refresh()  # the figures at the hold lines
            self._show_findings()

    def _show_findings(self) -> None:
        """Show what was found, and the hold as far as it is judged."""
        style = self.session.style
        held = self.judge.held_for(style) if style is not None else None
        weak = [f for f in held.findings if f.severity is not Severity.NOTE] if held is not None else []
        imported = [f for f in self.session.import_findings if f.code != "EDGES_TO_CONFIRM"]
        self.findings.show_findings([*imported, *self._found, *weak], self.selecting.piece)
        self.step_offer.look_again(style, self._found)

    # -- what is selected -----------------------------------------------------------------------
    @property
    def board(self) -> Board:
        """The board as it is shown."""
        return self.scene_of.board()

    @property
    def piece_data(self) -> PieceData | None:
        """The selected piece."""
        style = self.session.style
        if style is None or not self.selecting.piece:
            return None
        return style.piece(self.selecting.piece)

    @property
    def edges_selected(self) -> list[BoardEdge]:
        """The selected edges."""
        shown = self.board.piece(self.selecting.piece)
        return [] if shown is None else [e for e in shown.edges if e.name in self.selecting.edges]

    def select(self, piece: str, names: frozenset[EdgeName] = frozenset()) -> None:
        """Select a piece and edges of it."""
        self.gestures.take_piece(piece)
        self.selecting.piece, self.selecting.edges = piece, names
        if self.session.document is not None:
            self.session.document.seal()
        self.refresh()
        self._show_findings()

    def pick_piece(self, name: str) -> None:
        """Select a piece from the list, and bring it into view."""
        if name != self.selecting.piece:
            self.select(name)
            box = self.scene_of.bounds(name)
            if not self.view.visible_mm().intersects(box):
                self.view.look_at(box)

    # -- looking ----------------------------------------------------------------------------------
    def fit(self) -> None:
        """Show everything."""
        self.view.look_at(self.scene_of.bounds())

    def fit_piece(self) -> None:
        """Show the selected piece."""
        self.view.look_at(self.scene_of.bounds(self.selecting.piece))

    def _checked(self, name: str) -> bool:
        return self.actions_made[f"draft.{name}"].isChecked()

    def edit(self, step: str, change, *args: object, merge: str = "") -> bool:
        """Commit ``change(style, *args)`` as a step; a refusal is said in the status bar.

        Returns whether the style changed.
        """
        document = self.session.document
        if document is None:
            return False
        try:
            style = change(document.style, *args)
        except (AppError, GeometryError) as error:
            self.status.emit(told_text(str(error)))
            return False
        return self.session.apply(step_name(step, self.selecting.piece), style, merge=merge)


DESK = DraftDesk
