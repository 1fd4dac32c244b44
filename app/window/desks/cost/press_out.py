"""The order cut on a press: layers and spread are asked for, the press list is written into a folder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, Signal
from PySide6.QtWidgets import (
    QComboBox,
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
from app.window.desks.cost.interface import CostBench
from app.window.running.command_run import CommandRun
from app.window.widgets.fields import NumberField
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


class PressDialog(QDialog):
    """Asks how many layers a stroke cuts, and how they lie."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
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
        self.spread = QComboBox()
        for spread in SPREADS:
            self.spread.addItem(spread_name(spread), spread)
        self.spread.setAccessibleName(translate("Cost", "How the layers lie"))
        form = QFormLayout()
        form.addRow(self.layers.accessibleName(), self.layers)
        form.addRow(self.spread.accessibleName(), self.spread)
        column.addLayout(form)
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
        """Nobody guesses the layers: without them there is nothing to write."""
        number = self.layers.from_text(self.layers.text()) if self.layers.text().strip() else None
        self.write.setEnabled(number is not None and number >= 1)


class PressOut(QObject):
    """Runs ``press`` in a process of its own; tells of it in the status line of its desk.

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
        dialog = PressDialog(self._desk)
        if dialog.exec() != QDialog.DialogCode.Accepted:
            return
        folder = QFileDialog.getExistingDirectory(self._desk, translate("Cost", "Export into a folder"))
        if folder:
            self.write(Path(folder), round(dialog.layers.value or 0), dialog.spread.currentData())

    def write(self, folder: Path, layers: int, spread: Spread) -> None:
        """Set out the order's dies and write list and lays into ``folder``/press."""
        style, pairs = self._desk.session.style, self._desk.side.order.pairs
        if style is None or self.run.running:
            return
        if not pairs:
            self._desk.status.emit(translate("Cost", "The order has no pairs: type some, or open an order"))
            return
        words = ["--pairs", ",".join(f"{size}:{n}" for size, n in pairs.items())]
        words += ["--layers", str(layers), "--spread", spread, "-o", str(folder / "press")]
        self.run.start("press", style, words)
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
