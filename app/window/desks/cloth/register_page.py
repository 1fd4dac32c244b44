"""The workshop's register of cloths: take one into the style, or file the one shown."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.cloth_register import ClothRegister, Entry
from app.errors import AppError
from app.style.model import ClothData, Style
from app.window.desks.cost.tables import Table
from app.window.lengths import Lengths

translate = QCoreApplication.translate


class RegisterPage(QWidget):
    """``taken`` carries the card of a cloth for the style; ``told`` a line for the status bar."""

    taken = Signal(object)
    told = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._cloth: ClothData | None = None
        self._entries: tuple[Entry, ...] = ()
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 10)
        column.setSpacing(8)
        head = QLabel(translate("Register", "Cloths of the workshop"))
        head.setProperty("role", "heading")
        column.addWidget(head)
        self.table = Table(
            [
                translate("Register", "Cloth"),
                translate("Register", "Usable width"),
                translate("Register", "Tight direction"),
                translate("Register", "Known by"),
                translate("Register", "Strips"),
                translate("Register", "Revision"),
                translate("Register", "Changed by"),
            ],
            translate("Register", "Cloths of the workshop"),
        )
        self.table.itemSelectionChanged.connect(self._selected)
        column.addWidget(self.table, 1)
        row = QHBoxLayout()
        self.take = QPushButton(translate("Register", "Take into the style"))
        self.take.setToolTip(
            translate("Register", "A copy: later changes in the register do not touch the style")
        )
        self.take.clicked.connect(self._take)
        self.file = QPushButton()
        self.file.clicked.connect(self.file_shown)
        row.addWidget(self.take)
        row.addStretch(1)
        row.addWidget(self.file)
        column.addLayout(row)

    def show_style(self, style: Style, cloth: ClothData) -> None:
        """Show the register, read anew, beside the cloth shown."""
        self._cloth = cloth
        self.file.setText(translate("Register", "File {0} in the register").format(cloth.name))
        try:
            self._entries = ClothRegister().entries("cloth")
        except AppError as error:
            self._entries = ()
            self.told.emit(str(error))
        chosen = self.table.currentRow()
        self.table.fill([self._row(entry) for entry in self._entries])
        if 0 <= chosen < len(self._entries):
            self.table.setCurrentCell(chosen, 0)
        self._selected()

    def _row(self, entry: Entry) -> list[str]:
        cloth = entry.cloth
        how = {
            "tested": translate("Cloth", "tested"),
            "supplier": translate("Cloth", "supplier's word"),
            "assumed": translate("Cloth", "assumed"),
        }
        return [
            cloth.name,
            self._lengths.text(cloth.usable_width_mm, 0),
            f"{cloth.tight_direction_deg:g}°",
            how[cloth.how_known],
            str(len(cloth.tests)),
            str(entry.revision),
            entry.who,
        ]

    def _selected(self) -> None:
        self.take.setEnabled(0 <= self.table.currentRow() < len(self._entries))

    def _take(self) -> None:
        self.taken.emit(self._entries[self.table.currentRow()].cloth)

    def file_shown(self) -> None:
        """File the cloth shown, as a new revision where there is one.

        Its flaws stay out: they lie on a roll, not on a card.
        """
        cloth = self._cloth
        if cloth is None:
            return
        seen = next((entry.revision for entry in self._entries if entry.id == cloth.id), None)
        try:
            entry = ClothRegister().save(cloth.model_copy(update={"flaws": ()}), seen=seen)
        except AppError as error:
            self.told.emit(str(error))
            return
        self.told.emit(translate("Register", "{0} is filed, revision {1}").format(cloth.name, entry.revision))
