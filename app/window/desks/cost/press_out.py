"""The order cut on a press: layers and spread are asked for, the press list is written into a folder."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.press.job import SPREADS, Spread
from app.style.model import HouseRules
from app.window.desks.cost.interface import CostBench
from app.window.running.command_run import CommandRun
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import ui_font
from app.window.wording.cautions import caution_label

translate = QCoreApplication.translate


def spread_name(spread: Spread) -> str:
    """Return how the layers lie, in words."""
    return {
        "face-up": translate("Cost", "Face up, a die for each hand"),
        "face-to-face": translate("Cost", "Face to face, one die for both hands"),
        "turned": translate("Cost", "Glue up for one hand, glue down for the other, one die"),
    }[spread]


@dataclass(frozen=True)
class PressAsked:
    """How the order is pressed: ``layers`` a stroke, or as many as lie under ``height_mm`` of the die.

    What is None is the house's.
    """

    layers: int | None = None
    height_mm: float | None = None
    gap_mm: float | None = None
    spread: Spread = "face-up"

    @property
    def words(self) -> list[str]:
        """The words of the command."""
        words = ["--spread", self.spread]
        for name, value in (
            ("layers", self.layers),
            ("cutting-height", self.height_mm),
            ("gap", self.gap_mm),
        ):
            words += [] if value is None else [f"--{name}", f"{value:g}"]
        return words


class PressDialog(QDialog):
    """Asks how many layers a stroke cuts or how high the die may cut, how they lie, how far apart cuts are.

    Nothing is filled in: an empty field shows the house rule, where there is one.
    """

    def __init__(self, rules: HouseRules, lengths: Lengths, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._house_height = bool(rules.cutting_height_mm)
        self.setWindowTitle(translate("Cost", "Press cutting"))
        column = QVBoxLayout(self)
        column.setContentsMargins(22, 18, 22, 16)
        column.setSpacing(10)
        head = QLabel(translate("Cost", "Dies, strokes and rows for this order"))
        head.setFont(ui_font(11, bold=True))
        column.addWidget(head)
        self.layers = NumberField(translate("Cost", "Layers cut per stroke"), digits=0, optional=True)
        self.layers.entered.connect(self._allow)
        self.layers.textChanged.connect(self._allow)
        self.cutting_height = LengthField(
            translate("Cost", "Cutting height of the die"), lengths, optional=True
        )
        self.cutting_height.setToolTip(
            translate("Cost", "Instead of the layers: as many as lie under it, by the thickness of the cloth")
        )
        self.cutting_height.textChanged.connect(self._allow)
        if rules.cutting_height_mm:
            self.cutting_height.setPlaceholderText(self.cutting_height.to_text(rules.cutting_height_mm))
        self.gap = LengthField(translate("Cost", "Gap between cuts"), lengths, optional=True)
        self.gap.setToolTip(translate("Cost", "The web that stays between two cuts; empty: the house rule"))
        self.gap.setPlaceholderText(self.gap.to_text(rules.gap_mm))
        self.spread = Chooser()
        for spread in SPREADS:
            self.spread.addItem(spread_name(spread), spread)
        self.spread.setAccessibleName(translate("Cost", "How the layers lie"))
        form = QFormLayout()
        for field in (self.layers, self.cutting_height, self.spread, self.gap):
            form.addRow(field.accessibleName(), field)
        column.addLayout(form)
        self.both = QLabel(translate("Cost", "Give the layers or the height, not both."))
        self.both.setWordWrap(True)
        column.addWidget(self.both)
        advice = QLabel(
            translate(
                "Cost", "How many layers a die may cut: see the die maker's and the press maker's sheets."
            )
        )
        advice.setWordWrap(True)
        advice.setProperty("role", "soft")
        column.addWidget(advice)
        column.addWidget(caution_label("press"))
        buttons = QDialogButtonBox()
        self.write = QPushButton(translate("Cost", "Write the press list…"))
        self.write.setDefault(True)
        leave = QPushButton(translate("Cost", "Cancel"))
        buttons.addButton(self.write, QDialogButtonBox.ButtonRole.AcceptRole)
        buttons.addButton(leave, QDialogButtonBox.ButtonRole.RejectRole)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column.addWidget(buttons)
        self._allow()

    def _allow(self, _: object = None) -> None:
        """Nobody guesses the layers: without them or a height there is nothing to write, nor with both."""
        layers, height = self.layers.text().strip(), self.cutting_height.text().strip()
        if layers and height:
            allowed = False
        elif layers:
            allowed = (self.layers.from_text(layers) or 0.0) >= 1.0
        elif height:
            allowed = (self.cutting_height.from_text(height) or 0.0) > 0.0
        else:
            allowed = self._house_height
        self.both.setVisible(bool(layers and height))
        self.write.setEnabled(allowed)

    @property
    def asked(self) -> PressAsked:
        """What was typed."""
        layers, height, gap = (
            each.from_text(each.text().strip()) if each.text().strip() else None
            for each in (self.layers, self.cutting_height, self.gap)
        )
        spread = self.spread.currentData()
        return PressAsked(None if layers is None else round(layers), height, gap, spread)


class PressOut(QObject):
    """Runs ``press`` in a process of its own; reports in the status line of its desk.

    ``changed`` when it began or ended.
    """

    changed = Signal()

    def __init__(self, desk: CostBench) -> None:
        super().__init__(desk)
        self._desk = desk
        self.run = CommandRun(self)
        self.run.told.connect(desk.status)
        self.run.done.connect(self._done)
        self.run.failed.connect(self._failed)

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return the handler of each action."""
        return {"cost.press": self.ask}

    def ask(self) -> None:
        """Ask for layers, spread and a folder, and write the press list there."""
        style = self._desk.session.style
        if style is None:
            return
        dialog = PressDialog(style.rules, self._desk.session.lengths, self._desk)
        if dialog.exec() != QDialog.DialogCode.Accepted:
            return
        folder = QFileDialog.getExistingDirectory(self._desk, translate("Cost", "Export into a folder"))
        if folder:
            self.write(Path(folder), dialog.asked)

    def write(self, folder: Path, asked: PressAsked) -> None:
        """Set out the order's dies and write list and lays into ``folder``/press."""
        style, pairs = self._desk.session.style, self._desk.side.order.pairs
        if style is None or self.run.running:
            return
        if not pairs:
            self._desk.status.emit(translate("Cost", "The order has no pairs: type some, or open an order"))
            return
        words = ["--pairs", ",".join(f"{size}:{n}" for size, n in pairs.items())]
        words += [*asked.words, "-o", str(folder / "press")]
        self.run.start("press", style, words)
        self.changed.emit()

    def give_up(self) -> None:
        """End the work: a list without some of its dies is no list, so nothing is written."""
        self.run.stop()
        self._desk.status.emit(translate("Cost", "Press cutting stopped; nothing was written"))
        self.changed.emit()

    def _done(self, payload: object) -> None:
        assert isinstance(payload, dict)
        dies = payload["dies"]
        self._desk.status.emit(
            translate("Cost", "Press list written: dies {0}, strokes {1}").format(
                len(dies), sum(die["strokes"] for die in dies)
            )
        )
        self.changed.emit()

    def _failed(self, why: str) -> None:
        self._desk.status.emit(why)
        self.changed.emit()
