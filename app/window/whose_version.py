"""The question whose version counts, when a file was written by another program in the meantime."""

from __future__ import annotations

from enum import Enum

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QMessageBox, QWidget

from app.style.difference import differences
from app.style.document import Document
from app.style.model import Style

translate = QCoreApplication.translate

MOST_LINES = 8
"""This many differences are listed; the rest are counted, or the box outgrows the screen."""


class Whose(Enum):
    """Whose version counts; LATER leaves both as they are."""

    MINE = "mine"
    THEIRS = "theirs"
    BESIDE = "beside"
    LATER = "later"


def ask_whose(document: Document, theirs: Style, *, saving: bool, parent: QWidget) -> Whose:
    """Ask, and show what differs from the version on the screen."""
    assert document.path is not None
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.NoIcon)
    box.setWindowTitle(translate("Files", "The file was changed elsewhere"))
    box.setText(
        translate("Files", "“{0}” was saved by another window or program since it was read here.").format(
            document.path.name
        )
    )
    lines = [str(each) for each in differences(document.style, theirs)]
    more = len(lines) - MOST_LINES
    shown = lines[:MOST_LINES] + ([translate("Files", "and {0} more").format(more)] if more > 0 else [])
    box.setInformativeText(translate("Files", "What differs:\n{0}").format("\n".join(shown)))
    role = QMessageBox.ButtonRole
    mine = box.addButton(
        translate("Files", "Overwrite with mine") if saving else translate("Files", "Keep mine"),
        role.DestructiveRole,
    )
    taken = box.addButton(translate("Files", "Use theirs"), role.AcceptRole)
    beside = box.addButton(translate("Files", "Save mine beside it…"), role.AcceptRole)
    later = box.addButton(translate("Files", "Cancel"), role.RejectRole)
    box.setDefaultButton(beside)
    box.setEscapeButton(later)
    box.exec()
    clicked = box.clickedButton()
    box.deleteLater()
    answers = {mine: Whose.MINE, taken: Whose.THEIRS, beside: Whose.BESIDE}
    return next((answer for button, answer in answers.items() if clicked is button), Whose.LATER)
