"""Which piece is backed with which cloth: one row per piece, one box per layer."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.style.model import Style
from app.window.widgets.chooser import Chooser

translate = QCoreApplication.translate

LAYERS_OFFERED = 2
"""A third layer is not offered, though a file may have one. Common practice, no source."""


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
        self._made_for: object = None
        self._boxes: dict[str, list[QComboBox]] = {}

    def show_style(self, style: Style) -> None:
        """Show the pieces of a style. The boxes are made again only for other pieces or cloths."""
        pieces = [(piece.name, max(len(piece.layers), LAYERS_OFFERED)) for piece in style.pieces]
        made_for = (pieces, [(cloth.id, cloth.name) for cloth in style.cloths])
        if made_for != self._made_for:
            self._made_for = made_for
            self._make(style)
        for piece in style.pieces:
            for layer, box in enumerate(self._boxes[piece.name]):
                backed = layer < len(piece.layers)
                cloth_id = (piece.layers[layer].cloth or style.cloths[0].id) if backed else ""
                box.setCurrentIndex(box.findData(cloth_id))
                box.setVisible(layer <= len(piece.layers))

    def _make(self, style: Style) -> None:
        """Make a row per piece; the old boxes go when the event is over, or they would end the program."""
        old = self._scroll.takeWidget()
        if old is not None:
            old.hide()
            old.deleteLater()
        page = QWidget()
        grid = QGridLayout(page)
        grid.setContentsMargins(12, 2, 12, 8)
        grid.setSpacing(5)
        self._boxes = {}
        for number, piece in enumerate(style.pieces):
            name = QLabel(piece.name)
            name.setContentsMargins(0, 4, 0, 0)
            grid.addWidget(name, 2 * number, 0, 1, 2)
            boxes = [self._box(style, piece.name, k) for k in range(max(len(piece.layers), LAYERS_OFFERED))]
            for layer, box in enumerate(boxes):
                grid.addWidget(box, 2 * number + 1, layer)
            self._boxes[piece.name] = boxes
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        grid.setRowStretch(2 * len(style.pieces), 1)
        self._scroll.setWidget(page)

    def _box(self, style: Style, piece: str, layer: int) -> QComboBox:
        box = Chooser()
        box.addItem(translate("Cloth", "none") if layer == 0 else "–", "")
        for cloth in style.cloths:
            box.addItem(cloth.name, cloth.id)
            box.setItemData(box.count() - 1, cloth.name, Qt.ItemDataRole.ToolTipRole)
        box.setProperty("piece", piece)
        box.setProperty("layer", layer)
        box.setAccessibleName(translate("Cloth", "Cloth of {0}, layer {1}").format(piece, layer + 1))
        box.setMinimumWidth(60)
        box.activated.connect(self._activated)
        box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        return box

    def _activated(self, index: int) -> None:
        box = self.sender()
        assert isinstance(box, QComboBox)
        self.chosen.emit(box.property("piece"), box.property("layer"), str(box.itemData(index)))
