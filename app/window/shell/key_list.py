"""The list of keys, made from the action table; a search box finds an action by word or key."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QSortFilterProxyModel, Qt
from PySide6.QtGui import QKeySequence, QStandardItem, QStandardItemModel
from PySide6.QtWidgets import QDialog, QHeaderView, QLineEdit, QTreeView, QVBoxLayout, QWidget

from app.window.shell.actions import ActionSpec

translate = QCoreApplication.translate


def pointer_keys() -> list[tuple[str, str]]:
    """What the pointer does on every board, with its keys."""
    return [
        (translate("Keys", "Zoom to the pointer"), translate("Keys", "Wheel")),
        (translate("Keys", "Move the board"), translate("Keys", "Middle button, or Ctrl+Shift and drag")),
        (translate("Keys", "Move the board sideways"), translate("Keys", "Shift and wheel")),
        (translate("Keys", "Add to the selection"), translate("Keys", "Shift and click")),
        (translate("Keys", "Snap to whole steps while dragging"), translate("Keys", "Hold Ctrl")),
    ]


class KeyList(QDialog):
    """All actions with their keys, grouped by where they work."""

    def __init__(self, groups: list[tuple[str, list[ActionSpec]]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(translate("Keys", "Keys"))
        self.resize(960, 620)
        layout = QVBoxLayout(self)
        self.search = QLineEdit()
        self.search.setPlaceholderText(translate("Keys", "Find an action or a key"))
        self.search.setClearButtonEnabled(True)
        self.search.setAccessibleName(self.search.placeholderText())
        layout.addWidget(self.search)
        model = QStandardItemModel(0, 3, self)
        model.setHorizontalHeaderLabels(
            [translate("Keys", "Action"), translate("Keys", "Keys"), translate("Keys", "What it does")]
        )
        for title, specs in groups:
            head = _row(title)
            head[0].setFont(self.font())
            for spec in specs:
                keys = ", ".join(
                    QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText) for key in spec.keys
                )
                head[0].appendRow(_row(spec.plain_text(), keys, spec.shown_tip))
            model.appendRow(head)
        mouse = _row(translate("Keys", "With the mouse"))
        for text, keys in pointer_keys():
            mouse[0].appendRow(_row(text, keys))
        model.appendRow(mouse)
        self.found = QSortFilterProxyModel(self)
        self.found.setSourceModel(model)
        self.found.setFilterKeyColumn(-1)
        self.found.setFilterCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.found.setRecursiveFilteringEnabled(True)
        self.tree = QTreeView()
        self.tree.setModel(self.found)
        self.tree.setEditTriggers(QTreeView.EditTrigger.NoEditTriggers)
        self.tree.setAlternatingRowColors(True)
        self.tree.header().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.tree.header().setStretchLastSection(True)
        self.tree.expandAll()
        layout.addWidget(self.tree)
        self.search.textChanged.connect(self._filter)
        self.search.setFocus()

    def _filter(self, text: str) -> None:
        self.found.setFilterFixedString(text)
        self.tree.expandAll()


def _row(*texts: str) -> list[QStandardItem]:
    row = [QStandardItem(text) for text in (*texts, *[""] * (3 - len(texts)))]
    row[2].setToolTip(row[2].text())
    return row
