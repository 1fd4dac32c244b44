"""A lay that was opened out of a run plan: what the plan needs of it, and giving it back, locked."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.errors import AppError
from app.lay.job import document_of
from app.plan.locked_lays import given_back, locked_lay, require_fit
from app.style.model import LayData, Style
from app.window.desks.draft.view_strip import action_button
from app.window.desks.lay.interface import LayBench
from app.window.desks.lay.lay_out import ask_reason, limits_broken
from app.window.widgets.lengths import Lengths
from app.window.wording.core_words import told_text
from app.window.wording.words import step_name
from geometry.errors import GeometryError
from nesting.errors import NestingError

translate = QCoreApplication.translate


class PlannedBox(QWidget):
    """Says what the plan needs of the lay shown and whether it has it back; hidden for any other lay."""

    def __init__(self, lengths: Lengths, give_back: QAction) -> None:
        super().__init__()
        self._lengths = lengths
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 0, 12, 8)
        column.setSpacing(5)
        head = QLabel(translate("Lay", "Lay of the run plan"))
        head.setProperty("role", "heading")
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.button = action_button(give_back, words=True)
        for widget in (head, self.words, self.button):
            column.addWidget(widget)
        self.hide()

    def show_lay(self, style: Style, lay: LayData) -> None:
        """Show what a lay is to the plan."""
        planned = lay.planned
        self.setVisible(planned is not None)
        if planned is None:
            return
        pairs = ", ".join(f"{size}: {count}" for size, count in planned.pairs.items())
        room = self._lengths.roll_text(planned.room_mm)
        plies = translate("Lay", "1 ply") if planned.plies == 1 else translate("Lay", "{0} plies")
        lines = [
            f"{planned.name}  ·  {plies.format(planned.plies)}",
            translate("Lay", "needs the pairs {0}, at most {1} long").format(pairs, room),
        ]
        locked = locked_lay(style, planned.cloth, planned.name)
        if locked is None:
            lines.append(translate("Lay", "not given back yet"))
        elif locked.placements == lay.placements and locked.pairs == lay.pairs:
            lines.append(translate("Lay", "given back: locked in the plan as it is here"))
        else:
            lines.append(
                translate("Lay", "changed since it was given back; the plan holds it as it was then")
            )
        self.words.setText("\n".join(lines))


class GiveBack(QObject):
    """Locks the shown lay in its plan; holds nothing but its desk."""

    def __init__(self, desk: LayBench) -> None:
        super().__init__(desk)
        self._desk = desk

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {"lay.give_back": self.give_back}

    def give_back(self) -> None:
        """Give the shown lay back to the plan; refused, with what is missing, where the plan needs more."""
        desk = self._desk
        style, lay = desk.session.style, desk.lay
        if style is None or lay is None or lay.planned is None or desk.run.running:
            return
        try:
            job, problem, made = require_fit(style, lay)
            weak = limits_broken(style, document_of(job, problem, made))
            reason = ask_reason(desk, weak) if weak else ""
            if reason is None:
                return
            locked = given_back(style, lay, reason)
        except (AppError, GeometryError, NestingError) as error:
            desk.status.emit(translate("Lay", "Not given back: {0}").format(told_text(str(error))))
            return
        told = translate("Lay", "Lay {0} is given back and locked: the run plan keeps it as it is")
        if not desk.session.apply(step_name("give back", lay.name), locked):
            told = translate("Lay", "The plan already has lay {0} as it is here")
        desk.status.emit(told.format(lay.planned.name))
