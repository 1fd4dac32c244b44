"""The lay desk: order and engine at the left, the roll in the middle, lays and faults at the right."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication, QRectF, QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.errors import AppError
from app.lay.with_style import fields_by_hand
from app.style import edits
from app.style.model import LayData, Style
from app.tools.lay_hands import LayHands
from app.tools.lay_table import LayTable
from app.window.canvas.rulers import RuledBoard
from app.window.canvas.view import BoardView
from app.window.desks.lay.filling import Filling
from app.window.desks.lay.gestures import LayGestures
from app.window.desks.lay.give_back import GiveBack, PlannedBox
from app.window.desks.lay.hand_actions import WAYS, HandActions
from app.window.desks.lay.interface import LayBench
from app.window.desks.lay.kept_lay import (
    Judged,
    first_lay,
    judged_lay,
    known_judgement,
    table_of,
)
from app.window.desks.lay.lay_actions import LAY
from app.window.desks.lay.lay_out import LayOut
from app.window.desks.lay.lay_scene import LayScene, clashing
from app.window.desks.lay.order_panel import OrderPanel
from app.window.desks.lay.placed_hold import PlacedHoldJudge
from app.window.desks.lay.side_panel import LayRow, SidePanel, SideTable
from app.window.desks.order_box import ask_order_file, open_order, shown_order
from app.window.printing.offer import Offer
from app.window.running.derive_beside import deriving_of
from app.window.session import Session
from app.window.shell.actions import ActionSpec
from app.window.widgets.tool_strip import ToolStrip
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name
from geometry.errors import GeometryError
from nesting.errors import NestingError
from nesting.lay import Placement
from nesting.verify.fault import Fault

translate = QCoreApplication.translate
JUDGE_AT_ONCE = 400
JUDGE_AFTER_MS = 250

DERIVED_AT_ONCE = 12
"""So many pieces in a size, left and right, are derived while one waits; more of them beside the window."""


class LayDesk(LayBench):
    """The lays of the open style."""

    name = "lay"

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.hands = LayHands()
        self.placed_hold = PlacedHoldJudge(self)
        self.placed_hold.judged.connect(self._changed)
        self.index = 0
        self.table: LayTable | None = None
        self.judged: Judged | None = None
        self.deriving = deriving_of(session)
        self._judge_soon = QTimer(self)
        self._judge_soon.setSingleShot(True)
        self._judge_soon.setInterval(JUDGE_AFTER_MS)
        self._judge_soon.timeout.connect(self._judge)
        self.filling = Filling(self)
        self.fill, self.run = self.filling.fill, self.filling.run
        self.moves: HandActions = HandActions(self)
        self.gestures = LayGestures(self)
        self.let_go = self.gestures.let_go
        self.out, self.back = LayOut(self), GiveBack(self)
        self._make_actions()
        self._make_widgets()
        session.changed.connect(self._changed)
        session.lengths_changed.connect(self._lengths_changed)

    @classmethod
    def specs(cls) -> tuple[ActionSpec, ...]:
        return LAY

    def _make_actions(self) -> None:
        handlers: dict[str, Callable[..., object]] = {
            "lay.fill": self.fill,
            "lay.improve": self.filling.improve,
            "lay.stop": self.filling.stop,
            "lay.let_go": self.gestures.let_go,
            "lay.take_order": self.take_order,
            "lay.open_order": self._open_order,
            "lay.fit_chosen": self.fit_chosen,
        }
        handlers |= self.looking() | self.moves.handlers() | self.out.handlers() | self.back.handlers()
        for spec in LAY:
            self.actions_made.add(spec, handlers[spec.id])

    def _make_widgets(self) -> None:
        a, lengths = self.actions_made, self.session.lengths
        self.view = BoardView()
        self.view.setAccessibleName(translate("Lay", "The roll with its lay"))
        self.scene_of = LayScene(self.view.scene(), lengths)
        self.order = OrderPanel(
            lengths,
            a["lay.fill"],
            a["lay.improve"],
            a["lay.stop"],
            a["lay.take_order"],
            a["lay.open_order"],
        )
        self.order.entered.connect(self._order_entered)
        self.order.refused.connect(self.status)
        self.side = SidePanel(lengths, a["lay.another"], a["lay.remove"])
        self.side.put_back.connect(self.moves.put_back)
        self.side.fault_picked.connect(self.show_fault)
        self.side.lay_picked.connect(self.pick_lay)
        self.scene_of.hint = translate(
            "Lay", "Nothing is laid yet: fill the roll, or drag pieces here from the side table"
        )
        self.view.takes_mime = SideTable.MIME
        self.strip = ToolStrip(
            [
                [a[f"lay.{name}"] for name in ("turn", "pin", "lift", "swap")],
                [a[f"lay.slide.{way}"] for way in WAYS],
                [a["lay.next_fault"]],
                [a[f"lay.{name}"] for name in ("zoom_out", "zoom_in", "fit_chosen", "fit")],
            ]
        )
        middle = QWidget()
        board = QVBoxLayout(middle)
        board.setContentsMargins(0, 0, 0, 0)
        board.setSpacing(0)
        board.addWidget(self.strip)
        board.addWidget(RuledBoard(self.view, lengths), 1)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        self.planned = PlannedBox(lengths, a["lay.give_back"])
        column.addWidget(self.order)
        column.addWidget(self.planned)
        column.addStretch(1)
        self.fill_with(self.beside("across", (left, middle, self.side), [250, 820, 290]))
        self.view.looked.connect(self._looked)
        self.gestures.connect_view(self.view)
        self.back_from_fields_of(self.order)

    # -- the shell's calls ----------------------------------------------------------------------
    def entered(self) -> None:
        self.refresh()
        self.fit_at_first()
        self.view.setFocus()

    def left(self) -> None:
        self.gestures.abandon()

    def busy(self) -> str:
        return translate("Lay", "The roll is being filled.") if self.run.running else ""

    def stop(self) -> None:
        self.deriving.forget()
        self._judge_soon.stop()
        self.moves.sliding.give_up()
        self.filling.abandon()

    def papers(self) -> list[Offer]:
        return self.out.papers()

    def carried(self) -> dict[str, Any]:
        return {"view": self.view.place(), "index": self.index, "chosen": self.hands.chosen}

    def take_over(self, carried: Mapping[str, Any]) -> None:
        self.index, self.hands.chosen = carried["index"], carried["chosen"]
        self.look_soon(carried["view"])

    # -- what is open ---------------------------------------------------------------------------
    @property
    def lay(self) -> LayData | None:
        """The lay shown; a style without lays shows one not kept yet."""
        style = self.session.style
        if style is None:
            return None
        self.index = min(self.index, max(len(style.lays) - 1, 0))
        return style.lays[self.index] if style.lays else first_lay(style)

    def opened(self) -> None:
        self.stop()
        self.index, self.hands.chosen = 0, frozenset()
        self.table = self.judged = None
        if self.isVisible():
            self.refresh()
            self.fit_soon()

    def _lengths_changed(self) -> None:
        if self.isVisible():
            self.refresh()
            self.view.looked.emit()

    def refresh(self) -> None:
        """Draw what the session's style says now."""
        style, lay = self.session.style, self.lay
        if style is None or lay is None:
            return
        self.filling.look_again()
        self.order.show_lay(style, lay, shown_order(self.session))
        self.planned.show_lay(style, lay)
        self.actions_made["lay.give_back"].setEnabled(lay.planned is not None and not self.run.running)
        sizes = [size for each in (*style.lays, lay) for size, pairs in each.pairs.items() if pairs]
        if len(self.deriving.missing(style, sizes)) > DERIVED_AT_ONCE:
            then = self._derived_first if self.table is None else self._derived
            self.table = self.judged = None
            self.facts.emit(translate("Lay", "The pieces are being derived ..."))
            self.deriving.want(style, sizes, then)
            return
        self.deriving.derived(style, sizes)
        before = self.table
        try:
            self.table = table_of(style, lay)
            self.judged = known_judgement(style, lay)
            if self.judged is None and len(self.table.placements) <= JUDGE_AT_ONCE:
                self.judged = judged_lay(style, lay)
        except (AppError, GeometryError, NestingError) as error:
            self.status.emit(told_text(str(error)))
            self.facts.emit(told_text(str(error)))
            self.table = self.judged = None
            return
        self.hands.chosen = frozenset(i for i in self.hands.chosen if i < len(self.table.placements))
        self.view.item_count = len(self.table.placements)
        faults: tuple[Fault, ...] = ()
        bad: frozenset[int] = frozenset()
        if self.judged is not None:
            faults, bad = self.judged.faults, self.judged.bad
        else:  # thousands of pieces: what moved is looked at now, the whole a moment later
            if before is not None and before.problem is self.table.problem:
                moved = self.table.moved_since(before)
                if len(moved) <= JUDGE_AT_ONCE:
                    bad = clashing(self.table.clashes(moved))
            self._judge_soon.start()
        if self.filling.live is None:
            self.scene_of.show(self.table, self.hands.chosen, bad)
        hold = self.placed_hold.text(style, self.table, self.hands.chosen, self.session.lengths)
        self.side.show_table(self.table, faults, self.hands.chosen, hold)
        self.side.show_lays(self._rows(style, lay), self.index)
        self._show_facts(self.filling.live or self.table)

    def _derived(self) -> None:
        if self.isVisible():
            self.refresh()

    def _derived_first(self) -> None:
        self._derived()
        self.fit_soon()

    def _judge(self) -> None:
        """Judge the lays not judged yet; then show what was found."""
        style, lay = self.session.style, self.lay
        if style is None or lay is None or not self.isVisible():
            return
        for kept in style.lays or (lay,):
            with contextlib.suppress(AppError, GeometryError, NestingError):
                judged_lay(style, kept)
        self.refresh()

    def _rows(self, style: Style, lay: LayData) -> list[LayRow]:
        rows = []
        for kept in style.lays or (lay,):
            try:
                table = table_of(style, kept)
                judged = known_judgement(style, kept)
                if judged is None and len(table.placements) <= JUDGE_AT_ONCE:
                    judged = judged_lay(style, kept)
            except (AppError, GeometryError, NestingError):
                rows.append(LayRow(kept.name, "–", "–", "–"))
                continue
            missing = sum(table.missing.values())
            if judged is None:
                faults = "…"
            elif judged.shown:
                faults = str(len(judged.shown))
            else:
                faults = (
                    translate("Lay", "{0} missing").format(missing) if missing else translate("Lay", "none")
                )
            if table.placements:
                length, share = (
                    self.length_text(table.length_mm),
                    self.session.lengths.percent(table.yield_share),
                )
            else:
                length, share = "–", "–"
            rows.append(LayRow(kept.name, length, share, faults, table))
        return rows

    def show_live(self, table: LayTable) -> None:
        """Show the best lay that the engine has found so far."""
        self.scene_of.end_drag()
        self.scene_of.show(table, frozenset(), frozenset())
        self._show_facts(table)

    def _show_facts(self, table: LayTable) -> None:
        if not table.placements:
            self.facts.emit(translate("Lay", "nothing laid"))
            return
        faults = len(self.judged.shown) if self.judged and self.filling.live is None else 0
        parts = [
            translate("Lay", "yield {0}").format(self.session.lengths.percent(table.yield_share)),
            self.length_text(table.length_mm),
            translate("Lay", "{0} pieces").format(len(table.placements)),
        ]
        if faults == 1:
            parts.append(translate("Lay", "1 fault"))
        elif faults:
            parts.append(translate("Lay", "{0} faults").format(faults))
        self.facts.emit("  ·  ".join(parts))

    def length_text(self, length_mm: float) -> str:
        """Return a length of roll as it is shown."""
        return self.session.lengths.roll_text(length_mm)

    # -- edits ------------------------------------------------------------------------------------
    def edit(self, step: str, *, merge: str = "", **fields: object) -> bool:
        """Commit the shown lay with some fields changed."""
        document, lay = self.session.document, self.lay
        if document is None or lay is None:
            return False
        if step == "fill":
            fields["stale"] = ""  # laid with the outlines of today
        changed = LayData.model_validate(dict(lay) | fields)
        try:
            style = edits.put_lay(document.style, self.index, changed)
        except AppError as error:
            self.status.emit(told_text(str(error)))
            self.refresh()  # a refused value leaves its field
            return False
        return self.session.apply(step_name(step, changed.name), style, merge=merge)

    def put(self, step: str, placements: tuple[Placement, ...], *, merge: str = "") -> bool:
        """Commit pieces moved by hand."""
        return self.lay is not None and self.edit(step, merge=merge, **fields_by_hand(self.lay, placements))

    def _order_entered(self, fields: object) -> None:
        assert isinstance(fields, dict)
        self.edit("order", merge=f"order:{self.index}:{next(iter(fields))}", **fields)

    def take_order(self) -> None:
        """Lay all pairs ordered."""
        pairs = {size: count for size, count in shown_order(self.session).items() if count}
        if not pairs:
            self.status.emit(translate("Cost", "The order has no pairs: type some, or open an order"))
            return
        self.edit("order", pairs=pairs)

    def _open_order(self) -> None:
        path = ask_order_file(self)
        if path is not None:
            open_order(self.session, path, self.status.emit)

    # -- looking ----------------------------------------------------------------------------------
    def pick_lay(self, index: int) -> None:
        """Show another of the lays kept."""
        if index != self.index and not self.run.running:
            self.index, self.hands.chosen = index, frozenset()
            self.refresh()
            self.fit()

    def show_asked(self, what: object) -> None:
        """Show the lay that was opened out of the run plan."""
        if isinstance(what, int):
            self.pick_lay(what)

    def show_fault(self, number: int) -> None:
        """Select the pieces of a fault and go there."""
        if self.judged is None or self.table is None or not 0 <= number < len(self.judged.shown):
            return
        self.hands.chosen = frozenset(self.judged.shown[number].placements)
        box = self._box_of(self.hands.chosen)
        self.refresh()
        if not box.isNull():
            self.view.look_at(box, 140.0)

    def fit(self) -> None:
        """Show the whole lay from the roll's start on; what room is left lies beyond its end."""
        self.view.look_from_left(self.scene_of.bounds())

    def fit_chosen(self) -> None:
        """Show the selected pieces."""
        if self.table is None or not self.hands.chosen:
            self.fit()
            return
        self.view.look_at(self._box_of(self.hands.chosen), 120.0)

    def _box_of(self, indices: Iterable[int]) -> QRectF:
        assert self.table is not None
        box = QRectF()
        for i in indices:
            x0, y0, x1, y1 = self.table.polygons[i].bounds
            box = box.united(QRectF(x0, y0, x1 - x0, y1 - y0))
        return box

    def _looked(self) -> None:
        self.scene_of.set_detail(self.view.px_per_mm)


DESK = LayDesk
