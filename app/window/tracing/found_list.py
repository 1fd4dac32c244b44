"""What was found on traced cards, notches and drawn lines: a tick beside each, what is not ticked stays away."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from app.window.widgets.lengths import Lengths
from geometry.piece import DrawnPiece

translate = QCoreApplication.translate
Place = tuple[int, str, int]
"""Number of the card, "notch" or "line", and which of them."""


class FoundList(QListWidget):
    """Hidden while there is nothing in it; ``itemChanged`` reports a tick."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._places: list[Place] = []
        self.setAccessibleName(translate("Trace", "Notches and lines found"))
        self.setMinimumHeight(80)
        self.hide()

    def fill(self, cards: tuple[DrawnPiece, ...]) -> None:
        """List what was found on these cards, all of it ticked."""
        self.blockSignals(True)
        self.clear()
        self._places = []
        for number, card in enumerate(cards):
            for k, notch in enumerate(card.notches):
                figure = self._lengths.text(notch.depth_mm)
                told = translate("Trace", "{0}: notch, {1} deep").format(card.name, figure)
                self._add((number, "notch", k), told)
            for k, mark in enumerate(card.marks):
                length = float(np.hypot(*np.diff(mark.points_mm, axis=0).T).sum())
                told = translate("Trace", "{0}: line, {1} long").format(card.name, self._lengths.text(length))
                self._add((number, "line", k), told)
        self.blockSignals(False)
        self.setVisible(bool(self._places))

    def kept(self, cards: tuple[DrawnPiece, ...]) -> tuple[DrawnPiece, ...]:
        """Return cards with the notches and lines that are ticked."""
        rows = enumerate(self._places)
        on = {at for row, at in rows if self.item(row).checkState() == Qt.CheckState.Checked}
        return tuple(
            replace(
                card,
                notches=tuple(n for k, n in enumerate(card.notches) if (number, "notch", k) in on),
                marks=tuple(m for k, m in enumerate(card.marks) if (number, "line", k) in on),
            )
            for number, card in enumerate(cards)
        )

    def _add(self, place: Place, text: str) -> None:
        item = QListWidgetItem(text)
        item.setToolTip(text)
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(Qt.CheckState.Checked)
        self._places.append(place)
        self.addItem(item)
