"""The cloth desk: cloths at the left, the roll in the middle, its fields at the right."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.errors import AppError
from app.style import edits
from app.style.model import ClothData, LayerData, Style
from app.tools.flaw import FlawTool
from app.tools.outcome import Commit, Outcome, Sweep
from app.tools.pointer import Pointer
from app.window.canvas.rulers import RuledBoard
from app.window.canvas.view import BoardView
from app.window.desks.cloth.backed_pieces import BackedPieces
from app.window.desks.cloth.cloth_actions import CLOTH
from app.window.desks.cloth.cloth_form import ClothForm
from app.window.desks.cloth.hold_page import HoldPage
from app.window.desks.cloth.hold_paper import field_papers, hold_papers, report_papers, trial_papers
from app.window.desks.cloth.interface import ClothBench
from app.window.desks.cloth.page_actions import PageActions
from app.window.desks.cloth.pages import Pages
from app.window.desks.cloth.pull.pull_page import PullPage
from app.window.desks.cloth.register_page import RegisterPage
from app.window.desks.cloth.roll_scene import RollScene
from app.window.desks.cloth.strips.strips_page import StripsPage
from app.window.desks.cloth.trials.trials_page import TrialsPage
from app.window.desks.draft.view_strip import action_button
from app.window.printing.offer import Offer
from app.window.running.hold_judge import judge_of
from app.window.running.pull_solver import solver_of
from app.window.session import Session
from app.window.shell.actions import ActionSpec
from app.window.widgets.figures import localised
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name

translate = QCoreApplication.translate
SCROLL_BAR_PX = 14
SIDE_PX = 250


class ClothDesk(ClothBench):
    """The cloths of the open style."""

    name = "cloth"

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.tool = FlawTool()
        self.judge, self.solver = judge_of(session), solver_of(session)
        self.page_actions = PageActions(self)
        self._make_actions()
        self._make_widgets()
        self.judge.judged.connect(self._changed)
        session.changed.connect(self._changed)
        session.lengths_changed.connect(self._lengths_changed)

    @classmethod
    def specs(cls) -> tuple[ActionSpec, ...]:
        return CLOTH

    def _make_actions(self) -> None:
        handlers: dict[str, Callable[..., object]] = {
            "cloth.add": self.add_cloth,
            "cloth.remove": self.remove_cloth,
            "cloth.turn": self.turn_direction,
            "cloth.remove_flaw": self.remove_flaw,
            "cloth.let_go": self.let_go,
            "cloth.next": self._next,
            "cloth.previous": self._previous,
        }
        handlers |= self.looking()
        self.pages = Pages()
        self.pages.turned.connect(self._page_turned)
        handlers |= self.page_actions.handlers()
        for spec in CLOTH:
            if spec.id.startswith("cloth.page_"):
                self.pages.action(self.actions_made.add(spec, self.pages.chosen))
            else:
                self.actions_made.add(spec, handlers[spec.id])

    def _make_widgets(self) -> None:
        self.list = QListWidget()
        self.list.setAccessibleName(translate("Cloth", "Cloths"))
        self.list.setFrameShape(QListWidget.Shape.NoFrame)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentRowChanged.connect(self._row)
        self.pieces = BackedPieces()
        self.pieces.chosen.connect(self._back_piece)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        buttons = QHBoxLayout()
        buttons.setContentsMargins(12, 8, 8, 4)
        head = QLabel(translate("Cloth", "Cloths"))
        head.setProperty("role", "heading")
        buttons.addWidget(head)
        buttons.addStretch(1)
        for name in ("add", "remove"):
            buttons.addWidget(action_button(self.actions_made[f"cloth.{name}"]))
        column.addLayout(buttons)
        column.addWidget(self.list, 1)
        column.addWidget(self.pieces, 2)
        self.view = BoardView()
        self.view.setAccessibleName(translate("Cloth", "The roll"))
        self.roll = RollScene(self.view.scene(), self.session.lengths)
        self.form = ClothForm(self.session.lengths)
        self.form.entered.connect(self._entered)
        self.form.refused.connect(self.status)
        self.back_from_fields_of(self.form)
        scroll = QScrollArea(self)  # without a parent it would be shown as a window for a moment
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setMinimumWidth(self.form.minimumSizeHint().width() + SCROLL_BAR_PX)
        self.roll_form = scroll
        actions = {spec.id.removeprefix("cloth."): self.actions_made[spec.id] for spec in CLOTH}
        self.strips = StripsPage(actions, self.session.lengths)
        self.hold = HoldPage(
            self.judge, self.solver, self.session.lengths, self.actions_made["cloth.export_hold"]
        )
        self.hold.asked.connect(self._changed)
        self.trials = TrialsPage(self.session.lengths)
        self.register = RegisterPage(self.session.lengths, actions)
        self.page_actions.connect_pages()
        self.pages.add("roll", RuledBoard(self.view, self.session.lengths))
        self.pages.add("strips", self.strips)
        self.pages.add("hold", self.hold)
        self.pages.add("trials", self.trials)
        self.pages.add("register", self.register)
        self.pull = PullPage(self.session.lengths, self.solver)
        self.pages.add("pull", self.pull)
        left.setMinimumWidth(SIDE_PX)
        scroll.setMinimumWidth(max(scroll.minimumWidth(), SIDE_PX))
        self.fill_with(self.beside("across", (left, self.pages, scroll), [272, 800, 320]))
        self.view.pressed.connect(self._pressed)
        self.view.moved.connect(self._moved)
        self.view.released.connect(self._released)

    # -- the shell's calls ----------------------------------------------------------------------
    def entered(self) -> None:
        self.refresh()
        self.fit_at_first()
        if self.pages.page == "roll":
            self.view.setFocus()

    def left(self) -> None:
        self._carry_out(self.tool.cancel())

    def busy(self) -> str:
        return translate("Cloth", "A trial is being entered.") if self.trials.busy else ""

    def stop(self) -> None:
        self.pull.stop()
        self.trials.stop()

    def papers(self) -> list[Offer]:
        return [
            *hold_papers(self.session, self.hold),
            *field_papers(self.session),
            *report_papers(self.strips),
            *trial_papers(self.session, self.trials),
        ]

    def carried(self) -> dict[str, Any]:
        return {
            "view": self.view.place(),
            "cloth": (self.tool.cloth, self.tool.chosen),
            "page": self.pages.page,
        }

    def take_over(self, carried: Mapping[str, Any]) -> None:
        self.tool.cloth, self.tool.chosen = carried["cloth"]
        self.actions_made[f"cloth.page_{carried['page']}"].trigger()
        self.look_soon(carried["view"])

    # -- showing --------------------------------------------------------------------------------
    @property
    def cloth(self) -> ClothData | None:
        """The cloth shown."""
        style = self.session.style
        if style is None:
            return None
        known = [cloth.id for cloth in style.cloths]
        if self.tool.cloth not in known:
            self.tool.cloth, self.tool.chosen = known[0], -1
        return style.cloth(self.tool.cloth)

    def opened(self) -> None:
        self.tool.cloth, self.tool.chosen = "", -1
        self.solver.forget()
        self._changed()
        if self.isVisible():
            self.fit_soon()

    def _lengths_changed(self) -> None:
        self.form.relook()
        self._changed()
        self.view.looked.emit()

    def refresh(self) -> None:
        style, cloth = self.session.style, self.cloth
        if style is None or cloth is None:
            return
        lengths = self.session.lengths
        lines = [f"{c.name}\n{lengths.text(c.usable_width_mm, 0)}" for c in style.cloths]
        self.list.blockSignals(True)
        if [self.list.item(i).text() for i in range(self.list.count())] != lines:
            self.list.clear()
            self.list.addItems(lines)
        self.list.setCurrentRow([c.id for c in style.cloths].index(cloth.id))
        self.list.blockSignals(False)
        self.tool.chosen = min(self.tool.chosen, len(cloth.flaws) - 1)
        self.roll.show(cloth, self.tool.chosen)
        self.form.show_cloth(cloth)
        self.pieces.show_style(style)
        on_roll = self.pages.page == "roll"
        self.actions_made["cloth.remove_flaw"].setEnabled(on_roll and self.tool.chosen >= 0)
        if self.pages.page == "strips":
            self.strips.show_style(style, cloth)
        elif self.pages.page == "hold":
            self.judge.ask(style, self.hold.candidate_cloths(style))
            self.hold.show_style(style)
            self.pull.show_style(style)  # the field's figures stand beside the line's
        elif self.pages.page == "trials":
            self.trials.show_style(style)
        elif self.pages.page == "pull":
            self.pull.show_style(style)
        elif self.pages.page == "register":
            self.register.show_style(style, cloth)
        price = ""
        if cloth.price_per_m is not None:
            measures = lengths.measures
            amount = localised(measures.price_text(cloth.price_per_m))
            price = f"{amount} {cloth.currency}/{measures.length_unit}"
        self.facts.emit(
            "  ·  ".join(part for part in (lengths.text(cloth.usable_width_mm, 0), price) if part)
        )

    # -- edits ------------------------------------------------------------------------------------
    def edit(self, step: str, change, *args: object, merge: str = "", **fields: object) -> bool:
        document = self.session.document
        if document is None:
            return False
        try:
            style: Style = change(document.style, *args, **fields)
        except AppError as error:
            self.status.emit(told_text(str(error)))
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            self.status.emit(f"{'.'.join(map(str, first['loc']))}: {first['msg']}")
        else:
            return self.session.apply(step_name(step, self.tool.cloth), style, merge=merge)
        self.refresh()  # the refused value leaves the field
        return False

    def _entered(self, fields: object) -> None:
        assert isinstance(fields, dict)
        step = "tight direction" if "tight_direction_deg" in fields else "cloth"
        merge = f"cloth:{self.tool.cloth}:{next(iter(fields))}"
        self.edit(step, edits.set_cloth, self.tool.cloth, merge=merge, **fields)

    def turn_direction(self) -> None:
        """Swap along and across."""
        cloth = self.cloth
        if cloth is not None:
            turned = 90.0 if cloth.tight_direction_deg == 0.0 else 0.0
            self.edit("tight direction", edits.set_cloth, cloth.id, tight_direction_deg=turned)

    def add_cloth(self) -> None:
        """Add a copy of the cloth shown."""
        style, cloth = self.session.style, self.cloth
        if style is None or cloth is None:
            return
        number = 2
        while any(c.id == f"{cloth.id}-{number}" for c in style.cloths):
            number += 1
        copy = cloth.model_copy(
            update={"id": f"{cloth.id}-{number}", "name": f"{cloth.name} ({number})", "flaws": ()}
        )
        if self.edit("add cloth", edits.add_cloth, copy):
            self.tool.cloth = copy.id
            self.refresh()

    def remove_cloth(self) -> None:
        """Take the cloth shown out of the style."""
        if self.cloth is not None:
            self.edit("remove cloth", edits.remove_cloth, self.tool.cloth)

    def remove_flaw(self) -> None:
        """Take the selected flaw away."""
        if self.tool.chosen >= 0:
            index, self.tool.chosen = self.tool.chosen, -1
            self.edit("remove flaw", edits.set_flaw, self.tool.cloth, index, None)

    def _back_piece(self, piece: str, layer: int, cloth: str) -> None:
        style = self.session.style
        if style is None:
            return
        layers = list(style.piece(piece).layers)
        if not cloth:
            del layers[layer:]
        elif layer < len(layers):
            layers[layer] = layers[layer].model_copy(update={"cloth": cloth})
        else:
            layers.append(LayerData(cloth=cloth))
        self.edit("backing", edits.set_layers, piece, layers)

    # -- pointer ----------------------------------------------------------------------------------
    def _pressed(self, at: Pointer) -> None:
        if self.session.document is not None and self.cloth is not None:
            self._carry_out(self.tool.press(self.session.document.style, at))

    def _moved(self, at: Pointer) -> None:
        self._carry_out(self.tool.move(at))
        lengths = self.session.lengths
        self.passing.emit(f"x {lengths.text(at.x_mm)}   y {lengths.text(at.y_mm)}")

    def _released(self, at: Pointer) -> None:
        self._carry_out(self.tool.release(at))
        self.refresh()

    def let_go(self) -> None:
        """Give up the gesture or the selected flaw."""
        self._carry_out(self.tool.cancel())
        self.refresh()

    def _carry_out(self, outcomes: list[Outcome]) -> None:
        for outcome in outcomes:
            match outcome:
                case Sweep(box):
                    self.roll.show_sweep(box)
                case Commit(step, style):
                    self.session.apply(step_name(step, self.tool.cloth), style)
                case _:
                    pass

    # -- the other pages --------------------------------------------------------------------------
    def _page_turned(self, page: str) -> None:
        self.roll_form.setVisible(page == "roll")
        for name in ("fit", "zoom_in", "zoom_out"):
            self.actions_made[f"cloth.{name}"].setEnabled(page == "roll")
        for name in ("add_strip", "remove_strip", "read_strips", "export_strips", "take_direction"):
            self.actions_made[f"cloth.{name}"].setEnabled(page == "strips")
        self.actions_made["cloth.export_hold"].setEnabled(page == "hold")
        for name in ("read_cards", "export_cards"):
            self.actions_made[f"cloth.{name}"].setEnabled(page == "register")
        if self.isVisible():
            self.refresh()

    # -- looking ----------------------------------------------------------------------------------
    def _row(self, row: int) -> None:
        style = self.session.style
        if style is not None and 0 <= row < len(style.cloths):
            self.tool.cloth, self.tool.chosen = style.cloths[row].id, -1
            self.refresh()

    def _next(self) -> None:
        self.list.setCurrentRow((self.list.currentRow() + 1) % max(self.list.count(), 1))

    def _previous(self) -> None:
        self.list.setCurrentRow((self.list.currentRow() - 1) % max(self.list.count(), 1))

    def fit(self) -> None:
        """Show the whole stretch."""
        self.view.look_at(self.roll.bounds)


DESK = ClothDesk
