"""Which piece is backed with which cloth: one row a piece, one box a layer."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.style.model import Style

translate = QCoreApplication.translate


class BackedPieces(QWidget):
    """``chosen`` carries piece, layer and the cloth's id ('' = no such layer)."""

    chosen = Signal(str, int, str)

    def __init__(self) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 8, 0, 0)
        head = QLabel(translate("Cloth", "Backing of each piece"))
        head.setProperty("role", "heading")
        head.setContentsMargins(12, 4, 12, 0)
        column.addWidget(head)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column.addWidget(self._scroll, 1)
        self._shown: object = None

    def show_style(self, style: Style) -> None:
        """Show the pieces of a style; rebuilt only when pieces or cloths changed."""
        state = (
            [(piece.name, [layer.cloth for layer in piece.layers]) for piece in style.pieces],
            [(cloth.id, cloth.name) for cloth in style.cloths],
        )
        if state == self._shown:
            return
        self._shown = state
        page = QWidget()
        grid = QGridLayout(page)
        grid.setContentsMargins(12, 2, 12, 8)
        grid.setSpacing(5)
        for number, piece in enumerate(style.pieces):
            name = QLabel(piece.name)
            name.setContentsMargins(0, 4, 0, 0)
            grid.addWidget(name, 2 * number, 0, 1, 2)
            for layer in range(len(piece.layers) + 1):
                if layer > 1 and layer == len(piece.layers):
                    continue  # a third layer is not offered, though a file may have one
                box = QComboBox()
                box.addItem(translate("Cloth", "none") if layer == 0 else "–", "")
                for cloth in style.cloths:
                    box.addItem(cloth.name, cloth.id)
                if layer < len(piece.layers):
                    cloth_id = piece.layers[layer].cloth or style.cloths[0].id
                    box.setCurrentIndex(box.findData(cloth_id))
                box.setProperty("piece", piece.name)
                box.setProperty("layer", layer)
                box.setAccessibleName(
                    translate("Cloth", "Cloth of {0}, layer {1}").format(piece.name, layer + 1)
                )
                box.setMinimumWidth(60)
                box.activated.connect(self._activated)
                box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
                grid.addWidget(box, 2 * number + 1, layer)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        grid.setRowStretch(2 * len(style.pieces), 1)
        self._scroll.setWidget(page)

    def _activated(self, index: int) -> None:
        box = self.sender()
        assert isinstance(box, QComboBox)
        self.chosen.emit(box.property("piece"), box.property("layer"), str(box.itemData(index)))
