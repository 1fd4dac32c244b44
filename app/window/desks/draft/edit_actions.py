"""The draft desk's edits: what each key, button and field does to the style."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QMessageBox

from app.style import edits
from app.style.model import EdgeData
from app.tools.board import EdgeName
from app.tools.likeness import mirrored_edges, similar_edges
from app.window.desks.draft.inspector import Inspector
from app.window.desks.draft.interface import DraftBench
from app.window.wording.words import step_name
from geometry.edge_kinds import EdgeKind

translate = QCoreApplication.translate
SETBACK_STEP_MM = 0.5
AXIS_STEP_DEG = 1.0


class EditActions(QObject):
    """Turns what the person does into edits; holds nothing but its desk."""

    def __init__(self, desk: DraftBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each editing action."""
        return {
            **{f"draft.kind.{kind.value}": self._kind_action for kind in EdgeKind},
            "draft.setback": self._type_setback,
            "draft.more": self._more,
            "draft.less": self._less,
            "draft.rule": self._house_rule,
            "draft.axis": self._type_axis,
            "draft.turn_left": self._turn_left,
            "draft.turn_right": self._turn_right,
            "draft.hold_limit": self._type_hold_limit,
            "draft.remove_hold": self.remove_hold_line,
            "draft.confirm": self.confirm,
            "draft.confirm_piece": self.confirm_piece,
            "draft.confirm_all": self.confirm_all,
            "draft.copy_mirror": self.copy_mirrored,
            "draft.copy_similar": self.copy_similar,
            "draft.next_piece": self._next_piece,
            "draft.previous_piece": self._previous_piece,
            "draft.next_edge": self._next_edge,
            "draft.previous_edge": self._previous_edge,
            "draft.all_edges": self._all_edges,
            "draft.next_open": self.next_open,
        }

    def connect_inspector(self, inspector: Inspector) -> None:
        """Let the inspector's fields edit."""
        inspector.renamed.connect(self.rename)
        inspector.hand_chosen.connect(self._hand)
        inspector.per_shoe_entered.connect(self._per_shoe)
        inspector.axis_entered.connect(self.set_axis)
        inspector.axis_confirmed.connect(self._confirm_axis)
        inspector.hold_limit_entered.connect(self.set_hold_limit)
        inspector.kind_chosen.connect(self.set_kind)
        inspector.setback_entered.connect(self.set_setback)
        inspector.allowance_entered.connect(self.set_allowance)
        inspector.edges_confirmed.connect(self._confirm_edges)

    # -- edges ------------------------------------------------------------------------------------
    def _names(self) -> frozenset[EdgeName]:
        names = self._desk.selecting.edges
        if not names:
            self._desk.status.emit(
                translate("Draft", "Select an edge first: click it, or sweep over several.")
            )
        return names

    def _kind_action(self) -> None:
        self.set_kind(EdgeKind(self.sender().objectName().removeprefix("draft.kind.")))

    def set_kind(self, kind: EdgeKind) -> None:
        """Give the selected edges a kind."""
        if names := self._names():
            self._desk.edit("kind", edits.set_edge_kind, self._piece, names, kind)
            self._desk.refresh()  # a kind pressed twice must stay pressed

    def set_setback(self, value: object) -> None:
        """Give the selected edges a setback of their own (None: the house rule)."""
        if names := self._names():
            self._desk.edit(
                "setback", edits.set_setback, self._piece, names, value, merge=self._merge("setback")
            )

    def set_allowance(self, value: object) -> None:
        """Give the selected edges an allowance of their own (None: the house rule)."""
        if names := self._names():
            merge = self._merge("allowance")
            self._desk.edit("allowance", edits.set_allowance, self._piece, names, value, merge=merge)

    def _step_setback(self, step_mm: float) -> None:
        if not self._names():
            return
        style = self._desk.session.document.style  # type: ignore[union-attr]
        for edge in self._desk.edges_selected:
            value = round(edge.setback_mm + step_mm, 3)
            style = edits.set_setback(style, self._piece, [edge.name], value)
        self._desk.session.apply(step_name("setback", self._piece), style, merge=self._merge("setback"))

    def _more(self) -> None:
        self._step_setback(SETBACK_STEP_MM)

    def _less(self) -> None:
        self._step_setback(-SETBACK_STEP_MM)

    def _house_rule(self) -> None:
        self.set_setback(None)

    def _type_setback(self) -> None:
        if self._names():
            self._desk.inspector.setback.setFocus()
            self._desk.inspector.setback.selectAll()

    def _all_edges(self) -> None:
        shown = self._desk.board.piece(self._piece)
        if shown is not None:
            self._desk.select(self._piece, frozenset(edge.name for edge in shown.edges))

    # -- axis -------------------------------------------------------------------------------------
    def set_axis(self, axis_deg: float) -> None:
        """Turn the pull axis to an angle."""
        if self._piece:
            self._desk.edit("turn axis", edits.set_axis, self._piece, axis_deg, merge=self._merge("axis"))

    def _turn(self, step_deg: float) -> None:
        piece = self._desk.piece_data
        if piece is not None:
            self.set_axis(piece.pull_axis.axis_deg + step_deg)

    def _turn_left(self) -> None:
        self._turn(AXIS_STEP_DEG)

    def _turn_right(self) -> None:
        self._turn(-AXIS_STEP_DEG)

    def _type_axis(self) -> None:
        if self._piece:
            self._desk.inspector.axis.setFocus()
            self._desk.inspector.axis.selectAll()

    # -- hold line --------------------------------------------------------------------------------
    def set_hold_limit(self, limit_mm: object) -> None:
        """Say how many mm the hold line of the selected piece may give (None: no limit)."""
        if not self._desk.edit("hold limit", edits.set_hold_limit, self._piece, limit_mm):
            self._desk.refresh()  # a refused limit leaves the field

    def _type_hold_limit(self) -> None:
        if self._piece:
            self._desk.inspector.hold_limit.setFocus()
            self._desk.inspector.hold_limit.selectAll()

    def remove_hold_line(self) -> None:
        """Take the hold line of the selected piece away."""
        piece = self._desk.piece_data
        if piece is not None and piece.hold_line is not None:
            self._desk.edit("remove hold line", edits.remove_hold_line, self._piece)

    # -- confirming -------------------------------------------------------------------------------
    def confirm(self) -> None:
        """Confirm the selected edges, or the axis when no edge is selected; while drawing, end the line."""
        if self._desk.end_line():
            return
        if self._desk.selecting.edges:
            self._confirm_edges()
        elif self._piece:
            self._confirm_axis()

    def _confirm_edges(self) -> None:
        if names := self._names():
            self._desk.edit("confirm edges", edits.confirm_edges, self._piece, names)

    def _confirm_axis(self) -> None:
        self._desk.edit("confirm axis", edits.confirm_axis, self._piece)

    def confirm_piece(self) -> None:
        """Confirm the selected piece as it is."""
        if self._piece:
            self._desk.edit("confirm piece", edits.confirm_piece, self._piece)

    def confirm_all(self) -> None:
        """Confirm everything after asking: one key must not confirm a whole style unseen."""
        style = self._desk.session.style
        if style is None:
            return
        edges = sum(not edge.confirmed for piece in style.pieces for edge in piece.edges)
        axes = sum(not piece.pull_axis.confirmed for piece in style.pieces)
        if not edges + axes:
            self._desk.status.emit(translate("Draft", "Everything is confirmed already."))
            return
        answer = QMessageBox.question(
            self._desk,
            translate("Draft", "Confirm everything"),
            translate(
                "Draft", "{0} edges and {1} pull axes are suggestions. Accept them all as they are?"
            ).format(edges, axes),
        )
        if answer == QMessageBox.StandardButton.Yes:
            self._desk.edit("confirm all", edits.confirm_all)

    def next_open(self) -> None:
        """Select the next edge or axis that is still a suggestion."""
        stops: list[tuple[str, EdgeName | None]] = []
        for piece in self._desk.board.pieces:
            if not piece.upper.pull_axis.confirmed:
                stops.append((piece.name, None))
            stops += [(piece.name, edge.name) for edge in piece.edges if not edge.edge.confirmed]
        if not stops:
            self._desk.status.emit(translate("Draft", "Everything is confirmed."))
            return
        names = self._desk.selecting.edges
        here = (self._piece, min(names) if names else None)
        order = [
            (piece.name, name)
            for piece in self._desk.board.pieces
            for name in (None, *(e.name for e in piece.edges))
        ]
        rank = {stop: number for number, stop in enumerate(order)}
        now = rank.get(here, -1)
        piece_name, edge = min(stops, key=lambda stop: (rank[stop] <= now, rank[stop]))
        self._desk.select(piece_name, frozenset() if edge is None else frozenset({edge}))
        box = self._desk.scene_of.bounds(piece_name)
        if not self._desk.view.visible_mm().contains(box):
            self._desk.view.look_at(box)

    # -- copying ----------------------------------------------------------------------------------
    def copy_mirrored(self) -> None:
        """Give the mirror images of the selected edges their kinds, as suggestions."""
        self._copy(mirrored=True)

    def copy_similar(self) -> None:
        """Give edges like the selected ones their kinds, as suggestions."""
        self._copy(mirrored=False)

    def _copy(self, *, mirrored: bool) -> None:
        board = self._desk.board
        piece = board.piece(self._piece)
        if piece is None or not (names := self._names()):
            return
        others = [other for other in board.pieces if other is not piece]
        find = mirrored_edges if mirrored else similar_edges
        found = find(piece, names, others)
        style = self._desk.session.document.style  # type: ignore[union-attr]
        data = {(edge.ring, edge.start): edge for edge in style.piece(self._piece).edges}
        by_piece: dict[str, dict[EdgeName, EdgeData]] = {}
        for (name, target), source in found.items():
            by_piece.setdefault(name, {})[target] = data[source]
        for name, pairs in by_piece.items():
            style = edits.copy_edges(style, name, pairs)
        if not found:
            self._desk.status.emit(translate("Draft", "No edge like that was found."))
            return
        self._desk.session.apply(step_name("copy kinds", self._piece), style)
        places = ", ".join(f"{name} ({len(pairs)})" for name, pairs in by_piece.items())
        self._desk.status.emit(translate("Draft", "Copied to {0}; please confirm.").format(places))

    # -- pieces -----------------------------------------------------------------------------------
    @property
    def _piece(self) -> str:
        return self._desk.selecting.piece

    def rename(self, name: str) -> None:
        """Give the selected piece another name."""
        old = self._piece
        if not old:
            return
        self._desk.selecting.piece = name.strip()
        if not self._desk.edit("rename", partial(edits.rename_piece, piece=old, name=name)):
            self._desk.select(old)
        self._desk.refresh()

    def _hand(self, hand: str) -> None:
        self._desk.edit("hand", edits.set_hand, self._piece, hand)

    def _per_shoe(self, count: int) -> None:
        if not self._desk.edit("per shoe", edits.set_per_shoe, self._piece, count):
            self._desk.refresh()  # a refused count leaves the field

    def _next_piece(self) -> None:
        self._go_piece(1)

    def _previous_piece(self) -> None:
        self._go_piece(-1)

    def _go_piece(self, step: int) -> None:
        style = self._desk.session.style
        if style is None:
            return
        names = [piece.name for piece in style.pieces]
        at = names.index(self._piece) + step if self._piece else (0 if step > 0 else -1)
        self._desk.pick_piece(names[at % len(names)])

    def _next_edge(self) -> None:
        self._go_edge(1)

    def _previous_edge(self) -> None:
        self._go_edge(-1)

    def _go_edge(self, step: int) -> None:
        shown = self._desk.board.piece(self._piece)
        if shown is None:
            self._go_piece(step)
            return
        names = [edge.name for edge in shown.edges]
        chosen = [number for number, name in enumerate(names) if name in self._desk.selecting.edges]
        at = (chosen[-1 if step > 0 else 0] + step) % len(names) if chosen else (0 if step > 0 else -1)
        self._desk.select(self._piece, frozenset({names[at]}))

    def _merge(self, what: str) -> str:
        return f"{what}:{self._piece}:{sorted(self._desk.selecting.edges)}"
