"""A question to the person: a head, what is asked below it, and the two buttons."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QVBoxLayout, QWidget

from app.window.widgets.theme import ui_font


class QuestionDialog(QDialog):
    """A subclass puts what it asks into ``column`` or ``form``, and calls ``finish`` last."""

    def __init__(self, title: str, head: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(22, 18, 22, 16)
        self.column.setSpacing(10)
        words = QLabel(head)
        words.setFont(ui_font(11, bold=True))
        words.setWordWrap(True)
        self.column.addWidget(words)
        self.form = QFormLayout()
        self.column.addLayout(self.form)

    def finish(self, done: str = "") -> None:
        """Put the buttons under what was asked; Enter in a field answers as the first, called ``done``."""
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        if done:
            buttons.button(QDialogButtonBox.StandardButton.Ok).setText(done)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self.column.addWidget(buttons)
